// Telescoping tubes: each section a little thinner than the one it slides out of.

#include "sim/shape/build/solids.h"
#include "sim/shape/gear/gear.h"
#include "sim/shape/materials.h"

#include <algorithm>

namespace keystead::gear {

namespace {

constexpr double wall_step_m = 0.0025;  ///< radius lost from one section to the next
constexpr double joint_length_m = 0.05; ///< a section closed still shows this much

/// Heights where the sections end, lowest first; the last is `top_m`. What the column is raised
/// beyond its closed length is shared evenly.
std::vector<double> section_tops(const Column& column, double hub_m, double top_m) {
    const int sections = std::max(1, column.sections);
    const double joints = joint_length_m * (sections - 1);
    const double lowest = std::clamp(column.min_height_m - joints, std::min(hub_m + 0.10, top_m),
                                     std::max(hub_m + 0.10, top_m - joints));
    std::vector<double> tops;
    tops.reserve(static_cast<std::size_t>(sections));
    for (int section = 0; section < sections; ++section)
        tops.push_back(sections == 1 ? top_m
                                     : lowest + (top_m - lowest) * section / (sections - 1));
    return tops;
}

void add_collar(PartList& list, const Vec3& centre_m, double radius_m, double above_radius_m,
                bool grip) {
    const double outer = radius_m + 0.0065;
    list.add("column", grip ? materials::aluminium() : materials::plastic(),
             build::lathe(build::standing(centre_m, 0.0),
                          {{0, -0.042},
                           {radius_m + 0.002, -0.042},
                           {outer, -0.036},
                           {outer, 0.008},
                           {above_radius_m + 0.003, 0.014},
                           {0, 0.014}},
                          16));
}

} // namespace

void add_tee_knob(PartList& list, const char* part, const Vec3& root_m, const Vec3& outward,
                  const Vec3& bar_direction, double size) {
    const Vec3 end = root_m + outward * (0.036 * size);
    const Vec3 half_bar = bar_direction * (0.024 * size);
    list.add(part, materials::aluminium(),
             build::bar(root_m - outward * 0.004, end, 0.0045 * size, 8));
    list.add(part, materials::plastic(),
             build::bar(end - half_bar, end + half_bar, 0.0062 * size, 8));
}

void add_column(PartList& list, const Support& support, const SupportPose& pose, double top_m) {
    const Vec3 foot(pose.hub_m.x, 0.0, pose.hub_m.z);
    const auto at = [&](double height_m) { return foot + Vec3(0, height_m, 0); };
    const bool grip = stand_material(support.kind).metal;
    const Material tube = stand_material(support.kind);
    const double stud_m = std::min(0.035, 0.25 * top_m);
    const std::vector<double> tops = section_tops(support.column, pose.hub_m.y, top_m - stud_m);
    const double widest = 0.5 * support.column.tube_diameter_m;
    double bottom = std::min(0.055, 0.3 * pose.hub_m.y);
    for (std::size_t i = 0; i < tops.size(); ++i) {
        const double radius = std::max(0.008, widest - wall_step_m * static_cast<double>(i));
        list.add("column", tube, build::bar(at(bottom), at(tops[i]), radius, 16));
        bottom = tops[i] - 0.02;
        if (i + 1 == tops.size()) continue;
        add_collar(list, at(tops[i]), radius, std::max(0.008, radius - wall_step_m), grip);
        const double azimuth = support.base.turn_deg + 40.0 + 137.0 * static_cast<double>(i);
        const Vec3 out = direction_from({azimuth, 0.0});
        const Vec3 across = glm::cross(Vec3(0, 1, 0), out);
        add_tee_knob(list, "column", at(tops[i] - 0.015) + out * (radius + 0.006), out,
                     glm::normalize(Vec3(0, 1, 0) * 0.8 + across * 0.6), 1.0);
    }
    list.add("column", materials::aluminium(),
             build::bar(at(tops.back() - 0.01), at(top_m), 0.008, 12));
}

} // namespace keystead::gear
