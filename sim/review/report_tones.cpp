#include "sim/review/report_tones.h"

#include "sim/review/report_parts.h"
#include "sim/review/say.h"

namespace keystead {

Json clipped_json(const std::optional<ClippedFace>& clipped) {
    if (!clipped) return nullptr;
    return {{"percent", tidy(clipped->percent)},
            {"brightest_stops", tidy(clipped->brightest_stops)},
            {"mostly_by", text_or_null(clipped->mostly_by)},
            {"by_gloss", clipped->by_gloss},
            {"stops_less", tidy(clipped->stops_less)}};
}

Json body_json(const std::vector<BodyReading>& body) {
    Json list = Json::array();
    for (const BodyReading& b : body)
        list.push_back({{"place", b.place},
                        {"height_m", tidy(b.height_m)},
                        {"key_stops", tidy(b.key_stops)},
                        {"all_stops", tidy(b.all_stops)}});
    return list;
}

std::string tones_text(const ExposureReview& exposure) {
    std::string text;
    if (const auto& clipped = exposure.clipped) {
        text += "  Skin: ";
        if (clipped->percent > 0.0)
            text += say::number(clipped->percent, 1) + " % of the face is pure white, mostly by " +
                    clipped->mostly_by + (clipped->by_gloss ? ", as gloss" : "") + "; ";
        else
            text += "nothing is pure white; ";
        text += "its brightest hundredth lies " + say::stops(clipped->brightest_stops) +
                (clipped->brightest_stops > 0.0 ? " over" : " under") + " full scale.\n";
    }
    std::string falls;
    for (std::size_t i = 1; i < exposure.body.size(); ++i)
        falls += (falls.empty() ? "" : ", ") + exposure.body[i].place + " " +
                 (exposure.body[i].key_stops ? say::signed_number(*exposure.body[i].key_stops, 1)
                                             : "none") +
                 (exposure.body[i].all_stops
                      ? " (all lights " + say::signed_number(*exposure.body[i].all_stops, 1) + ")"
                      : "");
    if (!falls.empty()) text += "  From the head down the key falls by stops: " + falls + ".\n";
    return text;
}

} // namespace keystead
