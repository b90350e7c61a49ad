#include "sim/light/panel_light.h"

#include "sim/base/ggx.h"
#include "sim/light/lamp_lanes.h"

#include <algorithm>
#include <cmath>
#include <tbb/parallel_for.h>
#include <utility>

namespace keystead {

namespace {

/// Off the surface, so that a ray does not meet the cloth it starts from.
constexpr double lift_m = 5e-4;

/// Places on the unit square, a Fibonacci-like lattice of any count: the golden ratio's multiples.
Vec2 place(int i, int count) {
    constexpr double golden = 0.6180339887498949;
    return {(i + 0.5) / count, std::fmod(i * golden + 0.5, 1.0)};
}

/// The two sides of one small area.
struct Sides {
    PanelPatch working, back;
};

Sides sides_at(const PanelLeaf& leaf, double thickness_m, const Vec2& at, double area_m2) {
    const Vec3 face = leaf.centre_m + (at.x - 0.5) * leaf.width_m * leaf.axes[0] +
                      (at.y - 0.5) * leaf.height_m * leaf.axes[1];
    Sides sides;
    sides.working.position_m = face + lift_m * leaf.axes[2];
    sides.working.normal = leaf.axes[2];
    sides.back.position_m = face - (thickness_m + lift_m) * leaf.axes[2];
    sides.back.normal = -leaf.axes[2];
    sides.working.area_m2 = sides.back.area_m2 = area_m2;
    return sides;
}

/// A lamp's points, one by one and for kernels.
struct Lamp {
    const Emitter& emitter;
    std::vector<EmitterPoint> points;
    std::vector<PointBlock> blocks;
};

double gather(PanelPatch& patch, bool silver, const Lamp& lamp, const RayScene* rays,
              std::vector<float>& shares) {
    constexpr std::uint32_t blockers = ray_mask::casters | ray_mask::background;
    const Probe there{patch.position_m, patch.normal, Receptor::flat, blockers};
    seen_shares(lamp.emitter, lamp.blocks, there, rays, shares);
    double sum = 0.0;
    for (std::size_t i = 0; i < lamp.points.size(); ++i) {
        const auto share = static_cast<double>(shares[i]);
        if (share <= 0.0) continue;
        sum += share;
        if (silver)
            patch.incoming.emplace_back(
                glm::normalize(lamp.points[i].position_m - there.position_m), share);
    }
    return sum;
}

Sides light_sides(const PanelLeaf& leaf, const PanelSurface& surface, const Lamp& lamp,
                  const RayScene* rays, int i, int count, std::vector<float>& shares) {
    const double area_m2 = leaf.width_m * leaf.height_m / count;
    Sides s = sides_at(leaf, surface.thickness_m, place(i, count), area_m2);
    const double on_working = gather(s.working, surface.silver, lamp, rays, shares);
    const double on_back = gather(s.back, surface.silver, lamp, rays, shares);
    const double matt = surface.silver ? 0.0 : surface.reflectance;
    s.working.diffuse = (matt * on_working + surface.transmission * on_back) / pi;
    s.back.diffuse = (matt * on_back + surface.transmission * on_working) / pi;
    return s;
}

void light_leaf(PanelLight& light, const PanelLeaf& leaf, const PanelSurface& surface,
                const Lamp& lamp, const RayScene* rays, int count) {
    std::vector<Sides> all(static_cast<std::size_t>(count));
    constexpr int run = 8; // a thread's
    tbb::parallel_for(0, (count + run - 1) / run, [&](int r) {
        std::vector<float> shares(lamp.blocks.size() * lanes::lane_count);
        for (int i = r * run; i < std::min(count, (r + 1) * run); ++i)
            all[static_cast<std::size_t>(i)] =
                light_sides(leaf, surface, lamp, rays, i, count, shares);
    });
    for (Sides& sides : all)
        for (PanelPatch* patch : {&sides.working, &sides.back}) {
            if (patch->diffuse > 0.0 || !patch->incoming.empty()) light.dark = false;
            light.patches.push_back(std::move(*patch));
        }
}

} // namespace

PanelSurface surface_of(const Panel& panel) {
    PanelSurface surface;
    surface.reflectance = panel.reflectance.luminous();
    surface.transmission = panel.kind == PanelKind::scrim ? panel.transmission : 0.0;
    surface.silver = panel.finish == PanelFinish::silver;
    surface.roughness = silver_roughness;
    surface.thickness_m = panel.kind == PanelKind::v_flat ? board_thickness_m : cloth_thickness_m;
    return surface;
}

PanelLight light_on_panel(const PanelPose& pose, const PanelSurface& surface,
                          const Emitter& emitter, const RayScene* rays,
                          const PanelSampling& sampling) {
    PanelLight light;
    light.reflectance = surface.reflectance;
    light.roughness = surface.roughness;
    Lamp lamp{emitter, emitter_points(emitter, sampling.points), {}};
    lamp.blocks = blocks_of(lamp.points);
    for (const PanelLeaf& leaf : pose.leaves)
        light_leaf(light, leaf, surface, lamp, rays, std::max(1, sampling.patches));
    return light;
}

namespace {

/// Direction and weight of what goes from a patch to a receptor; weight 0 where they turn away.
struct Way {
    Vec3 direction{0.0};
    double weight = 0.0;
};

Way way_from(const PanelPatch& patch, const Probe& probe) {
    const Vec3 offset = probe.position_m - patch.position_m;
    const double distance2 = std::max(glm::dot(offset, offset), 1e-12);
    const Vec3 direction = offset / std::sqrt(distance2);
    const double leaving = glm::dot(patch.normal, direction);
    const double response = receptor_response(probe.receptor, -glm::dot(probe.facing, direction));
    if (leaving <= 0.0 || response <= 0.0) return {};
    return {direction, leaving * response * patch.area_m2 / distance2};
}

} // namespace

std::vector<double> patches_seen(const PanelLight& light, const Probe& probe,
                                 const RayScene* rays) {
    std::vector<double> seen(light.patches.size(), 0.0);
    std::vector<std::size_t> asked;
    std::vector<Segment> ways;
    for (std::size_t i = 0; i < seen.size(); ++i) {
        if (way_from(light.patches[i], probe).weight <= 0.0) continue;
        asked.push_back(i);
        ways.push_back({probe.position_m, light.patches[i].position_m});
    }
    std::vector<std::uint8_t> stopped(ways.size(), 0);
    if (rays != nullptr) rays->blocked_many(ways, probe.blockers, stopped);
    for (std::size_t i = 0; i < asked.size(); ++i) seen[asked[i]] = stopped[i] == 0 ? 1.0 : 0.0;
    return seen;
}

double exposure_off_panel(const PanelLight& light, const Probe& probe, const RayScene* rays) {
    return light.dark ? 0.0 : exposure_off_panel(light, probe, patches_seen(light, probe, rays));
}

double exposure_off_panel(const PanelLight& light, const Probe& probe,
                          std::span<const double> seen) {
    double sum = 0.0;
    for (std::size_t i = 0; i < seen.size(); ++i) {
        const PanelPatch& patch = light.patches[i];
        if (seen[i] <= 0.0 || (patch.diffuse <= 0.0 && patch.incoming.empty())) continue;
        const Way way = way_from(patch, probe);
        double sent = patch.diffuse;
        for (const auto& [to_light, got] : patch.incoming)
            sent += got * ggx_metal(light.reflectance, light.roughness, patch.normal, to_light,
                                    way.direction);
        sum += sent * way.weight;
    }
    return sum;
}

} // namespace keystead
