// Keeps the lens picture and the room picture up to date on the current OpenGL context.
#pragma once

#include "engine/render/choose_filler.h"
#include "engine/ui/frame.h"

#include <memory>

namespace keystead::ui {

class PictureMaker {
public:
    explicit PictureMaker(FillerKind wanted = FillerKind::automatic);
    ~PictureMaker();
    PictureMaker(const PictureMaker&) = delete;
    PictureMaker& operator=(const PictureMaker&) = delete;

    /// Shows what is finished and goes on with what is wanted, for at most about `budget_s`; on the
    /// processor the work is done beside the window, and `app.wake` tells when to come again. While
    /// something is dragged pictures are made at half the size. True if a picture changed.
    bool work(const App& app, double budget_s);

    /// The lens picture as it is shown, the kept state left of the divider where there is one;
    /// empty while there is none.
    RgbaImage seen(const App& app) const;

    /// Another display or another picture than the last `work` made is wanted.
    bool behind(const App& app) const;
    /// Of the document that the lens picture was made from.
    std::uint64_t shown_revision() const;
    /// Work is under way beside the window.
    bool busy() const;
    /// More samples are wanted.
    bool refining() const;
    Pictures shown() const;
    /// Grows whenever a picture's content changes: what draws it must be drawn again.
    std::uint64_t counter() const;
    std::string device() const;

private:
    struct Data;
    std::unique_ptr<Data> data_;
};

} // namespace keystead::ui
