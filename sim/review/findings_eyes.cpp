// Eyes that see no key, that show no catchlight or several.
#include "sim/review/column_moves.h"
#include "sim/review/eye_ways.h"
#include "sim/review/findings.h"
#include "sim/review/report_eyes.h"
#include "sim/review/say.h"
#include "sim/set/json_text.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

constexpr double dark_percent = 20.0;
/// A catchlight this far under the brightest of its eye does not compete with it (judgement of
/// ours: a sixteenth).
constexpr double counts_stops = -4.0;

const EyeLight* of_light(const EyeReview& eye, const std::string& id) {
    for (const EyeLight& light : eye.lights)
        if (light.light == id) return &light;
    return nullptr;
}

void find_dark(const Bench& bench, const PortraitReview& portrait, Findings& findings) {
    std::string dark;
    for (const EyeReview& eye : portrait.eyes) {
        if (eye.light_visible_percent >= dark_percent) continue;
        const EyeLight* key = of_light(eye, portrait.key);
        const std::string why = key != nullptr ? hiders_words(*key) : "";
        dark += (dark.empty() ? "" : " and the ") + eye.eye + " eye (" +
                say::number(eye.light_visible_percent, 0) + " % of the key" +
                (why.empty() ? "" : "; " + why) + ")";
    }
    const bool behind = std::abs(portrait.face_angles.azimuth_deg) > 75.0;
    if (dark.empty() || behind) return;
    Finding finding{Level::note, "eye-dark", "subject", "Hardly any key reaches the " + dark + ".",
                    ""};
    const auto key = static_cast<std::size_t>(bench.key);
    const auto drop_m = drop_for_eyes_m(bench, key);
    const auto nod_deg = nod_for_eyes_deg(bench, key);
    std::string ways;
    if (drop_m) {
        ways = "Lower " + portrait.key + " by " +
               say::with_unit(std::ceil(100.0 * *drop_m) / 100.0, 2, "m") + " (its face to " +
               say::with_unit(with_column_raised(bench.studio, key, -*drop_m).centre_m.y, 2, "m") +
               ")";
        if (const auto edit = column_edit(bench.studio.set.lights[key], -*drop_m))
            finding.mend = {"lower it " + say::with_unit(*drop_m, 2, "m"), {*edit}};
    }
    if (nod_deg) {
        ways += std::string(ways.empty() ? "Raise" : ", raise") + " the chin by " +
                say::with_unit(std::ceil(*nod_deg), 0, "°");
        if (finding.mend.edits.empty())
            finding.mend = {
                "raise the chin " + say::with_unit(std::ceil(*nod_deg), 0, "°"),
                {{"subject.head_nod_deg",
                  number_text(bench.studio.set.subject.head_nod_deg + std::ceil(*nod_deg))}}};
    }
    finding.remedy = (ways.empty() ? "Bring the key further round to the front" : ways) +
                     ", or fill from below.";
    findings.push_back(std::move(finding));
}

/// Those of an eye that a viewer counts.
std::vector<const CatchlightReview*> counted(const EyeReview& eye) {
    std::vector<const CatchlightReview*> list;
    for (const CatchlightReview& c : eye.catchlights)
        if (c.stops_from_brightest >= counts_stops) list.push_back(&c);
    return list;
}

void find_many(const PortraitReview& portrait, Findings& findings) {
    const EyeReview* most = nullptr;
    std::vector<const CatchlightReview*> list;
    for (const EyeReview& eye : portrait.eyes)
        if (auto here = counted(eye); here.size() > std::max<std::size_t>(1, list.size()))
            most = &eye, list = std::move(here);
    if (most == nullptr) return;
    std::string words;
    for (const CatchlightReview* c : list)
        words += (words.empty() ? "" : "; ") + catchlight_words(*c);
    const auto weakest = *std::min_element(list.begin(), list.end(), [](auto* a, auto* b) {
        return a->stops_from_brightest < b->stops_from_brightest;
    });
    const bool both = counted(portrait.eyes[0]).size() > 1 && counted(portrait.eyes[1]).size() > 1;
    findings.push_back(
        {Level::note, "catchlights-many", "subject",
         (both ? "Both eyes show" : "The " + most->eye + " eye shows") +
             " more than one light: " + words + ".",
         "Where one is wanted, give " + weakest->source + " " +
             say::stops(weakest->stops_from_brightest - counts_stops) +
             " less, make its face larger by as much at the same reading, or take its mark out of "
             "the finished picture."});
}

void find_none(const Bench& bench, const PortraitReview& portrait, Findings& findings) {
    std::string dull;
    for (const EyeReview& eye : portrait.eyes)
        if (eye.in_view && eye.catchlights.empty())
            dull += (dull.empty() ? "" : " and the ") + eye.eye + " eye";
    if (dull.empty()) return;
    Finding finding{Level::note, "catchlight-none", "subject",
                    "No light is mirrored in the " + dull + ": it looks dull.",
                    "A small weak light or a white card near the lens puts one there."};
    const auto key = static_cast<std::size_t>(bench.key);
    const auto drop_m = drop_for_eyes_m(bench, key);
    if (drop_m && *drop_m > 0.011) {
        finding.remedy = "Lower " + portrait.key + " by " +
                         say::with_unit(std::ceil(100.0 * *drop_m) / 100.0, 2, "m") +
                         ", or put a small weak light or a white card near the lens.";
        if (const auto edit = column_edit(bench.studio.set.lights[key], -*drop_m))
            finding.mend = {"lower it " + say::with_unit(*drop_m, 2, "m"), {*edit}};
    }
    findings.push_back(std::move(finding));
}

} // namespace

void find_about_eyes(const Bench& bench, const Review& review, Findings& findings) {
    if (bench.key < 0 || review.portrait.eyes.size() != 2) return;
    find_dark(bench, review.portrait, findings);
    find_many(review.portrait, findings);
    find_none(bench, review.portrait, findings);
}

} // namespace keystead
