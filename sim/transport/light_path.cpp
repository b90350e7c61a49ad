#include "sim/transport/light_path.h"

#include "sim/light/colour.h"
#include "sim/light/measured.h"
#include "sim/light/panel_light.h"
#include "sim/light/reflection_text.h"

#include <algorithm>
#include <cmath>

namespace keystead::light_path {

namespace {

using lanes::lane_count;
using reflection_lanes::Surface;

constexpr std::uint32_t blockers = ray_mask::casters | ray_mask::background;
constexpr float margin_m = 1e-4F; // of shadow rays, at either end

float brightest_of(const Emitter& emitter) {
    // A deflector's bright edge is at most three times the mean.
    const double place = 1.0 + std::abs(emitter.hot_spot) + (emitter.deflector > 0.0 ? 3.0 : 0.0);
    const double gain = emitter.measured != nullptr ? 4.0 * pi * emitter.measured->peak_per_lumen_sr
                                                    : emitter.beam.gain;
    return static_cast<float>(place * gain);
}

/// What rays met, taken for even: flat triangles without grain or unevenness.
struct Met {
    Surface surface;
    V16 edge_1, edge_2;
    F16 transmission, silver;
};

/// One lane's triangle and material.
KEYSTEAD_INLINE void look_up(const ScenePart& part, std::size_t lane, const HitPacket& hits,
                             Met& met) {
    const Mesh& mesh = *part.mesh;
    const Material& material = part.material;
    const glm::uvec3& corner = mesh.triangles[hits.triangle[lane]];
    const glm::vec3 p = mesh.positions_m[corner.x];
    met.edge_1.set(lane, mesh.positions_m[corner.y] - p);
    met.edge_2.set(lane, mesh.positions_m[corner.z] - p);
    Surface& s = met.surface;
    const float u = hits.u[lane], v = hits.v[lane];
    s.albedo.set(lane, mesh.colours.empty()
                           ? material.albedo
                           : (1.0F - u - v) * mesh.colours[corner.x] + u * mesh.colours[corner.y] +
                                 v * mesh.colours[corner.z]);
    s.roughness.set(lane, material.roughness);
    s.f0.set(lane, material.f0);
    s.metal.set(lane, material.metal);
    s.finish.set(lane, static_cast<int>(material.finish));
    met.transmission.set(lane, material.transmission);
    // Only silver panels send enough light on for the shape of their lobe to matter.
    if (material.metal && (part.mask & ray_mask::panel) != 0)
        met.silver.set(lane, material.roughness);
}

KEYSTEAD_INLINE void look_up_all(const World& world, const RayPacket& rays, const HitPacket& hits,
                                 Met& met) {
    met.edge_1 = V16(1.0F, 0.0F, 0.0F);
    met.edge_2 = V16(0.0F, 1.0F, 0.0F);
    met.transmission = 0.0F;
    met.silver = -1.0F;
    Surface& s = met.surface;
    s.albedo = s.tangent = V16(F16(0.0F));
    s.roughness = 1.0F;
    s.f0 = 0.0F;
    s.metal = M16(false);
    s.finish = 0;
    for (std::size_t i = 0; i < lane_count; ++i)
        if (hits.mesh[i] != ray_miss) look_up(world.scene.parts[hits.mesh[i]], i, hits, met);
    const V16 across = normalize(cross(met.edge_1, met.edge_2));
    s.geometric = choose(dot(across, rays.direction) > F16(0.0F), -across, across);
    s.normal = s.geometric;
    s.position = rays.origin_m +
                 rays.direction * choose(hits.mesh != U16(ray_miss), hits.distance, F16(0.0F));
}

} // namespace

World world_of(const Scene& scene, const RayScene& rays) {
    World world{scene, rays};
    world.scrims = std::any_of(scene.parts.begin(), scene.parts.end(), [](const ScenePart& part) {
        return part.material.transmission > 0.0F;
    });
    return world;
}

std::uint32_t seed_of(std::string_view name) {
    std::uint32_t hash = 2166136261U; // FNV-1a
    for (const char letter : name) hash = (hash ^ static_cast<unsigned char>(letter)) * 16777619U;
    return hash;
}

Source source_of(const Emitter& emitter) {
    return {make_lamp(emitter, 0, 1.0), brightest_of(emitter), seed_of(emitter.light)};
}

KEYSTEAD_SIMD void aim(const V16& position_m, const V16& normal, const F16& u, const F16& v,
                       const M16& active, RayPacket& rays) {
    const M16 upright = abs(normal.y) > F16(0.9F);
    const V16 reference = choose(upright, V16(1.0F, 0.0F, 0.0F), V16(0.0F, 1.0F, 0.0F));
    const V16 across = normalize(cross(reference, normal));
    const V16 along = cross(normal, across);
    F16 sine, cosine;
    lanes::sine_cosine_of_turns(v, sine, cosine);
    const F16 r = sqrt(u);
    rays.direction =
        across * (r * cosine) + along * (r * sine) + normal * sqrt(max(F16(1.0F) - u, 0.0F));
    rays.origin_m = position_m;
    rays.start = leave_m;
    rays.end = far_m;
    rays.active = active;
}

KEYSTEAD_SIMD void land(const World& world, const RayPacket& rays, const HitPacket& hits,
                        const U16& seeds, M16& through, Landings& landings) {
    const M16 met = rays.active && hits.mesh != U16(ray_miss);
    Met found;
    look_up_all(world, rays, hits, found);
    const Surface& s = found.surface;
    const F16& transmission = found.transmission;
    const M16 scrim = M16(world.scrims) && transmission > F16(0.0F);
    // Scrims and silver have laws of their own.
    V16 albedo = choose(s.metal || scrim, s.albedo,
                        reflection_lanes::even_reflectance(s, -rays.direction, true));
    landings.position_m = s.position;
    landings.normal = s.geometric;
    landings.silver = found.silver;
    through = M16(false);
    if (any(scrim)) {
        const F16 back = luminance(albedo);
        const F16 chance = transmission / choose(scrim, transmission + back, F16(1.0F));
        through = scrim && unit(mixed(seeds)) < chance;
        const M16 stays = scrim && !through;
        albedo = choose(stays, albedo / choose(stays, F16(1.0F) - chance, F16(1.0F)), albedo);
        albedo = choose(through, V16(transmission / choose(through, chance, F16(1.0F))), albedo);
        const V16 far_side =
            s.position - s.geometric * (static_cast<float>(cloth_thickness_m) + leave_m);
        landings.position_m = choose(through, far_side, landings.position_m);
        landings.normal = choose(through, -landings.normal, landings.normal);
        landings.silver = choose(through, F16(-1.0F), landings.silver);
    }
    landings.albedo = choose(met, albedo, V16(F16(0.0F)));
    landings.distance_m = choose(met, hits.distance, F16(far_m));
    landings.part = choose(met, hits.mesh, U16(ray_miss));
    landings.point = 0U;
}

KEYSTEAD_SIMD void offers_of(const Source& source, const Landings& landings, const V16& from_m,
                             const M16& asked, const F16& u, const F16& v, Offers& offers) {
    const V16& normal = landings.normal;
    LampViews views;
    sample_lamp(source.lamp, landings.position_m, u, v, views);
    offers.place_m = landings.position_m + views.direction * views.distance_m;
    const F16 cosine = dot(normal, views.direction);
    const M16 lit =
        asked && landings.part != U16(ray_miss) && cosine > F16(0.0F) && views.radiance > F16(0.0F);
    F16 sent = min(views.radiance * cosine / views.density, F16(source.brightest));
    const M16 silver = lit && landings.silver >= F16(0.0F);
    if (any(silver)) {
        // How much more than a matt surface of its reflectance.
        const V16 to_eye = normalize(from_m - landings.position_m);
        const F16 nv = dot(normal, to_eye);
        const F16 nh = clamp(dot(normal, normalize(views.direction + to_eye)), 0.0F, 1.0F);
        const F16 lobe = reflection_lanes::ggx(landings.silver, cosine, nv, nh) * pi_f;
        sent = choose(silver, choose(nv > F16(0.0F), sent * lobe, F16(0.0F)), sent);
    }
    offers.irradiance = choose(lit, sent, F16(0.0F));
}

KEYSTEAD_SIMD int lit_by(const World& world, const Landings& landings, const Offers& offers,
                         F16& irradiance) {
    irradiance = 0.0F;
    RayPacket rays;
    rays.active = offers.irradiance > F16(0.0F);
    if (!any(rays.active)) return 0;
    rays.origin_m = landings.position_m + landings.normal * F16(leave_m);
    rays.direction = offers.place_m - rays.origin_m;
    const F16 margin = F16(margin_m) / max(length(rays.direction), 2.0F * margin_m);
    rays.start = margin;
    rays.end = F16(1.0F) - margin;
    M16 blocked;
    // Embree is twice as fast when told that these go each their own way.
    world.rays.blocked(rays, blockers, RayOrder::incoherent, blocked);
    irradiance = choose(rays.active && !blocked, offers.irradiance, F16(0.0F));
    return lanes::count(rays.active);
}

} // namespace keystead::light_path
