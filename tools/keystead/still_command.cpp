#include "engine/render/png.h"
#include "engine/render/still.h"
#include "tools/keystead/commands.h"
#include "tools/keystead/common.h"
#include "tools/keystead/exit_codes.h"

#include <cmath>
#include <cstdio>

namespace keystead {

namespace {

/// The camera's own frame, 1280 pixels on the long side.
PixelSize frame_size(const Camera& camera) {
    constexpr int long_side = 1280;
    const int short_side =
        static_cast<int>(std::lround(long_side * camera.sensor_height_mm / camera.sensor_width_mm));
    return camera.orientation == Orientation::upright ? PixelSize{short_side, long_side}
                                                      : PixelSize{long_side, short_side};
}

} // namespace

int still_command(const StillArguments& arguments) {
    const std::optional<Set> set = load_or_complain(arguments.set);
    if (!set) return exit_code::input;
    StillOptions options;
    PixelSize size = frame_size(set->camera);
    if (!arguments.size.empty()) {
        const Result<PixelSize> wanted = parse_size(arguments.size);
        if (!wanted) {
            complain(wanted.problem().message());
            return exit_code::input;
        }
        size = wanted.value();
    }
    options.width_px = size.width;
    options.height_px = size.height;
    if (arguments.samples > 0) options.samples = arguments.samples;
    options.indirect = !arguments.direct_only;
    options.progress = show_progress;
    const std::shared_ptr<const Studio> studio = studio_or_complain(*set, arguments.set);
    if (studio == nullptr) return exit_code::input;
    if (arguments.view == "outside") options.view = studio_view(*studio, size.width, size.height);

    const Result<Still> still = render_still(studio, options);
    if (!still) {
        complain(still.problem().message());
        return exit_code::machine;
    }
    if (const Outcome failed = write_png(still.value().picture, arguments.out)) {
        complain(failed->message());
        return exit_code::input;
    }
    std::printf("%s: %d x %d, %d samples of every light, drawn by %s\n", arguments.out.c_str(),
                size.width, size.height, still.value().samples, still.value().device.c_str());
    return exit_code::done;
}

} // namespace keystead
