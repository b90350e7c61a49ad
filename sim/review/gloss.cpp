#include "sim/review/gloss.h"

#include "sim/base/frames.h"
#include "sim/light/colour.h"
#include "sim/light/lamp_lanes.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// Radiance mirrored per irradiance, luminous.
double lobes(const GlossyPoint& point, const Vec3& toward) {
    const reflection::Surface& s = point.surface;
    const double cosine = glm::dot(s.normal, toward);
    // Grazing light brings nothing, and its share is not worth the division.
    constexpr double least_cosine = 1e-3;
    if (cosine <= least_cosine) return 0.0;
    const Vec3 all = reflection::reflection(s, point.to_eye, toward, true, false, true);
    const Vec3 matt = reflection::reflection(s, point.to_eye, toward, false, false, true);
    return std::max(0.0, luminance(all - matt)) / cosine;
}

} // namespace

double roughness_at(const ScenePart& part, const RayHit& hit) {
    const Mesh& mesh = *part.mesh;
    if (mesh.roughness.empty()) return static_cast<double>(part.material.roughness);
    const glm::uvec3& corner = mesh.triangles[hit.triangle];
    return (1.0 - hit.u - hit.v) * static_cast<double>(mesh.roughness[corner.x]) +
           hit.u * static_cast<double>(mesh.roughness[corner.y]) +
           hit.v * static_cast<double>(mesh.roughness[corner.z]);
}

GlossyPoint glossy_point(const Studio& studio, const RayHit& hit, const SurfacePoint& point,
                         const Vec3& direction) {
    const ScenePart& part = studio.scene.parts[hit.mesh];
    const Mesh& mesh = *part.mesh;
    const glm::uvec3& corner = mesh.triangles[hit.triangle];
    const auto blend = [&](const std::vector<glm::vec3>& values) {
        return (1.0 - hit.u - hit.v) * Vec3(values[corner.x]) + hit.u * Vec3(values[corner.y]) +
               hit.v * Vec3(values[corner.z]);
    };
    GlossyPoint glossy;
    glossy.to_eye = -direction;
    reflection::Surface& s = glossy.surface;
    s.position = point.position_m;
    s.normal = s.geometric = point.normal;
    if (part.material.finish == Finish::hair && !mesh.tangents.empty()) {
        const Vec3 along = blend(mesh.tangents);
        if (glm::length(along) > 0.5) s.tangent = glm::normalize(along);
    }
    s.albedo = mesh.colours.empty() ? Vec3(part.material.albedo) : blend(mesh.colours);
    s.roughness = roughness_at(part, hit);
    s.f0 = static_cast<double>(part.material.f0);
    s.metal = part.material.metal;
    s.finish = static_cast<int>(part.material.finish);
    s.emitting_light = part.emitting_light;
    return glossy;
}

GivenLight light_on(const Emitter& emitter, const Probe& probe, const GlossyPoint& point,
                    const RayScene* rays, int points) {
    const std::vector<EmitterPoint> face = emitter_points(emitter, points);
    const std::vector<PointBlock> blocks = blocks_of(face);
    std::vector<float> shares(16 * blocks.size());
    seen_shares(emitter, blocks, probe, rays, shares);
    GivenLight light;
    for (std::size_t i = 0; i < face.size(); ++i) {
        const auto share = static_cast<double>(shares[i]);
        if (share <= 0.0) continue;
        light.given += share;
        light.mirrored +=
            pi * share * lobes(point, glm::normalize(face[i].position_m - probe.position_m));
    }
    light.given *= emitter.power;
    light.mirrored *= emitter.power;
    return light;
}

double even_share(const GlossyPoint& point) {
    // Strands answer differently to every run of theirs: summed over the half-space, in rings that
    // an even surround lights alike.
    if (point.surface.finish == reflection::finish_hair) {
        constexpr int rings = 6, around = 12;
        const Mat3 axes = upright_frame(point.surface.normal);
        double sum = luminance(point.surface.albedo);
        for (int ring = 0; ring < rings; ++ring) {
            const double cosine = std::sqrt((ring + 0.5) / rings);
            const double sine = std::sqrt(1.0 - cosine * cosine);
            for (int step = 0; step < around; ++step) {
                const double turn = 2.0 * pi * (step + 0.5 * (ring % 2)) / around;
                const Vec3 toward = sine * std::cos(turn) * axes[0] +
                                    sine * std::sin(turn) * axes[1] + cosine * axes[2];
                sum += pi * lobes(point, toward) / (rings * around);
            }
        }
        return sum;
    }
    return luminance(reflection::even_reflectance(point.surface, point.to_eye, true));
}

} // namespace keystead
