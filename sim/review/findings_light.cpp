// Exposure, power in hand, crossed shadows, light into the lens.
#include "sim/base/frames.h"
#include "sim/light/stops.h"
#include "sim/review/findings.h"
#include "sim/review/say.h"
#include "sim/review/ways_out.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

constexpr double exposure_tolerance_stops = 0.34; // a third of a stop

std::string f_words(double f_number) {
    return "f/" + nominal_f_number(f_number);
}

/// Lights that cannot follow when all are changed by `stops`.
void find_power(const Bench& bench, double stops, Findings& findings) {
    const auto& lights = bench.studio.set.lights;
    for (std::size_t i = 0; i < lights.size(); ++i) {
        if (!lights[i].on) continue;
        const PowerSetting setting = power_after(lights[i].head, stops);
        if (setting.reached()) continue;
        findings.push_back({Level::warning,
                            setting.missing_stops > 0.0 ? "power-short" : "power-over",
                            lights[i].id,
                            "The exposure asks this light for " + say::more_or_less(stops) + ". " +
                                beyond_range(setting),
                            ways_out(bench, i, setting)});
    }
}

void find_exposure(const Bench& bench, const ExposureReview& exposure, Findings& findings) {
    if (!exposure.stops_off || std::abs(*exposure.stops_off) <= exposure_tolerance_stops) return;
    const double off = *exposure.stops_off;
    findings.push_back({Level::warning, "exposure-off", "camera",
                        "The face reads " + meter_notation(*exposure.face_f_number) +
                            ", the camera is set to " + f_words(exposure.camera_f_number) + ": " +
                            say::stops(off) + (off > 0.0 ? " too bright." : " too dark."),
                        (off > 0.0 ? "Close to " : "Open to ") + f_words(*exposure.face_f_number) +
                            ", or give every light " + say::more_or_less(-off) + "."});
    find_power(bench, -off, findings);
}

void find_key(const Bench& bench, const PortraitReview& portrait, Findings& findings) {
    if (bench.key < 0) {
        findings.push_back({Level::warning, "no-key", "subject", "No light reaches the face.",
                            "Switch a light on, or aim one at the face."});
        return;
    }
    if (portrait.pattern == Pattern::crossed)
        findings.push_back({Level::warning, "crossed-shadows", portrait.key, portrait.note,
                            "Drop one of the two by about 2 stops, or bring it to the lens axis."});
}

/// How far off its beam the lens stands, and what a grid would have to cut.
void find_flare(const Bench& bench, const Review& review, Findings& findings) {
    constexpr double notable_stops = -3.0;
    for (const SpillReview& spill : review.spill) {
        if (spill.onto != "lens" || spill.stops_from_key < notable_stops) continue;
        const auto& emitters = bench.studio.emitters;
        const auto light = std::find_if(emitters.begin(), emitters.end(),
                                        [&](const Emitter& e) { return e.light == spill.light; });
        const Vec3 way = glm::normalize(bench.sight.frame.eye_m - light->centre_m);
        const double off_deg =
            degrees(std::acos(std::clamp(glm::dot(way, light->axes[2]), -1.0, 1.0)));
        findings.push_back({Level::note, "light-into-lens", spill.light,
                            "Shines into the lens, " + say::number(off_deg, 0) +
                                "° off its beam, " + say::number(spill.stops_from_key, 1) +
                                " stops from the key.",
                            "Flag it, or a grid that is black beyond " +
                                say::number(std::max(off_deg - 3.0, 1.0), 0) + "°."});
    }
}

/// Files that could not be used. Without the subject's own, every verdict is about a stand-in.
void find_unusable_files(const Studio& studio, Findings& findings) {
    for (const Problem& problem : studio.problems) {
        const bool subject = problem.path.starts_with("subject");
        const bool light = problem.path.starts_with("lights");
        findings.push_back(
            {subject ? Level::danger : Level::warning, "file-unusable",
             subject ? "subject" : "room",
             problem.message() +
                 (subject ? ". No figure is about the sitter meant: a stand-in is lit."
                  : light ? ". The light shines as its modifier's numbers say, not as measured."
                          : ". The prop is neither drawn nor counted as a shadow."),
             "Mend or replace the file, or take it out of the set."});
    }
}

} // namespace

void find_about_light(const Bench& bench, const Review& review, Findings& findings) {
    find_key(bench, review.portrait, findings);
    find_exposure(bench, review.exposure, findings);
    find_flare(bench, review, findings);
    find_unused(bench.studio.set, findings);
    find_unusable_files(bench.studio, findings);
    if (bench.key >= 0 && !review.exposure.fill_f_number)
        findings.push_back(
            {Level::note, "ratio-unknown", "subject",
             "No light but the key is in front of the ears, and nothing throws any of it back: "
             "the shadow side is black.",
             ""});
}

} // namespace keystead
