#include "sim/subject/skin_scale.h"

#include "sim/set/values.h"

#include <algorithm>

namespace keystead {

namespace {

/// The bands stand for linear sRGB; what little their luminance is off is scaled away.
Vec3 colour_of(const SkinRow& row) {
    return row.bands * (row.luminance / Reflectance{row.bands}.luminous());
}

/// Linear sRGB of the chart's patch, code values 115, 82, 68, scaled to its luminance.
SkinRow dark_patch() {
    return {0.1005, {0.1714, 0.0844, 0.0578}};
}

Vec3 between(const SkinRow& below, const SkinRow& above, double luminance) {
    const double t = (luminance - below.luminance) / (above.luminance - below.luminance);
    return glm::mix(colour_of(below), colour_of(above), t);
}

/// Below the patch its hue and saturation stay.
Vec3 darker_than_survey(double luminance) {
    const SkinRow patch = dark_patch();
    if (luminance > patch.luminance) return between(patch, skin_survey()[0], luminance);
    return colour_of(patch) * (luminance / patch.luminance);
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
    return between(rows[next - 1], rows[next], wanted);
}

} // namespace keystead
