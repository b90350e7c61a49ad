#include "engine/ui/learn_words.h"

#include "engine/ui/quantity.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace keystead::ui {

std::string pattern_words(Pattern pattern) {
    if (pattern == Pattern::none) return "no name";
    if (pattern == Pattern::rembrandt) return "Rembrandt";
    return name_of(pattern);
}

std::string direction_words(Angles direction) {
    const double aside = std::round(direction.azimuth_deg),
                 up = std::round(direction.elevation_deg);
    std::string words = "straight on";
    if (aside != 0.0)
        words = number_text(std::abs(aside), 0) + "° to the sitter's " +
                (aside > 0.0 ? "left" : "right");
    if (up == 0.0) return words + ", level";
    return words + ", " + number_text(std::abs(up), 0) + "° " + (up > 0.0 ? "up" : "down");
}

std::string next_names(const PortraitReview& portrait) {
    if (!portrait.holds) return {};
    struct Way {
        double far_deg;
        Pattern beyond;
        const char* where;
    };
    const HoldRange& aside = portrait.holds->key_azimuth_deg;
    const HoldRange& up = portrait.holds->key_height_deg;
    std::vector<Way> ways{{-aside.least, aside.below, "to the sitter's right"},
                          {aside.most, aside.above, "to the sitter's left"},
                          {-up.least, up.below, "lower"},
                          {up.most, up.above, "higher"}};
    std::erase_if(ways, [&](const Way& way) { return way.beyond == portrait.pattern; });
    std::stable_sort(ways.begin(), ways.end(),
                     [](const Way& a, const Way& b) { return a.far_deg < b.far_deg; });
    // Each name once, where it is nearest.
    for (std::size_t i = 1; i < ways.size();)
        if (std::any_of(ways.begin(), ways.begin() + static_cast<std::ptrdiff_t>(i),
                        [&](const Way& way) { return way.beyond == ways[i].beyond; }))
            ways.erase(ways.begin() + static_cast<std::ptrdiff_t>(i));
        else
            ++i;
    std::string words;
    for (std::size_t i = 0; i < std::min<std::size_t>(2, ways.size()); ++i)
        words +=
            (i == 0 ? "Next: " : ", ") + pattern_words(ways[i].beyond) + " " +
            (ways[i].far_deg < 0.5 ? std::string("under 1") : number_text(ways[i].far_deg, 0)) +
            "° " + ways[i].where;
    return words.empty() ? words : words + ".";
}

std::string place_words(const PatternMap& map, Angles direction) {
    const std::size_t here = map.nearest(direction);
    std::string words = pattern_words(map.names[here]);
    if (map.beyond[here] != map.names[here])
        words += ", " + number_text(static_cast<double>(map.margin_deg[here]), 0) + "° from " +
                 pattern_words(map.beyond[here]);
    return words;
}

} // namespace keystead::ui
