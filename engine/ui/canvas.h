// One picture of the window: its filler, what was last asked of it and what is shown. On the
// processor the filler works on a thread of its own, so that no frame waits for a picture; OpenGL
// works where its context is.
#pragma once

#include "engine/render/noise_figure.h"
#include "engine/render/presenter.h"
#include "engine/ui/lens_view.h"
#include "engine/ui/newest.h"

#include <functional>
#include <memory>

namespace keystead::ui {

/// Light by way of other surfaces, and what it was baked for.
struct Bounce {
    std::shared_ptr<const IndirectLight> light;
    std::shared_ptr<const Studio> of;
};

/// A picture that is wanted.
struct PictureJob {
    std::shared_ptr<const Studio> studio;
    Bounce bounce;
    View view;
    int width = 16, height = 16;
    int target = 1; ///< samples after which it is left alone
    Display display;
    bool measure_noise = false;
    std::uint64_t revision = 0; ///< of the document, told again with what came of it
    double budget_s = 0.0;      ///< samples are added for about as long
};

/// What came of it.
struct PictureMade {
    PictureJob job;
    PictureShown shown;   ///< its texture is still to come
    double pixel_s = 0.0; ///< what one sample of one pixel cost
    bool more = false;    ///< samples are still wanted
    bool another = false; ///< it is another picture than before
};

class Canvas {
public:
    Canvas();
    ~Canvas();
    Canvas(const Canvas&) = delete;
    Canvas& operator=(const Canvas&) = delete;

    /// Takes what is finished and goes on with `job`. True when another picture is shown now.
    /// `wake` is called from another thread when there is something to take.
    bool keep_up(FillerKind kind, PictureJob job, const std::function<void()>& wake);

    /// More samples are wanted or on their way.
    bool refining() const;
    /// Nothing can be asked of it before it has finished.
    bool busy() const;

    const PictureShown& shown() const { return shown_; }
    /// What is shown was made from that; null before the first picture.
    const std::shared_ptr<const Studio>& studio() const { return last_.studio; }
    const Display& display() const { return last_.display; }
    std::uint64_t revision() const { return last_.revision; }
    /// While something moves the picture is made as small as it takes to keep up with the pointer.
    /// The size is chosen at the start of a drag, since another size starts all over; where all
    /// starts over anyway (`anew`) and the last sample took far too long, a smaller one is taken.
    float size_for(bool hurried, bool anew, float width, float height);
    std::string device();

private:
    class Easel;
    void take(PictureMade made, unsigned texture);

    std::unique_ptr<Presenter> presenter_;
    std::unique_ptr<Easel> easel_;
    std::unique_ptr<Newest<PictureJob, PictureMade>> hand_; ///< null: works where it is asked
    PictureShown shown_;
    PictureJob last_; ///< of what is shown
    bool more_ = false;
    double pixel_s_ = 0.0;
    float shrink_ = 1.0F; ///< of the drag in hand
    bool was_hurried_ = false;
};

} // namespace keystead::ui
