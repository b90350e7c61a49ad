#include "engine/plate/comparison.h"
#include "engine/render/png.h"
#include "engine/render/still.h"
#include "tools/keystead/commands.h"
#include "tools/keystead/common.h"
#include "tools/keystead/exit_codes.h"

#include <cmath>
#include <cstdio>
#include <optional>

namespace keystead {

namespace {

struct Compared {
    Set set;
    std::shared_ptr<const Studio> studio;
    Review review;
};

std::optional<Compared> reviewed(const std::string& file) {
    const std::optional<Set> set = load_or_complain(file);
    if (!set) return std::nullopt;
    std::shared_ptr<const Studio> studio = studio_or_complain(*set, file);
    if (studio == nullptr) return std::nullopt;
    ReviewOptions quick;
    quick.margins = false;
    Review review = review_set(*studio, quick);
    return Compared{*set, std::move(studio), std::move(review)};
}

/// The camera's whole frame at that height.
Result<RgbaImage> picture_of(const Compared& side, const CompareArguments& arguments) {
    const Camera& camera = side.set.camera;
    const bool upright = camera.orientation == Orientation::upright;
    const double shape = upright ? camera.sensor_height_mm / camera.sensor_width_mm
                                 : camera.sensor_width_mm / camera.sensor_height_mm;
    StillOptions options;
    options.height_px = arguments.height_px;
    options.width_px = static_cast<int>(std::lround(shape * arguments.height_px));
    if (arguments.samples > 0) options.samples = arguments.samples;
    options.progress = show_progress;
    Result<Still> still = render_still(side.studio, options);
    if (!still) return still.problem();
    return std::move(still.value().picture);
}

int write_sheet(const Compared& first, const Compared& second, const CompareArguments& arguments,
                const std::vector<Difference>& table) {
    const Result<RgbaImage> left = picture_of(first, arguments);
    const Result<RgbaImage> right = left ? picture_of(second, arguments) : left.problem();
    if (!right) {
        complain(right.problem().message());
        return exit_code::machine;
    }
    const RgbaImage sheet =
        draw_comparison({first.set.name, left.value()}, {second.set.name, right.value()}, table);
    if (const Outcome failed = write_png(sheet, arguments.out)) {
        complain(failed->message());
        return exit_code::input;
    }
    std::printf("%s: %d x %d\n", arguments.out.c_str(), sheet.width, sheet.height);
    return exit_code::done;
}

} // namespace

int compare_command(const CompareArguments& arguments) {
    const std::optional<Compared> first = reviewed(arguments.first);
    const std::optional<Compared> second = first ? reviewed(arguments.second) : std::nullopt;
    if (!second) return exit_code::input;
    const std::vector<Difference> table =
        differences({first->set, first->review}, {second->set, second->review});
    std::fputs(differences_text(table, first->set.name, second->set.name).c_str(), stdout);
    return arguments.out.empty() ? exit_code::done : write_sheet(*first, *second, arguments, table);
}

} // namespace keystead
