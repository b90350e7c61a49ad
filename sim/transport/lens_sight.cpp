#include "sim/transport/lens_sight.h"

#include "sim/subject/lens.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

constexpr double sight_start_m = 0.05; ///< the G-buffer's near plane
constexpr double leave_m = 1e-4;
constexpr double far_m = 80.0;
constexpr double eyeball_m = 0.0135; ///< from the middle to the cornea's front, and some
constexpr std::uint32_t in_eyes = ray_mask::all & ~(ray_mask::gear | ray_mask::emitter);

Vec3 on_outline(const LensSurface& lens, double angle) {
    // A box around the outline is enough, bulge included.
    const Vec3 local(std::cos(angle) * 1.5 * lens.half_width_m,
                     std::sin(angle) * 1.5 * lens.half_height_m, 0.0);
    return lens.middle_m + lens.axes * local;
}

/// Places whose pixels surround lenses and eyeballs.
std::vector<Vec3> outlines(const Studio& studio) {
    std::vector<Vec3> places;
    if (wears_lenses(studio))
        for (const LensSurface& lens : studio.subject->lens_surfaces)
            for (int i = 0; i < 16; ++i) places.push_back(on_outline(lens, pi * i / 8.0));
    const Landmarks& marks = studio.subject->landmarks;
    for (const Vec3& middle : {marks.eye_left, marks.eye_right})
        for (int corner = 0; corner < 8; ++corner)
            places.push_back(middle + eyeball_m * Vec3((corner & 1) != 0 ? 1.0 : -1.0,
                                                       (corner & 2) != 0 ? 1.0 : -1.0,
                                                       (corner & 4) != 0 ? 1.0 : -1.0));
    return places;
}

PixelBox box_of(const std::vector<Vec3>& places_m, const View& view, int width_px, int height_px) {
    Vec2 low(width_px, height_px), high(0.0);
    for (const Vec3& place : places_m) {
        Vec2 pixel;
        if (!project(view, width_px, height_px, place, pixel)) return {0, 0, width_px, height_px};
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

Vec3 smooth_normal(const Mesh& mesh, const RayHit& hit) {
    if (mesh.normals.empty()) return hit.geometric_normal;
    const glm::vec3 smooth = between_corners(mesh.normals, mesh.triangles[hit.triangle], hit);
    return glm::length(smooth) > 0.5F ? glm::normalize(Vec3(smooth)) : hit.geometric_normal;
}

std::optional<LensGlance> glance_at_eye(const Studio& studio, const View& view, const Vec3& line) {
    const Landmarks& marks = studio.subject->landmarks;
    const auto passes = [&](const Vec3& middle) {
        const Vec3 to = middle - view.eye_m;
        return glm::length(to - glm::dot(to, line) * line) < eyeball_m;
    };
    if (!passes(marks.eye_left) && !passes(marks.eye_right)) return std::nullopt;
    RayHit hit;
    if (!studio.rays->first_hit(view.eye_m, line, sight_start_m, far_m, ray_mask::visible, hit))
        return std::nullopt;
    const ScenePart& part = studio.scene.parts[hit.mesh];
    if (part.material.finish != Finish::eye) return std::nullopt;
    Vec3 normal = smooth_normal(*part.mesh, hit);
    if (glm::dot(normal, line) > 0.0) normal = -normal;
    const double across = 1.0 + glm::dot(normal, line); // 1 - cosine
    const auto straight = static_cast<double>(part.material.f0);
    const double share = straight + (1.0 - straight) * std::pow(across, 5.0); // Schlick
    return LensGlance{view.eye_m + hit.distance_m * line, -share, glm::reflect(line, normal),
                      in_eyes};
}

struct Mirrored {
    std::size_t pixel;
    RayQuery ray;
    std::uint32_t mask;
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
        mirrored.push_back({i, ray, glance->mask});
    }
    return mirrored;
}

} // namespace

bool wears_lenses(const Studio& studio) {
    return studio.subject && studio.subject->lenses && studio.rays;
}

PixelBox lens_box(const Studio& studio, const View& view, int width_px, int height_px) {
    if (!studio.subject || !studio.rays) return {};
    return box_of(outlines(studio), view, width_px, height_px);
}

std::optional<LensGlance> glance_at_lens(const Studio& studio, const View& view, const Vec3& line) {
    std::optional<LensMeeting> nearest;
    if (wears_lenses(studio))
        for (const LensSurface& lens : studio.subject->lens_surfaces) {
            const auto met = meet_lens(lens, view.eye_m, line);
            if (met && (!nearest || met->distance_m < nearest->distance_m)) nearest = met;
        }
    if (!nearest) return glance_at_eye(studio, view, line);
    if (studio.rays->blocked(view.eye_m + sight_start_m * line, nearest->position_m, ray_mask::all,
                             leave_m))
        return std::nullopt;
    return LensGlance{nearest->position_m, plate_reflectance(-glm::dot(nearest->normal, line)),
                      glm::reflect(line, nearest->normal), ray_mask::all};
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
    for (const Mirrored& one : mirrored) {
        RayHit hit;
        const RayQuery& ray = one.ray;
        if (studio.rays->first_hit(ray.origin_m, ray.direction, ray.start_m, ray.end_m, one.mask,
                                   hit))
            describe_hit(sight, one.pixel, ray, hit, studio.scene.parts[hit.mesh]);
    }
    return sight;
}

} // namespace keystead
