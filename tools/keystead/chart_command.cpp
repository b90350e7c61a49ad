#include "engine/plate/pattern_chart.h"
#include "engine/render/png.h"
#include "sim/meter/meter_point.h"
#include "sim/review/review.h"
#include "tools/keystead/commands.h"
#include "tools/keystead/common.h"
#include "tools/keystead/exit_codes.h"

#include <cstdio>

namespace keystead {

namespace {

/// The light named, else the one that the review takes for the key.
Result<std::size_t> light_of(const Studio& studio, const std::string& wanted) {
    std::string id = wanted;
    if (id.empty()) {
        ReviewOptions quick;
        quick.margins = quick.bounce = false;
        id = review_set(studio, quick).portrait.key;
    }
    const std::optional<std::size_t> index = light_index(studio.set, id);
    if (index) return *index;
    if (wanted.empty())
        return Problem{"chart", "no light that is on lights the face",
                       "name the light to chart with --light"};
    return Problem{"--light", "\"" + wanted + "\" is no light of this set", "give one's id"};
}

} // namespace

int chart_command(const ChartArguments& arguments) {
    constexpr int least_width_px = 640, least_height_px = 400;
    const Result<PixelSize> size = parse_size(arguments.size);
    if (!size) {
        complain(size.problem().message());
        return exit_code::input;
    }
    if (size.value().width < least_width_px || size.value().height < least_height_px) {
        complain("--size: " + arguments.size + " is below 640x400, where names are legible");
        return exit_code::input;
    }
    const std::optional<Set> set = load_or_complain(arguments.set);
    if (!set) return exit_code::input;
    const std::shared_ptr<const Studio> studio = studio_or_complain(*set, arguments.set);
    if (studio == nullptr) return exit_code::input;
    const Result<std::size_t> light = light_of(*studio, arguments.light);
    if (!light) {
        complain(light.problem().message());
        return exit_code::input;
    }
    const PatternChart chart = chart_of(*studio, light.value());
    const RgbaImage picture = draw_pattern_chart(chart, size.value().width, size.value().height);
    if (const Outcome failed = write_png(picture, arguments.out)) {
        complain(failed->message());
        return exit_code::input;
    }
    std::printf("%s: %d x %d\n", arguments.out.c_str(), picture.width, picture.height);
    return exit_code::done;
}

} // namespace keystead
