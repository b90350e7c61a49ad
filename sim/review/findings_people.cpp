// Loads over heads and arm ends at eye height.
#include "sim/review/findings.h"
#include "sim/review/say.h"
#include "sim/support/panel_pose.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

// Judgements of ours: a head sways so far, and eyes are between these heights.
constexpr double over_head_m = 0.5;
constexpr double eyes_from_m = 1.35, eyes_to_m = 2.0;

void find_overhead(const std::string& id, const SupportPose& pose, const Landmarks& marks,
                   Findings& findings) {
    double mass = 0.0, lowest = 1e9;
    for (const MassPoint& point : pose.masses) {
        const Vec3 away = point.position_m - marks.vertex;
        if (point.mass_kg <= 0.0 || away.y < 0.0 || std::hypot(away.x, away.z) > over_head_m)
            continue;
        mass += point.mass_kg;
        lowest = std::min(lowest, away.y);
    }
    if (mass <= 0.0) return;
    findings.push_back({Level::note, "load-over-person", id,
                        say::with_unit(mass, 1, "kg") + " hang over the sitter, " +
                            say::with_unit(lowest, 2, "m") + " above the head.",
                        "Tie it to something that holds, with no slack to fall through; nobody "
                        "under it while it is raised or lowered."});
}

void find_arm_end(const std::string& id, const Support& support, const SupportPose& pose,
                  Findings& findings) {
    if (!support.arm || support.arm->tail_m() < 0.05) return;
    const double height = pose.tail_end_m.y;
    if (height < eyes_from_m || height > eyes_to_m) return;
    findings.push_back({Level::note, "arm-end-at-head-height", id,
                        "The arm's tail ends " + say::with_unit(height, 2, "m") +
                            " above the floor, where eyes are.",
                        "Pad it and mark it, or turn the arm so that nobody passes there."});
}

} // namespace

void find_about_people(const Bench& bench, Findings& findings) {
    const Studio& studio = bench.studio;
    for (std::size_t i = 0; i < studio.set.lights.size(); ++i) {
        const Light& light = studio.set.lights[i];
        find_overhead(light.id, studio.supports[i], bench.marks, findings);
        find_arm_end(light.id, light.support, studio.supports[i], findings);
    }
    for (const Panel& panel : studio.set.panels) {
        if (!panel.support) continue;
        const SupportPose pose = *pose_panel(panel).support;
        find_overhead(panel.id, pose, bench.marks, findings);
        find_arm_end(panel.id, *panel.support, pose, findings);
    }
}

} // namespace keystead
