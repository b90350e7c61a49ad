#include "sim/transport/light_path.h"

#include "sim/base/ggx.h"
#include "sim/light/measured.h"
#include "sim/light/panel_light.h"
#include "sim/light/reflection_text.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace keystead::light_path {

namespace {

Vec3 albedo_at(const ScenePart& part, const RayHit& hit) {
    const Mesh& mesh = *part.mesh;
    if (mesh.colours.empty()) return Vec3(part.material.albedo);
    const glm::uvec3& t = mesh.triangles[hit.triangle];
    return (1.0 - hit.u - hit.v) * Vec3(mesh.colours[t.x]) + hit.u * Vec3(mesh.colours[t.y]) +
           hit.v * Vec3(mesh.colours[t.z]);
}

/// The share of light that a surface sends back along the path, its gloss in the mean over where
/// light comes from: a wall's sheen brightens a room. Scrims and silver have laws of their own.
Vec3 answered(const ScenePart& part, const Vec3& albedo, const Vec3& normal, const Vec3& to_eye) {
    const Material& material = part.material;
    if (material.metal || material.transmission > 0.0F) return albedo;
    reflection::Surface surface{};
    surface.normal = normal;
    surface.albedo = albedo;
    surface.roughness = static_cast<double>(material.roughness);
    surface.f0 = static_cast<double>(material.f0);
    surface.finish = static_cast<int>(material.finish);
    return reflection::even_reflectance(surface, to_eye, true);
}

/// How much more than a matt surface of its reflectance a silver one sends on from that direction.
double lobe(const Hit& hit, const Vec3& to_light) {
    return hit.metal ? pi * ggx_metal(1.0, hit.roughness, hit.normal, to_light, hit.to_eye) : 1.0;
}

/// Radiance of an emitter's brightest place and direction over that of a matt face, at most.
double brightest(const Emitter& emitter) {
    // A deflector's bright edge is at most three times the mean.
    const double place = 1.0 + std::abs(emitter.hot_spot) + (emitter.deflector > 0.0 ? 3.0 : 0.0);
    const double gain = emitter.measured != nullptr ? 4.0 * pi * emitter.measured->peak_per_lumen_sr
                                                    : emitter.beam.gain;
    return place * gain;
}

} // namespace

double radical_inverse(std::uint32_t i) {
    double sum = 0.0, place = 0.5;
    for (; i != 0; i >>= 1U, place *= 0.5)
        if ((i & 1U) != 0) sum += place;
    return sum;
}

Vec3 cosine_direction(const Vec3& normal, double u, double v) {
    const Vec3 reference = std::abs(normal.y) > 0.9 ? Vec3(1, 0, 0) : Vec3(0, 1, 0);
    const Vec3 across = glm::normalize(glm::cross(reference, normal));
    const Vec3 along = glm::cross(normal, across);
    const double r = std::sqrt(u), turn = 2.0 * pi * v;
    return r * std::cos(turn) * across + r * std::sin(turn) * along +
           std::sqrt(std::max(0.0, 1.0 - u)) * normal;
}

World world_of(const Scene& scene, const RayScene& rays, std::vector<Emitter> emitters) {
    World world{scene, rays, std::move(emitters)};
    for (Emitter& emitter : world.emitters) emitter.exitance = 1.0;
    return world;
}

bool next_hit(const World& world, const Vec3& from_m, const Vec3& direction, Hit& hit) {
    RayHit found;
    if (!world.rays.first_hit(from_m, direction, start_m, far_m, ray_mask::all, found))
        return false;
    const ScenePart& part = world.scene.parts[found.mesh];
    hit.part = found.mesh;
    hit.triangle = found.triangle;
    hit.u = found.u;
    hit.v = found.v;
    hit.distance_m = found.distance_m;
    hit.position_m = from_m + found.distance_m * direction;
    const Vec3& n = found.geometric_normal;
    hit.normal = glm::dot(n, direction) > 0.0 ? -n : n;
    hit.to_eye = -direction;
    hit.albedo = answered(part, albedo_at(part, found), hit.normal, hit.to_eye);
    hit.transmission = static_cast<double>(part.material.transmission);
    hit.roughness = static_cast<double>(part.material.roughness);
    // Only silver panels send enough light on for the shape of their lobe to matter.
    hit.metal = part.material.metal && (part.mask & ray_mask::panel) != 0;
    return true;
}

bool choose_side(Hit& hit, Random& random) {
    if (hit.transmission <= 0.0) return false;
    const double through = hit.transmission;
    const double back = glm::dot(hit.albedo, Vec3(0.2126, 0.7152, 0.0722));
    const double chance = through / (through + back);
    if (random.unit() >= chance) {
        hit.albedo /= 1.0 - chance;
        return false;
    }
    hit.position_m -= (cloth_thickness_m + start_m) * hit.normal;
    hit.normal = -hit.normal;
    hit.albedo = Vec3(through / chance);
    hit.metal = false;
    return true;
}

Offer direct_offer(const Emitter& emitter, const Hit& hit, double u, double v) {
    const EmitterPoint point = emitter_point(emitter, u, v);
    Offer offer{hit.position_m + start_m * hit.normal, point.position_m, 0.0};
    const Vec3 toward = point.position_m - hit.position_m;
    const double d2 = glm::dot(toward, toward);
    const Vec3 direction = toward / std::sqrt(d2);
    const double cosine = glm::dot(hit.normal, direction);
    const double leaving = glm::dot(point.normal, -direction);
    if (cosine <= 0.0 || leaving <= 0.0) return offer;
    const double sent = radiance(emitter, point, -direction);
    if (sent <= 0.0) return offer;
    offer.irradiance = lobe(hit, direction) *
                       std::min(sent * cosine * leaving * point.area_m2 / d2, brightest(emitter));
    return offer;
}

double direct_at(const World& world, const Emitter& emitter, const Hit& hit, double u, double v) {
    const Offer offer = direct_offer(emitter, hit, u, v);
    if (offer.irradiance <= 0.0) return 0.0;
    return world.rays.blocked(offer.from_m, offer.to_m, offer_blockers) ? 0.0 : offer.irradiance;
}

} // namespace keystead::light_path
