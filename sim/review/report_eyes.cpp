#include "sim/review/report_eyes.h"

#include "sim/review/report_parts.h"
#include "sim/review/say.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead {

namespace {

Json json_of(const EyeLight& light) {
    Json hiders = Json::array();
    for (const EyeHider& hider : light.hiders)
        hiders.push_back({{"what", hider.what}, {"percent", tidy(hider.percent)}});
    return {{"light", light.light},
            {"seen_percent", tidy(light.seen_percent)},
            {"hidden_by", std::move(hiders)}};
}

Json json_of(const CatchlightReview& c) {
    return {{"light", c.source},
            {"panel", c.panel},
            {"clock", tidy(c.clock)},
            {"size_mm", Json::array({tidy(c.size_mm.x), tidy(c.size_mm.y)})},
            {"from_pupil_mm", Json::array({tidy(c.from_pupil_mm.x), tidy(c.from_pupil_mm.y)})},
            {"shape", c.shape},
            {"seen_percent", tidy(c.seen_percent)},
            {"value_8bit", tidy(c.value_8bit)},
            {"stops_from_brightest", tidy(c.stops_from_brightest)}};
}

std::string hider_word(const std::string& what) {
    constexpr std::array<const char*, 6> own{"brow", "lid", "nose", "hair", "hat", "face"};
    if (std::find(own.begin(), own.end(), what) != own.end()) return "the " + what;
    if (what == "glasses") return "the glasses' frame";
    return what == "room" ? "something in the room" : "the gear of " + what;
}

} // namespace

Json eye_json(const EyeReview& eye) {
    Json lights = Json::array(), catchlights = Json::array();
    for (const EyeLight& light : eye.lights) lights.push_back(json_of(light));
    for (const CatchlightReview& c : eye.catchlights) catchlights.push_back(json_of(c));
    return {{"eye", eye.eye},
            {"light_visible_percent", tidy(eye.light_visible_percent)},
            {"in_view", eye.in_view},
            {"lights", std::move(lights)},
            {"catchlights", std::move(catchlights)}};
}

std::string catchlight_words(const CatchlightReview& c) {
    return c.source + " at " + say::clock(c.clock) + ", " + c.shape + ", " +
           say::number(c.size_mm.x, 1) + " × " + say::with_unit(c.size_mm.y, 1, "mm");
}

std::string hiders_words(const EyeLight& light) {
    constexpr double worth_saying = 10.0;
    std::string text;
    for (const EyeHider& hider : light.hiders) {
        if (hider.percent < worth_saying) continue;
        text += (text.empty() ? "" : ", ") + hider_word(hider.what) +
                (text.empty() ? " hides " : " ") + say::number(hider.percent, 0) + " %";
    }
    return text;
}

std::string eyes_text(const std::vector<EyeReview>& eyes) {
    std::string text;
    for (const EyeReview& eye : eyes) {
        text += "  The " + eye.eye + " eye sees ";
        std::string list;
        for (const EyeLight& light : eye.lights) {
            const std::string hiders = hiders_words(light);
            list += (list.empty() ? "" : "; ") + say::number(light.seen_percent, 0) + " % of " +
                    light.light + (hiders.empty() ? "" : " (" + hiders + ")");
        }
        text += (list.empty() ? "no light" : list) + ".\n";
        std::string mirrored;
        for (const CatchlightReview& c : eye.catchlights)
            mirrored += (mirrored.empty() ? "" : "; ") + catchlight_words(c);
        text += "    Catchlights: " +
                (!mirrored.empty() ? mirrored
                 : eye.in_view     ? "none"
                                   : "none, the camera does not see it") +
                ".\n";
    }
    return text;
}

} // namespace keystead
