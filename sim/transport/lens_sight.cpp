#include "sim/transport/lens_sight.h"

#include "sim/subject/lens.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

constexpr double sight_start_m = 0.05; ///< the G-buffer's near plane
constexpr double leave_m = 1e-4;
constexpr double far_m = 80.0;

Vec3 on_outline(const LensSurface& lens, double angle) {
    // A box around the outline is enough, bulge included.
    const Vec3 local(std::cos(angle) * 1.5 * lens.half_width_m,
                     std::sin(angle) * 1.5 * lens.half_height_m, 0.0);
    return lens.middle_m + lens.axes * local;
}

PixelBox box_of(const std::array<LensSurface, 2>& lenses, const View& view, int width_px,
                int height_px) {
    Vec2 low(width_px, height_px), high(0.0);
    for (const LensSurface& lens : lenses)
        for (int i = 0; i < 16; ++i) {
            Vec2 pixel;
            if (!project(view, width_px, height_px, on_outline(lens, pi * i / 8.0), pixel))
                return {0, 0, width_px, height_px};
            pixel.y = height_px - pixel.y;
            low = glm::min(low, pixel);
            high = glm::max(high, pixel);
        }
    const Vec2 size(width_px, height_px);
    low = glm::clamp(glm::floor(low) - 2.0, Vec2(0.0), size);
    high = glm::clamp(glm::ceil(high) + 2.0, Vec2(0.0), size);
    if (high.x <= low.x || high.y <= low.y) return {};
    return {static_cast<int>(low.x), static_cast<int>(low.y), static_cast<int>(high.x - low.x),
            static_cast<int>(high.y - low.y)};
}

/// Direction of a pixel's middle, moved as gbuffer.h's clip_from_room moves the picture.
Vec3 sight_line(const View& view, Vec2 pixel, Vec2 size, Vec2 offset) {
    const Vec2 at = 2.0 * (pixel + 0.5 - offset) / size - 1.0;
    return glm::normalize(keystead::sight_line(view, at));
}

/// As in shaders/octahedral.glsl.
glm::vec2 octahedral(const Vec3& normal) {
    const glm::vec3 n(normal);
    const glm::vec2 p = glm::vec2(n) / (std::abs(n.x) + std::abs(n.y) + std::abs(n.z));
    if (n.z >= 0.0F) return p;
    return (1.0F - glm::abs(glm::vec2(p.y, p.x))) *
           glm::vec2(p.x >= 0.0F ? 1.0F : -1.0F, p.y >= 0.0F ? 1.0F : -1.0F);
}

template <class T>
T between_corners(const std::vector<T>& values, const glm::uvec3& triangle, const RayHit& hit) {
    const auto u = static_cast<float>(hit.u), v = static_cast<float>(hit.v);
    return (1.0F - u - v) * values[triangle.x] + u * values[triangle.y] + v * values[triangle.z];
}

void describe_hit(LensSight& sight, std::size_t i, const RayQuery& ray, const RayHit& hit,
                  const ScenePart& part) {
    const Mesh& mesh = *part.mesh;
    const glm::uvec3& triangle = mesh.triangles[hit.triangle];
    Vec3 geometric = hit.geometric_normal;
    if (glm::dot(geometric, ray.direction) > 0.0) geometric = -geometric;
    Vec3 shading = geometric;
    if (!mesh.normals.empty()) {
        const glm::vec3 smooth = between_corners(mesh.normals, triangle, hit);
        if (glm::length(smooth) > 0.5F) shading = glm::normalize(Vec3(smooth));
        if (glm::dot(shading, geometric) < 0.0) shading = -shading;
    }
    const glm::vec3 albedo =
        mesh.colours.empty() ? part.material.albedo : between_corners(mesh.colours, triangle, hit);
    const float roughness = mesh.roughness.empty() ? part.material.roughness
                                                   : between_corners(mesh.roughness, triangle, hit);
    sight.position[i] = glm::vec4(glm::vec3(ray.origin_m + hit.distance_m * ray.direction),
                                  static_cast<float>(hit.mesh + 1));
    sight.normals[i] = glm::vec4(octahedral(geometric), octahedral(shading));
    sight.surface[i] = glm::vec4(albedo, roughness);
    sight.hits[i] = hit;
}

struct Mirrored {
    std::size_t pixel;
    RayQuery ray;
};

/// Fills in the places on the lenses; returns the rays that go on from there.
std::vector<Mirrored> meet_lenses(LensSight& sight, const Studio& studio, const View& view,
                                  Vec2 size, Vec2 offset) {
    std::vector<Mirrored> mirrored;
    for (std::size_t i = 0; i < sight.box.count(); ++i) {
        const auto wide = static_cast<std::size_t>(sight.box.width);
        const Vec2 pixel(sight.box.left + static_cast<int>(i % wide),
                         sight.box.bottom + static_cast<int>(i / wide));
        const Vec3 line = sight_line(view, pixel, size, offset);
        const std::optional<LensGlance> glance = glance_at_lens(studio, view, line);
        if (!glance) continue;
        sight.lens[i] = glm::vec4(glm::vec3(glance->place_m), static_cast<float>(glance->share));
        RayQuery ray;
        ray.origin_m = glance->place_m;
        ray.direction = glance->onward;
        ray.start_m = leave_m;
        ray.end_m = far_m;
        mirrored.push_back({i, ray});
    }
    return mirrored;
}

} // namespace

bool wears_lenses(const Studio& studio) {
    return studio.subject && studio.subject->lenses && studio.rays;
}

PixelBox lens_box(const Studio& studio, const View& view, int width_px, int height_px) {
    return box_of(studio.subject->lens_surfaces, view, width_px, height_px);
}

std::optional<LensGlance> glance_at_lens(const Studio& studio, const View& view, const Vec3& line) {
    std::optional<LensMeeting> nearest;
    for (const LensSurface& lens : studio.subject->lens_surfaces) {
        const auto met = meet_lens(lens, view.eye_m, line);
        if (met && (!nearest || met->distance_m < nearest->distance_m)) nearest = met;
    }
    if (!nearest || studio.rays->blocked(view.eye_m + sight_start_m * line, nearest->position_m,
                                         ray_mask::all, leave_m))
        return std::nullopt;
    return LensGlance{nearest->position_m, plate_reflectance(-glm::dot(nearest->normal, line)),
                      glm::reflect(line, nearest->normal)};
}

LensSight see_lenses(const Studio& studio, const View& view, int width_px, int height_px,
                     glm::vec2 offset_px) {
    LensSight sight;
    sight.box = lens_box(studio, view, width_px, height_px);
    const std::size_t count = sight.box.count();
    for (auto* entries : {&sight.lens, &sight.position, &sight.normals, &sight.surface})
        entries->assign(count, glm::vec4(0.0F));
    RayHit nothing;
    nothing.mesh = ray_miss;
    sight.hits.assign(count, nothing);
    const std::vector<Mirrored> mirrored =
        meet_lenses(sight, studio, view, Vec2(width_px, height_px), Vec2(offset_px));
    std::vector<RayQuery> rays;
    for (const Mirrored& one : mirrored) rays.push_back(one.ray);
    std::vector<RayHit> hits(rays.size());
    studio.rays->first_hits(rays, ray_mask::all, hits);
    for (std::size_t k = 0; k < hits.size(); ++k)
        if (hits[k].mesh != ray_miss)
            describe_hit(sight, mirrored[k].pixel, rays[k], hits[k],
                         studio.scene.parts[hits[k].mesh]);
    return sight;
}

} // namespace keystead
