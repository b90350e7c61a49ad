#include "sim/review/findings.h"

#include "sim/review/phrases.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

void ceiling_and_walls(const Review& review, std::vector<Finding>& found) {
    for (const RoomReview& fit : review.room) {
        if (fit.clearance_m >= 0.0) continue;
        const std::string through = number(-fit.clearance_m, 2) + " m";
        const bool above = fit.nearest == "ceiling";
        found.push_back(
            {Level::warning, above ? "through-ceiling" : "through-wall", fit.id,
             "Its " + fit.part + " would be " + through + " through the " + fit.nearest + ".",
             above ? "Lower it by " + number(0.05 - fit.clearance_m, 2) +
                         " m, take a smaller modifier or seat the subject."
                   : "Move it in by " + number(0.05 - fit.clearance_m, 2) + " m."});
    }
}

void in_frame(const Studio& studio, const Review& review, std::vector<Finding>& found) {
    for (const FrameReview& seen : review.frame) {
        const bool listed = std::any_of(found.begin(), found.end(), [&](const Finding& finding) {
            return finding.code == "in-frame" && finding.about == seen.id;
        });
        if (listed) continue;
        std::string parts;
        double percent = 0.0;
        for (const FrameReview& other : review.frame)
            if (other.id == seen.id) {
                parts += (parts.empty() ? "" : ", ") + other.part;
                percent += other.in_frame_percent;
            }
        const bool panel = std::any_of(studio.set.panels.begin(), studio.set.panels.end(),
                                       [&](const Panel& item) { return item.id == seen.id; });
        found.push_back({Level::warning, "in-frame", seen.id,
                         "In the picture: " + parts + ", " + number(percent, percent < 1 ? 1 : 0) +
                             " % of the frame.",
                         panel ? "Move it out of the frame or use a longer lens."
                               : "Move the stand out of the frame, reach in with an arm, or use a "
                                 "longer lens."});
    }
}

void exposure(const Review& review, std::vector<Finding>& found) {
    if (!review.exposure.stops_off) {
        found.push_back({Level::warning, "no-light", "camera", "No light reaches the face.",
                         "Switch a light on or aim one at the face."});
        return;
    }
    const double off = *review.exposure.stops_off;
    if (std::abs(off) < 0.34) return;
    found.push_back({std::abs(off) > 1.0 ? Level::warning : Level::note, "exposure-off", "camera",
                     "The face meters " + stops_text(std::abs(off)) +
                         (off > 0.0 ? " over" : " under") + " what the camera is set for.",
                     std::string(off > 0.0 ? "Close down" : "Open up") +
                         " by that, or change all lights together."});
}

void separation(const Review& review, std::vector<Finding>& found) {
    for (const SeparationReview& place : review.separation) {
        if (place.place != "head_top" || place.verdict == "parts") continue;
        const bool merges = place.verdict == "merges";
        const double more = std::max(0.5, 1.5 - std::abs(place.difference_stops));
        found.push_back({Level::note, merges ? "hair-merges" : "hair-weak", "subject",
                         std::string("The top of the head ") +
                             (merges ? "merges with" : "hardly parts from") +
                             " what is behind it (" + stops_text(std::abs(place.difference_stops)) +
                             ", " + number(std::abs(place.difference_lstar), 0) + " L*).",
                         "About " + stops_text(more) +
                             " more on the background, or a hair light from above and behind."});
    }
}

void power(const Studio& studio, std::vector<Finding>& found) {
    for (const Light& light : studio.set.lights)
        if (light.head.power_stops_below > light.head.range_stops + 1e-9)
            found.push_back({Level::warning, "power-out-of-range", light.id,
                             "Set " + stops_text(light.head.power_stops_below) +
                                 " below full; this head goes " +
                                 stops_text(light.head.range_stops) + " down.",
                             "Move it away, add a layer of diffusion or a grid, or take a smaller "
                             "head."});
}

void unknowns(const Review& review, std::vector<Finding>& found) {
    if (review.portrait.key.empty()) return;
    if (!review.exposure.stops_lit_to_shadow)
        found.push_back({Level::note, "no-fill", review.portrait.key,
                         "No direct light reaches the shadow side, so there is no ratio to print.",
                         "In a room with light walls the bounce decides; add a fill to plan it."});
}

} // namespace

void find_in_fit(const Studio& studio, const Review& review, std::vector<Finding>& found) {
    ceiling_and_walls(review, found);
    in_frame(studio, review, found);
}

void find_in_light(const Studio& studio, const Review& review, std::vector<Finding>& found) {
    exposure(review, found);
    power(studio, found);
    separation(review, found);
    unknowns(review, found);
}

std::vector<Finding> collect_findings(const Studio& studio, const Review& review) {
    std::vector<Finding> found;
    find_in_supports(studio, review, found);
    find_in_fit(studio, review, found);
    find_in_light(studio, review, found);
    std::stable_sort(found.begin(), found.end(), [](const Finding& a, const Finding& b) {
        return static_cast<int>(a.level) < static_cast<int>(b.level);
    });
    return found;
}

} // namespace keystead
