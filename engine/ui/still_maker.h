// A converged picture made in the background and written to a file; one at a time.
#pragma once

#include "engine/render/still.h"

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>

namespace keystead::ui {

struct StillProgress {
    bool busy = false;
    double share = 0.0; ///< 0..1
    int width_px = 0, height_px = 0;
    std::filesystem::path file;
};

/// How one ended.
struct StillEnd {
    std::filesystem::path file;
    std::optional<Problem> problem;
    bool stopped = false;
};

class StillMaker {
public:
    StillMaker();
    ~StillMaker();
    StillMaker(const StillMaker&) = delete;
    StillMaker& operator=(const StillMaker&) = delete;

    /// Starts, unless one is under way. `band` goes under the picture and must be as wide; `wake`
    /// is called from the worker each time a hundredth more is done, and at the end.
    bool start(std::shared_ptr<const Studio> studio, StillOptions options, RgbaImage band,
               std::filesystem::path file, std::function<void()> wake);
    void stop();
    StillProgress progress() const;
    /// Once, after one has ended.
    std::optional<StillEnd> take_end();

private:
    struct Data;
    std::unique_ptr<Data> data_;
};

/// `picture` with `band` under it.
RgbaImage with_band(const RgbaImage& picture, const RgbaImage& band);

} // namespace keystead::ui
