#include "sim/transport/reference_path.h"

#include "sim/light/panel_light.h"
#include "sim/subject/lens.h"
#include "sim/transport/path_random.h"
#include "sim/transport/ray_packet.h"
#include "sim/transport/reference_scatter.h"

#include <algorithm>
#include <bit>

namespace keystead::reference {

using lanes::I16;
using lanes::lane_count;

namespace {

constexpr float near_m = 0.05F; // the camera sees nothing nearer, as in the renderer
constexpr float far_m = 200.0F;
constexpr float leave_m = 2e-4F; // off a surface, along its normal
constexpr float start_m = 1e-4F;
constexpr float mirrored_share = 0.5F; // of the camera's rays that meet a pane of glass
constexpr float broad_m = 1.0F;        // paths after the first surface see no fine unevenness

constexpr std::uint32_t blockers = ray_mask::casters | ray_mask::background;
constexpr std::uint32_t met_by_bounces = ray_mask::all & ~ray_mask::strands;

/// Which numbers of a sample are for what: lights follow from `number_light` on.
enum Number : std::uint32_t { number_pixel = 1, number_bounce = 2, number_light = 16 };

constexpr float none = 0.0F;

} // namespace

/// Sixteen paths on their way.
struct Paths {
    RayPacket rays; ///< the last stretch; `active`: still on their way
    HitPacket hits;
    Surface surface; ///< at its end
    V16 to_eye;
    V16 share; ///< of radiance found from here on
    V16 sum;
    F16 density; ///< of the direction taken
    Dice dice;
    U16 key; ///< of pixel and seed
    std::uint32_t batch = 0, place = 0;
};

/// What lights would send along the paths if nothing is in between.
struct Offers {
    LampViews views;
    V16 light; ///< zero where there is nothing to get
};

namespace {

KEYSTEAD_INLINE U16 seed_of(const Paths& p, std::uint32_t number) {
    return mixed(p.key, U16(number * reference_batches + p.batch));
}

KEYSTEAD_INLINE V16 off_surface(const Surface& s) {
    return s.position + s.geometric * F16(leave_m);
}

KEYSTEAD_INLINE V16 kept(const M16& where, const V16& value) {
    return choose(where, value, V16(F16(none)));
}

} // namespace

/// Aims the camera's rays through the block's pixels.
KEYSTEAD_SIMD void aim_camera(const World& world, int left, int top, std::uint32_t sample,
                              Paths& p) {
    F16 x, y;
    U16 column, row;
    for (std::size_t i = 0; i < lane_count; ++i) {
        const int across = left + static_cast<int>(i) % block_side;
        const int down = top + static_cast<int>(i) / block_side;
        column.set(i, static_cast<std::uint32_t>(across));
        row.set(i, static_cast<std::uint32_t>(down));
        x.set(i, static_cast<float>(across));
        y.set(i, static_cast<float>(down));
    }
    p.key = mixed(mixed(column, U16(world.options.seed)), row);
    p.dice.state = mixed(p.key, U16(0x80000000U + sample));
    p.batch = sample % world.batches;
    p.place = sample / world.batches;
    const P16 offset = set_point(p.place, world.batch_samples, seed_of(p, number_pixel));
    const View& view = world.view;
    const Vec3 middle = sight_line(view, Vec2(0.0));
    const glm::vec3 right(sight_line(view, Vec2(1.0, 0.0)) - middle);
    const glm::vec3 upward(sight_line(view, Vec2(0.0, 1.0)) - middle);
    const F16 across =
        (x + offset.x) * (2.0F / static_cast<float>(world.options.width_px)) - F16(1.0F);
    const F16 up =
        F16(1.0F) - (y + offset.y) * (2.0F / static_cast<float>(world.options.height_px));
    p.rays.direction = normalize(V16(right) * across + V16(upward) * up + V16(glm::vec3(middle)));
    p.rays.origin_m = V16(glm::vec3(view.eye_m));
    p.rays.start = near_m;
    p.rays.end = far_m;
    p.rays.active = M16(true);
    p.share = V16(F16(1.0F));
    p.sum = V16(F16(none));
}

namespace {

/// Camera rays that meet a pane of the glasses go through or are mirrored, half of them each.
void meet_lenses(const World& world, Paths& p) {
    const F16 numbers = p.dice.next();
    for (std::size_t i = 0; i < lane_count; ++i) {
        const Vec3 from(p.rays.origin_m[i]), line(p.rays.direction[i]);
        std::optional<LensMeeting> nearest;
        for (const LensSurface& lens : world.studio->subject->lens_surfaces) {
            const auto met = meet_lens(lens, from, line);
            if (met && (!nearest || met->distance_m < nearest->distance_m)) nearest = met;
        }
        const bool hit = p.hits.mesh[i] != ray_miss;
        if (!nearest || (hit && nearest->distance_m >= static_cast<double>(p.hits.distance[i])))
            continue;
        const auto back = static_cast<float>(plate_reflectance(-glm::dot(nearest->normal, line)));
        if (numbers[i] >= mirrored_share) {
            p.share.set(i, p.share[i] * ((1.0F - back) / (1.0F - mirrored_share)));
            continue;
        }
        p.share.set(i, p.share[i] * (back / mirrored_share));
        const Vec3 onward = glm::reflect(line, nearest->normal);
        p.rays.origin_m.set(i, glm::vec3(nearest->position_m));
        p.rays.direction.set(i, glm::vec3(onward));
        RayHit found;
        const bool met =
            world.studio->rays->first_hit(nearest->position_m, onward, static_cast<double>(start_m),
                                          static_cast<double>(far_m), ray_mask::all, found);
        p.hits.mesh.set(i, met ? found.mesh : ray_miss);
        if (!met) continue;
        p.hits.triangle.set(i, found.triangle);
        p.hits.distance.set(i, static_cast<float>(found.distance_m));
        p.hits.u.set(i, static_cast<float>(found.u));
        p.hits.v.set(i, static_cast<float>(found.v));
    }
}

/// A scrim is crossed as often as its share of what leaves it: the path goes on from the far side,
/// where it is a matt surface of what comes through.
void cross_scrims(const World& world, Paths& p) {
    const F16 numbers = p.dice.next();
    Surface& s = p.surface;
    for (std::size_t i = 0; i < lane_count; ++i) {
        if (!p.rays.active[i]) continue;
        const float through = world.studio->scene.parts[p.hits.mesh[i]].material.transmission;
        if (through <= 0.0F) continue;
        const auto back = static_cast<float>(keystead::luminance(Vec3(s.albedo[i])));
        const float chance = through / (through + back);
        if (numbers[i] >= chance) {
            p.share.set(i, p.share[i] / (1.0F - chance));
            continue;
        }
        p.share.set(i, p.share[i] / chance);
        const glm::vec3 side = s.geometric[i];
        s.position.set(i, s.position[i] - static_cast<float>(cloth_thickness_m) * side);
        s.geometric.set(i, -side);
        s.normal.set(i, -s.normal[i]);
        s.albedo.set(i, glm::vec3(through));
        s.metal.set(i, false);
        s.f0.set(i, 0.0F);
    }
}

/// What a bake takes later surfaces for; only silver panels keep their lobe.
void make_matt(const World& world, Paths& p) {
    for (std::size_t i = 0; i < lane_count; ++i) {
        if (!p.rays.active[i]) continue;
        if ((world.studio->scene.parts[p.hits.mesh[i]].mask & ray_mask::panel) != 0) continue;
        p.surface.metal.set(i, false);
        p.surface.f0.set(i, 0.0F);
        p.surface.finish.set(i, reflection::finish_plain);
    }
}

} // namespace

/// Adds the light of faces that the camera sees.
KEYSTEAD_SIMD void see_lamps(const World& world, const F16& footprint_m, Paths& p) {
    for (const Lamp& lamp : world.lamps) {
        const M16 seen = p.rays.active && p.surface.emitting_light == I16(lamp.light);
        if (!lanes::any(seen)) continue;
        const F16 sent = emission_lanes::seen_radiance(lamp.face, p.surface.position, p.to_eye,
                                                       footprint_m, lamp_per_lumen(lamp, p.to_eye));
        p.sum += kept(seen, p.share * V16(lamp.exitance) * sent);
    }
}

/// Turns hits into surfaces; paths that met nothing end.
KEYSTEAD_SIMD void end_missed(Paths& p) {
    p.rays.active = p.rays.active && p.hits.mesh != U16(ray_miss);
    p.to_eye = -p.rays.direction;
}

KEYSTEAD_SIMD void widths_at(const World& world, const Paths& p, bool first, F16& footprint_m) {
    const auto slope =
        static_cast<float>(2.0 * world.view.tan_half_height / std::max(1, world.options.height_px));
    footprint_m = first ? p.hits.distance * slope : F16(broad_m);
}

/// What a light sends from the places that `u` and `v` pick. `weighed`: the path goes on, so it may
/// find the light itself.
KEYSTEAD_SIMD void ask_lamp(const World& world, const Paths& p, const Lamp& lamp, const F16& u,
                            const F16& v, const M16& weighed, Offers& offers) {
    const Surface& s = p.surface;
    sample_lamp(lamp, off_surface(s), u, v, offers.views);
    const LampViews& views = offers.views;
    const M16 lit = p.rays.active && views.radiance > F16(none) &&
                    s.emitting_light != I16(lamp.light) &&
                    dot(s.geometric, views.direction) > F16(none);
    offers.light = V16(F16(none));
    if (!lanes::any(lit)) return;
    const bool specular = world.options.specular;
    const V16 sent = reflected(s, p.to_eye, views.direction, specular);
    F16 share = F16(1.0F) / views.density;
    if (lanes::any(weighed)) {
        const F16 other = scatter_density(s, p.to_eye, views.direction, specular);
        share = choose(weighed, F16(1.0F) / (views.density + other), share);
    }
    offers.light = kept(lit, p.share * sent * V16(lamp.exitance) * (views.radiance * share));
}

/// Adds what the offers hold where nothing blocks them.
KEYSTEAD_SIMD void take_offers(const World& world, const Offers& offers, RayOrder order, Paths& p) {
    RayPacket rays;
    rays.active = luminance(offers.light) > F16(none);
    if (!lanes::any(rays.active)) return;
    rays.origin_m = off_surface(p.surface);
    rays.direction = offers.views.direction;
    rays.start = start_m;
    rays.end = offers.views.distance_m - F16(start_m);
    M16 blocked;
    world.studio->rays->blocked(rays, blockers, order, blocked);
    p.sum += kept(rays.active && !blocked, offers.light);
}

KEYSTEAD_SIMD void numbers_for(const World& world, const Paths& p, std::uint32_t number, F16& u,
                               F16& v) {
    const P16 place = set_point(p.place, world.batch_samples, seed_of(p, number));
    u = place.x;
    v = place.y;
}

KEYSTEAD_SIMD void next_numbers(Paths& p, F16& u, F16& v) {
    u = p.dice.next();
    v = p.dice.next();
}

/// Keeps one of the offers made so far, each as likely as what it holds (Talbot, Cline and Egbert,
/// "Importance resampling for global illumination", 2005).
KEYSTEAD_SIMD void choose_offer(const Offers& next, Paths& p, F16& total, F16& chosen,
                                Offers& best) {
    const F16 worth = luminance(next.light);
    total += worth;
    const M16 taken = worth > F16(none) && p.dice.next() * total < worth;
    chosen = choose(taken, worth, chosen);
    best.light = choose(taken, next.light, best.light);
    best.views.direction = choose(taken, next.views.direction, best.views.direction);
    best.views.distance_m = choose(taken, next.views.distance_m, best.views.distance_m);
}

KEYSTEAD_SIMD void weigh_choice(const F16& total, const F16& chosen, Offers& best) {
    const M16 any_offer = chosen > F16(none);
    best.light = kept(any_offer, best.light * (total / choose(any_offer, chosen, F16(1.0F))));
}

/// Where one place of a light can outshine the rest by far: near it, and on smooth surfaces.
KEYSTEAD_SIMD void find_unsteady(const World& world, const Paths& p, M16& unsteady) {
    constexpr float smooth = 0.4F;
    const Surface& s = p.surface;
    unsteady =
        M16(world.options.specular) && s.roughness < F16(smooth) && (s.metal || s.f0 > F16(none));
    for (const Lamp& lamp : world.lamps) {
        const V16 way = s.position - V16(lamp.face.centre);
        unsteady = unsteady || dot(way, way) < F16(4.0F * lamp.reach_m * lamp.reach_m);
    }
    unsteady = unsteady && p.rays.active;
}

/// Sends paths on; those that can't go on end.
KEYSTEAD_SIMD void scatter(const World& world, bool first, Paths& p) {
    const bool specular = world.options.specular && (world.options.gloss_of_bounces || !first);
    const Surface& s = p.surface;
    F16 u, v;
    if (first)
        numbers_for(world, p, number_bounce, u, v);
    else
        next_numbers(p, u, v);
    const V16 direction = scattered(s, p.to_eye, specular, p.dice.next(), u, v);
    p.density = scatter_density(s, p.to_eye, direction, specular);
    M16 on = p.rays.active && p.density > F16(none) && dot(s.geometric, direction) > F16(none);
    const V16 sent = reflected(s, p.to_eye, direction, specular);
    p.share = p.share * sent / choose(on, p.density, F16(1.0F));
    on = on && luminance(p.share) > F16(none);
    p.rays.origin_m = off_surface(s);
    p.rays.direction = choose(on, direction, s.geometric);
    p.rays.start = start_m;
    p.rays.end = far_m;
    p.rays.active = on;
}

/// Something stands before the light; grids and faces let their own light through.
void look_past(const World& world, const Paths& p, const LampViews& views, M16& found) {
    for (std::size_t i = 0; i < lane_count; ++i) {
        if (!found[i] || p.hits.mesh[i] == ray_miss ||
            views.distance_m[i] <= p.hits.distance[i] + 1e-3F)
            continue;
        const std::uint32_t mask = world.studio->scene.parts[p.hits.mesh[i]].mask;
        if ((mask & blockers) != 0 || (mask & ray_mask::emitter) == 0) {
            found.set(i, false);
            continue;
        }
        const Vec3 from(p.rays.origin_m[i]);
        const Vec3 to = from + static_cast<double>(views.distance_m[i]) * Vec3(p.rays.direction[i]);
        if (world.studio->rays->blocked(from, to, blockers)) found.set(i, false);
    }
}

/// Adds the lights that the rays just cast have met themselves.
KEYSTEAD_SIMD void meet_lamps(const World& world, Paths& p) {
    for (const Lamp& lamp : world.lamps) {
        LampViews views;
        meet_lamp(lamp, p.rays.origin_m, p.rays.direction, views);
        M16 found = p.rays.active && views.radiance > F16(none) &&
                    p.surface.emitting_light != I16(lamp.light);
        if (!lanes::any(found)) continue;
        look_past(world, p, views, found);
        const F16 share = p.density / (p.density + views.density);
        p.sum += kept(found, p.share * V16(lamp.exitance) * (views.radiance * share));
    }
}

namespace {

void ask_all(const World& world, const M16& weighed, Paths& p) {
    Offers offers;
    F16 u, v;
    for (std::size_t l = 0; l < world.lamps.size(); ++l) {
        numbers_for(world, p, number_light + static_cast<std::uint32_t>(l), u, v);
        ask_lamp(world, p, world.lamps[l], u, v, weighed, offers);
        take_offers(world, offers, RayOrder::coherent, p);
    }
}

void ask_one(const World& world, const M16& weighed, Paths& p) {
    Offers offers, best;
    best.light = V16(F16(none));
    best.views.direction = V16(F16(1.0F));
    best.views.distance_m = F16(1.0F);
    F16 total(none), chosen(none), u, v;
    for (const Lamp& lamp : world.lamps) {
        next_numbers(p, u, v);
        ask_lamp(world, p, lamp, u, v, weighed, offers);
        choose_offer(offers, p, total, chosen, best);
    }
    weigh_choice(total, chosen, best);
    take_offers(world, best, RayOrder::incoherent, p);
}

void arrive(const World& world, bool first, Paths& p) {
    end_missed(p);
    F16 footprint_m;
    widths_at(world, p, first, footprint_m);
    surfaces_at(*world.surfaces, p.rays, p.hits, footprint_m, p.surface);
    if (first) see_lamps(world, footprint_m, p);
    if (!first && !world.options.gloss_of_bounces) make_matt(world, p);
    if (world.scrims) cross_scrims(world, p);
}

void trace(const World& world, Paths& p) {
    const bool weighed = world.options.gloss_of_bounces;
    const RayScene& rays = *world.studio->rays;
    rays.first_hits(p.rays, ray_mask::all, RayOrder::coherent, p.hits);
    if (world.lenses) meet_lenses(world, p);
    for (int depth = 0;; ++depth) {
        arrive(world, depth == 0, p);
        if (!lanes::any(p.rays.active)) return;
        const bool last = depth >= world.options.bounces;
        // At the last surface only paths that need it go on, to find the lights themselves.
        M16 on(weighed);
        if (weighed && last && depth > 0) find_unsteady(world, p, on);
        if (depth == 0)
            ask_all(world, on, p);
        else
            ask_one(world, on, p);
        if (last) p.rays.active = p.rays.active && on;
        if (!lanes::any(p.rays.active)) return;
        scatter(world, depth == 0, p);
        rays.first_hits(p.rays, met_by_bounces, RayOrder::incoherent, p.hits);
        if (weighed) meet_lamps(world, p);
        if (last) return;
    }
}

} // namespace

World make_world(const Studio& studio, const View& view, const ReferenceOptions& options) {
    World world;
    world.studio = &studio;
    world.view = view;
    world.options = options;
    world.options.samples = std::max(1, options.samples);
    world.options.bounces = std::max(0, options.bounces);
    world.surfaces = make_surface_table(studio.scene);
    world.lenses = studio.subject && studio.subject->lenses;
    for (const ScenePart& part : studio.scene.parts)
        world.scrims = world.scrims || part.material.transmission > 0.0F;
    world.batches = static_cast<std::uint32_t>(std::min(world.options.samples, reference_batches));
    const auto samples = static_cast<std::uint32_t>(world.options.samples);
    world.batch_samples = std::bit_ceil((samples + world.batches - 1) / world.batches);
    for (std::size_t i = 0; i < studio.emitters.size(); ++i)
        if (studio.emitters[i].power > 0.0 && studio.emitters[i].exitance > 0.0)
            world.lamps.push_back(
                make_lamp(studio.emitters[i], static_cast<int>(i), studio.set.camera.shutter_s));
    return world;
}

void trace_block(const World& world, int left, int top, BlockSums& sums) {
    Paths paths;
    for (int sample = 0; sample < world.options.samples; ++sample) {
        aim_camera(world, left, top, static_cast<std::uint32_t>(sample), paths);
        trace(world, paths);
        for (std::size_t i = 0; i < lane_count; ++i) sums.pixels[i][paths.batch] += paths.sum[i];
    }
}

} // namespace keystead::reference
