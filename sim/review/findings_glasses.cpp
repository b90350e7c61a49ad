// Lights and panels that show in the lenses of glasses.
#include "sim/review/column_moves.h"
#include "sim/review/findings.h"
#include "sim/review/glasses_ways.h"
#include "sim/review/say.h"
#include "sim/set/json_text.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

// Judgements of ours: from here on it takes the eye from the eyes.
constexpr double strong_percent = 3.0, strong_value = 80.0;

/// The worse of both lenses, a way that one lens does not have being none.
struct Ways {
    std::string source;
    bool panel = false, strong = false;
    std::string where; ///< "12 % of the left lens, 3 % of the right"
    std::optional<double> up, down, left, right;
};

void worsen(std::optional<double>& way, const std::optional<double>& other) {
    way = way && other ? std::optional<double>(std::max(*way, *other)) : std::nullopt;
}

std::vector<Ways> by_source(const std::vector<GlareReview>& glare) {
    std::vector<Ways> list;
    for (const GlareReview& g : glare) {
        auto found = std::find_if(list.begin(), list.end(),
                                  [&](const Ways& w) { return w.source == g.source; });
        const bool strong = g.area_percent >= strong_percent && g.value_8bit >= strong_value;
        const std::string where = say::number(g.area_percent, 0) + " % of the " + g.lens +
                                  " lens, " + say::number(g.value_8bit, 0) + " of 255";
        if (found == list.end()) {
            list.push_back({g.source, g.panel, strong, where, g.clear_up_deg, g.clear_down_deg,
                            g.clear_left_deg, g.clear_right_deg});
            continue;
        }
        found->strong |= strong;
        found->where += "; " + where;
        worsen(found->up, g.clear_up_deg);
        worsen(found->down, g.clear_down_deg);
        worsen(found->left, g.clear_left_deg);
        worsen(found->right, g.clear_right_deg);
    }
    return list;
}

/// The ways round the lens, shortest first.
std::string round_words(const Ways& ways) {
    std::vector<std::pair<double, const char*>> list;
    if (ways.up) list.emplace_back(*ways.up, "up");
    if (ways.down) list.emplace_back(*ways.down, "down");
    if (ways.left) list.emplace_back(*ways.left, "to camera left");
    if (ways.right) list.emplace_back(*ways.right, "to camera right");
    std::sort(list.begin(), list.end());
    std::string text;
    for (const auto& [angle, way] : list)
        text += (text.empty() ? "" : ", ") + say::with_unit(std::ceil(angle), 0, "°") + " " + way;
    return text;
}

std::optional<std::size_t> index_of(const Set& set, const std::string& id) {
    for (std::size_t i = 0; i < set.lights.size(); ++i)
        if (set.lights[i].id == id) return i;
    return {};
}

} // namespace

void find_about_glasses(const Bench& bench, const Review& review, Findings& findings) {
    const GlassesReview& glasses = review.portrait.glasses;
    const Set& set = bench.studio.set;
    for (const Ways& ways : by_source(glasses.glare)) {
        Finding finding{ways.strong ? Level::warning : Level::note, "glasses-glare", ways.source,
                        "Shows in the glasses: " + ways.where + ".", ""};
        const auto light = index_of(set, ways.source);
        const auto add = [&](const std::string& way) {
            finding.remedy += (finding.remedy.empty() ? "" : "; or ") + way;
        };
        const auto rise_m = light ? raise_for_glasses_m(bench, *light) : std::nullopt;
        const auto edit = rise_m ? column_edit(set.lights[*light], *rise_m) : std::nullopt;
        if (edit) {
            add("raise its column by " + say::with_unit(*rise_m, 2, "m"));
            finding.mend = {"raise it " + say::with_unit(*rise_m, 2, "m"), {*edit}};
        }
        if (glasses.clear_by_tilt_deg) {
            const double tilt = *glasses.clear_by_tilt_deg;
            add("tip the frame " + say::with_unit(std::abs(tilt), 1, "°") +
                (tilt > 0.0 ? " further down" : " up") + " at the front, which clears both lenses");
            const double set_deg = set.subject.glasses->tilt_deg + tilt;
            constexpr double least_deg = -10.0, most_deg = 30.0; // the document's own range
            if (!edit && set_deg >= least_deg && set_deg <= most_deg)
                finding.mend = {"tip the glasses " + say::with_unit(tilt, 1, "°"),
                                {{"subject.glasses.tilt_deg", number_text(set_deg)}}};
        }
        const std::string round = round_words(ways);
        if (!round.empty()) add("carry it round the lens, any of: " + round);
        if (finding.remedy.empty())
            finding.remedy = "no way within reach clears it: flag it from the lens, or take the "
                             "glasses off for one frame";
        finding.remedy[0] = static_cast<char>(std::toupper(finding.remedy[0]));
        finding.remedy += ".";
        findings.push_back(std::move(finding));
    }
}

} // namespace keystead
