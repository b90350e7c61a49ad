#include "sim/subject/skin_scale.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// The outer surface reflects this much whatever lies below; the survey's figures include it.
constexpr double surface_share = 0.03;

double luminance_of(const Vec3& rgb) {
    return glm::dot(rgb, Vec3(0.2126, 0.7152, 0.0722));
}

/// The bands stand for linear sRGB; what little their luminance is off is scaled away.
Vec3 colour_of(const SkinRow& row) {
    return row.bands * (row.luminance / luminance_of(row.bands));
}

/// Below the survey: every channel is attenuated over the same length of more pigment (Beer's law),
/// as much longer as the luminance asks.
Vec3 darker_than_survey(double luminance) {
    const Vec3 darkest = colour_of(skin_survey()[0]) - surface_share;
    const Vec3 lighter = colour_of(skin_survey()[1]) - surface_share;
    const Vec3 absorption = glm::log(lighter / darkest);
    const auto at = [&](double length) {
        return surface_share + darkest * glm::exp(-length * absorption);
    };
    double low = 0.0, high = 20.0;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (luminance_of(at(middle)) > luminance ? low : high) = middle;
    }
    return at(0.5 * (low + high));
}

} // namespace

const std::array<SkinRow, 4>& skin_survey() {
    static const std::array<SkinRow, 4> rows{{{0.1352, {0.248, 0.110, 0.076}},
                                              {0.2192, {0.365, 0.184, 0.119}},
                                              {0.3768, {0.553, 0.338, 0.279}},
                                              {0.4654, {0.643, 0.428, 0.352}}}};
    return rows;
}

Vec3 skin_of_luminance(double luminance) {
    const double wanted = std::clamp(luminance, least_skin_luminance, most_skin_luminance);
    const auto& rows = skin_survey();
    if (wanted < rows[0].luminance) return darker_than_survey(wanted);
    std::size_t next = 1;
    while (next + 1 < rows.size() && rows[next].luminance < wanted) ++next;
    const SkinRow &below = rows[next - 1], &above = rows[next];
    const double t = (wanted - below.luminance) / (above.luminance - below.luminance);
    return glm::mix(colour_of(below), colour_of(above), t);
}

} // namespace keystead
