#include "sim/review/report_glasses.h"

#include "sim/review/report_parts.h"
#include "sim/review/say.h"

namespace keystead {

Json glasses_json(const GlassesReview& glasses) {
    if (glasses.lenses.empty()) return nullptr;
    Json lenses = Json::array(), glare = Json::array();
    for (const LensMirror& lens : glasses.lenses)
        lenses.push_back({{"lens", lens.lens},
                          {"mirrors_azimuth_deg", tidy(lens.middle.azimuth_deg)},
                          {"mirrors_elevation_deg", tidy(lens.middle.elevation_deg)},
                          {"half_across_deg", tidy(lens.half_across_deg)},
                          {"half_up_deg", tidy(lens.half_up_deg)}});
    for (const GlareReview& g : glasses.glare)
        glare.push_back({{"lens", g.lens},
                         {"light", g.source},
                         {"panel", g.panel},
                         {"area_percent", tidy(g.area_percent)},
                         {"value_8bit", tidy(g.value_8bit)},
                         {"clear_up_deg", tidy(g.clear_up_deg)},
                         {"clear_down_deg", tidy(g.clear_down_deg)},
                         {"clear_left_deg", tidy(g.clear_left_deg)},
                         {"clear_right_deg", tidy(g.clear_right_deg)}});
    return {{"lenses", std::move(lenses)},
            {"glare", std::move(glare)},
            {"clear_by_tilt_deg", tidy(glasses.clear_by_tilt_deg)}};
}

std::string glasses_text(const GlassesReview& glasses) {
    std::string text;
    for (const LensMirror& lens : glasses.lenses) {
        text += "  The " + lens.lens + " lens mirrors what lies " +
                say::signed_number(lens.middle.elevation_deg, 0) + "° up and " +
                say::signed_number(lens.middle.azimuth_deg, 0) + "° round, ±" +
                say::number(lens.half_up_deg, 0) + "° and ±" +
                say::number(lens.half_across_deg, 0) + "° about it: ";
        std::string shown;
        for (const GlareReview& g : glasses.glare)
            if (g.lens == lens.lens)
                shown += (shown.empty() ? "" : "; ") + g.source + " on " +
                         say::number(g.area_percent, 0) + " % of it";
        text += (shown.empty() ? "nothing that is lit" : shown) + ".\n";
    }
    return text;
}

} // namespace keystead
