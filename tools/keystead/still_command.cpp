#include "engine/plate/legend.h"
#include "engine/render/deep_picture.h"
#include "engine/render/png.h"
#include "engine/render/still.h"
#include "sim/review/review.h"
#include "tools/keystead/commands.h"
#include "tools/keystead/common.h"
#include "tools/keystead/exit_codes.h"
#include "tools/keystead/reference_still.h"

#include <algorithm>
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

enum class FileKind { png, deep_png, exr };

Result<FileKind> kind_of(const StillArguments& arguments) {
    const bool linear = std::filesystem::path(arguments.out).extension() == ".exr";
    const bool marked = arguments.shown != "picture" || arguments.clipping;
    if (marked && (linear || arguments.bits != 8))
        return Problem{"--shown, --clipping", "maps and marks have eight bits",
                       "write them to a .png without --bits 16"};
    if (linear) return FileKind::exr;
    return arguments.bits == 16 ? FileKind::deep_png : FileKind::png;
}

bool has_look(const StillArguments& arguments, const char* look) {
    return std::find(arguments.looks.begin(), arguments.looks.end(), look) != arguments.looks.end();
}

Display display_of(const Studio& studio, const StillArguments& arguments, FileKind kind) {
    const Set& set = studio.set;
    Display display = camera_display(set.camera, set.meter);
    display.shown_as = arguments.shown == "stops" ? ShownAs::stops : ShownAs::picture;
    display.clipping = arguments.clipping;
    display.dither = kind == FileKind::png;
    display.print_contrast = has_look(arguments, "print") ? usual_print_contrast : 0.0;
    if (display.shown_as == ShownAs::stops) {
        ReviewOptions quick;
        quick.margins = false;
        const std::optional<double> off = review_set(studio, quick).exposure.stops_off;
        if (!off) complain("nothing lights the face: the map counts from skin in metered light");
        display.face_tone = tone_of_face(set.subject.skin.luminous(), off.value_or(0.0));
    }
    return display;
}

Outcome write_still(const Still& still, const Display& display, FileKind kind,
                    const std::string& file) {
    if (kind == FileKind::exr) return write_exr(still.linear, display, file, still.error);
    if (kind == FileKind::deep_png)
        return write_deep_png(develop_deep(still.linear, display), file);
    return write_png(with_legend(still.picture, display), file);
}

} // namespace

int still_command(const StillArguments& arguments) {
    const std::optional<Set> set = load_or_complain(arguments.set);
    if (!set) return exit_code::input;
    const Result<FileKind> kind = kind_of(arguments);
    if (!kind) {
        complain(kind.problem().message());
        return exit_code::input;
    }
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
    options.surfaces.skin_wrap = has_look(arguments, "skin");
    options.glare = has_look(arguments, "glare");
    options.filler = filler_kind(arguments.filler).value_or(FillerKind::automatic);
    options.progress = show_progress;
    const std::shared_ptr<const Studio> studio = studio_or_complain(*set, arguments.set);
    if (studio == nullptr) return exit_code::input;
    if (arguments.view == "outside") options.view = studio_view(*studio, size.width, size.height);

    options.display = display_of(*studio, arguments, kind.value());
    options.linear = kind.value() != FileKind::png;

    const Result<Still> still = arguments.reference ? reference_still(*studio, options, arguments)
                                                    : render_still(studio, options);
    if (!still) {
        complain(still.problem().message());
        return exit_code::machine;
    }
    if (const Outcome failed =
            write_still(still.value(), *options.display, kind.value(), arguments.out)) {
        complain(failed->message());
        return exit_code::input;
    }
    std::printf("%s: %d x %d, %d %s, drawn by %s\n", arguments.out.c_str(), size.width, size.height,
                still.value().samples,
                arguments.reference ? "paths a pixel" : "samples of every light",
                still.value().device.c_str());
    std::printf("%s.\n", anchor_words(*options.display).c_str());
    return exit_code::done;
}

} // namespace keystead
