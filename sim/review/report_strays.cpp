#include "sim/review/report_strays.h"

#include "sim/review/report_parts.h"
#include "sim/review/say.h"

#include <cmath>

namespace keystead {

namespace {

std::string lens_words(const LensAim& aim) {
    std::string text =
        "the lens lies " + say::with_unit(aim.off_beam_deg, 1, "°") + " off its beam";
    if (aim.misses_by_deg)
        text += ", " + say::with_unit(std::abs(*aim.misses_by_deg), 1, "°") +
                (*aim.misses_by_deg > 0.0 ? " outside what it lights" : " inside what it lights");
    if (aim.hits)
        text += ", " + say::signed_number(*aim.stops_from_key, 1) + " stops from the key there";
    else
        text += ", nothing to speak of arrives there";
    return text;
}

std::string spill_words(const Review& review, const std::string& light) {
    constexpr double least_stops = -9.0;
    std::string text;
    for (const SpillReview& spill : review.spill)
        if (spill.light == light && spill.onto != "lens" && spill.stops_from_key >= least_stops)
            text += "; on the " + spill.onto + " " + say::signed_number(spill.stops_from_key, 1);
    return text;
}

} // namespace

Json lens_aims_json(const std::vector<LensAim>& aims) {
    Json list = Json::array();
    for (const LensAim& aim : aims)
        list.push_back({{"light", aim.light},
                        {"off_beam_deg", tidy(aim.off_beam_deg)},
                        {"cut_off_deg", tidy(aim.cut_off_deg)},
                        {"misses_by_deg", tidy(aim.misses_by_deg)},
                        {"hits", aim.hits},
                        {"stops_from_key", tidy(aim.stops_from_key)}});
    return list;
}

Json shadows_json(const std::vector<BackgroundShadow>& shadows) {
    Json list = Json::array();
    for (const BackgroundShadow& shadow : shadows)
        list.push_back({{"light", shadow.light},
                        {"aside_m", tidy(shadow.aside_m)},
                        {"down_m", tidy(shadow.down_m)},
                        {"in_frame", shadow.in_frame},
                        {"depth_stops", tidy(shadow.depth_stops)}});
    return list;
}

std::string strays_text(const Review& review) {
    std::string text;
    for (const LensAim& aim : review.lens_aims)
        text += "  " + aim.light + ": " + lens_words(aim) + spill_words(review, aim.light) + ".\n";
    for (const BackgroundShadow& shadow : review.background.shadows)
        text += "  " + shadow.light + " throws the head's shadow " +
                say::with_unit(std::abs(shadow.aside_m), 2, "m") + " to camera " +
                (shadow.aside_m > 0.0 ? "right" : "left") + " and " +
                say::with_unit(std::abs(shadow.down_m), 2, "m") +
                (shadow.down_m >= 0.0 ? " down" : " up") +
                (shadow.in_frame ? ", in the picture, " + say::stops(shadow.depth_stops) + " darker"
                                 : ", out of the picture") +
                ".\n";
    if (text.empty()) return text;
    return "Stray light\n" + text +
           "  (Stops from the key, flat toward each place; a light's edge is taken as sharp as its "
           "grid's cells.)\n";
}

} // namespace keystead
