#include "sim/transport/reference_path.h"

#include "sim/subject/lens.h"
#include "sim/transport/ray_packet.h"
#include "sim/transport/reference_random.h"
#include "sim/transport/reference_scatter.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace keystead::reference {

namespace {

using lanes::lane_count;

constexpr float near_m = 0.05F; // the camera sees nothing nearer, as in the renderer
constexpr float far_m = 200.0F;
constexpr float leave_m = 2e-4F; // off a surface, along its normal
constexpr float start_m = 1e-4F;
constexpr int wave_samples = 16; // of each pixel of a block, traced together
constexpr int wave_paths = wave_samples * block_pixels;

constexpr std::uint32_t blockers = ray_mask::casters | ray_mask::background;
constexpr std::uint32_t met_by_bounces = ray_mask::all & ~ray_mask::strands;

/// Which numbers of a sample are for what: lights follow from `number_light` on.
enum Number : std::uint32_t { number_pixel = 1, number_bounce = 2, number_light = 16 };

struct Path {
    Surface surface;
    glm::vec3 to_eye{0.0F};
    glm::vec3 share{1.0F}; ///< of the radiance found from here on
    glm::vec3 from{0.0F}, direction{0.0F};
    float density = 0.0F; ///< of that direction
    float transmission = 0.0F;
    Dice dice;
    std::uint32_t pixel = 0, batch = 0, place = 0, key = 0; ///< place of the sample in its batch
};

struct Hit {
    float distance_m = far_m;
    std::uint32_t mesh = ray_miss;
    Met met;
};

/// What a path would get from a lamp if nothing is in between.
struct Offer {
    glm::vec3 from{0.0F}, direction{0.0F};
    float end = 0.0F;
    glm::vec3 light{0.0F};
    std::uint32_t path = 0;
};

struct Wave {
    std::vector<Path> paths;
    std::vector<Hit> hits;
    std::vector<Offer> offers;
    std::array<glm::vec3, wave_paths> sums{}; ///< by path number
    std::vector<std::uint32_t> numbers;       ///< of the paths still alive
};

void cast_paths(const World& world, Wave& wave, float start, std::uint32_t mask, RayOrder order) {
    wave.hits.assign(wave.numbers.size(), Hit{});
    RayPacket rays;
    HitPacket hits;
    for (std::size_t begin = 0; begin < wave.numbers.size(); begin += lane_count) {
        const std::size_t count = std::min(lane_count, wave.numbers.size() - begin);
        for (std::size_t i = 0; i < lane_count; ++i) {
            const Path& path = wave.paths[wave.numbers[begin + std::min(i, count - 1)]];
            rays.origin_m.set(i, path.from);
            rays.direction.set(i, path.direction);
            rays.active.set(i, i < count);
        }
        rays.start = lanes::F16(start);
        rays.end = lanes::F16(far_m);
        world.studio->rays->first_hits(rays, mask, order, hits);
        for (std::size_t i = 0; i < count; ++i) {
            Hit& hit = wave.hits[begin + i];
            hit.mesh = hits.mesh[i];
            if (hit.mesh == ray_miss) continue;
            hit.distance_m = hits.distance[i];
            hit.met = {hits.triangle[i], hits.u[i], hits.v[i]};
        }
    }
}

/// Adds what the offers hold to their paths where nothing blocks them.
void take_offers(const World& world, Wave& wave, RayOrder order) {
    RayPacket rays;
    for (std::size_t begin = 0; begin < wave.offers.size(); begin += lane_count) {
        const std::size_t count = std::min(lane_count, wave.offers.size() - begin);
        for (std::size_t i = 0; i < lane_count; ++i) {
            const Offer& offer = wave.offers[begin + std::min(i, count - 1)];
            rays.origin_m.set(i, offer.from);
            rays.direction.set(i, offer.direction);
            rays.end.set(i, offer.end);
            rays.active.set(i, i < count);
        }
        rays.start = lanes::F16(start_m);
        lanes::M16 blocked;
        world.studio->rays->blocked(rays, blockers, order, blocked);
        for (std::size_t i = 0; i < count; ++i) {
            const Offer& offer = wave.offers[begin + i];
            if (!blocked[i]) wave.sums[offer.path] += offer.light;
        }
    }
    wave.offers.clear();
}

std::uint32_t seed_of(const Path& path, std::uint32_t number) {
    return mixed(path.key, number * reference_batches + path.batch);
}

std::uint32_t batch_points(const World& world) {
    const int batches = std::min(world.options.samples, reference_batches);
    return std::bit_ceil(
        static_cast<std::uint32_t>((world.options.samples + batches - 1) / batches));
}

void aim_camera(const World& world, const glm::vec2& pixel, Path& path) {
    const View& view = world.view;
    const double x = 2.0 * static_cast<double>(pixel.x) / world.options.width_px - 1.0;
    const double y = 1.0 - 2.0 * static_cast<double>(pixel.y) / world.options.height_px;
    path.from = glm::vec3(view.eye_m);
    path.direction = glm::vec3(
        glm::normalize(view.axes * Vec3(x * view.tan_half_width, y * view.tan_half_height, -1.0)));
}

void start_paths(const World& world, int left, int top, int first_sample, int samples, Wave& wave) {
    const auto batches =
        static_cast<std::uint32_t>(std::min(world.options.samples, reference_batches));
    const std::uint32_t points = batch_points(world);
    wave.paths.assign(static_cast<std::size_t>(samples * block_pixels), Path{});
    wave.numbers.clear();
    wave.sums.fill(glm::vec3(0.0F));
    for (int s = 0; s < samples; ++s)
        for (int i = 0; i < block_pixels; ++i) {
            const auto number = static_cast<std::uint32_t>(s * block_pixels + i);
            Path& path = wave.paths[number];
            const int x = left + i % block_side, y = top + i / block_side;
            const auto sample = static_cast<std::uint32_t>(first_sample + s);
            path.pixel = static_cast<std::uint32_t>(i);
            path.batch = sample % batches;
            path.place = sample / batches;
            path.key = mixed(mixed(static_cast<std::uint32_t>(x), world.options.seed),
                             static_cast<std::uint32_t>(y));
            path.dice.state = mixed(path.key, 0x80000000U + sample);
            const glm::vec2 offset = set_point(path.place, points, seed_of(path, number_pixel));
            aim_camera(world, glm::vec2(x, y) + offset, path);
            wave.numbers.push_back(number);
        }
}

/// Camera rays that meet a pane of the glasses go through or are mirrored, half of them each.
void meet_lenses(const World& world, Wave& wave) {
    constexpr float mirrored_share = 0.5F;
    for (std::size_t k = 0; k < wave.numbers.size(); ++k) {
        Path& path = wave.paths[wave.numbers[k]];
        Hit& hit = wave.hits[k];
        std::optional<LensMeeting> nearest;
        for (const LensSurface& lens : world.studio->subject->lens_surfaces) {
            const auto met = meet_lens(lens, Vec3(path.from), Vec3(path.direction));
            if (met && (!nearest || met->distance_m < nearest->distance_m)) nearest = met;
        }
        if (!nearest || nearest->distance_m >= static_cast<double>(hit.distance_m)) continue;
        const Vec3 line(path.direction);
        const auto back = static_cast<float>(plate_reflectance(-glm::dot(nearest->normal, line)));
        if (path.dice.next() >= mirrored_share) {
            path.share *= (1.0F - back) / (1.0F - mirrored_share);
            continue;
        }
        path.share *= back / mirrored_share;
        path.from = glm::vec3(nearest->position_m);
        path.direction = glm::vec3(glm::reflect(line, nearest->normal));
        RayHit found;
        hit = {};
        if (!world.studio->rays->first_hit(nearest->position_m, Vec3(path.direction),
                                           static_cast<double>(start_m), static_cast<double>(far_m),
                                           ray_mask::all, found))
            continue;
        hit.mesh = found.mesh;
        hit.distance_m = static_cast<float>(found.distance_m);
        hit.met = {found.triangle, static_cast<float>(found.u), static_cast<float>(found.v)};
    }
}

const Lamp* lamp_of(const World& world, int light) {
    for (const Lamp& lamp : world.lamps)
        if (lamp.light == light) return &lamp;
    return nullptr;
}

/// What a bake takes later surfaces for.
void make_matt(Surface& s, const ScenePart& part) {
    if ((part.mask & ray_mask::panel) != 0) return;
    s.metal = false;
    s.f0 = 0.0F;
    s.finish = reflection::finish_plain;
}

/// Turns hits into surfaces; paths that met nothing end.
void arrive(const World& world, Wave& wave, int depth) {
    std::size_t kept = 0;
    for (std::size_t k = 0; k < wave.numbers.size(); ++k) {
        const Hit& hit = wave.hits[k];
        if (hit.mesh == ray_miss) continue;
        Path& path = wave.paths[wave.numbers[k]];
        const ScenePart& part = world.studio->scene.parts[hit.mesh];
        path.surface = surface_at(part, hit.met, path.direction);
        path.to_eye = -path.direction;
        if (depth == 0 && part.emitting_light >= 0)
            if (const Lamp* lamp = lamp_of(world, part.emitting_light))
                wave.sums[wave.numbers[k]] += path.share * lamp->exitance *
                                              seen_lamp(*lamp, path.surface.position, path.to_eye);
        if (depth > 0 && !world.options.gloss_of_bounces) make_matt(path.surface, part);
        if (part.material.transmission > 0.0F)
            path.share *= choose_side(path.surface, part.material.transmission, path.dice.next());
        wave.numbers[kept++] = wave.numbers[k];
    }
    wave.numbers.resize(kept);
}

glm::vec3 off_surface(const Surface& s) {
    return s.position + leave_m * s.geometric;
}

/// Asks a lamp at one of its places. `weighed`: the path goes on, so it may find the lamp itself.
void ask(const World& world, Wave& wave, std::uint32_t number, const Lamp& lamp, float chance,
         const glm::vec2& place, bool weighed) {
    Path& path = wave.paths[number];
    const Surface& s = path.surface;
    if (s.emitting_light == lamp.light) return;
    const glm::vec3 from = off_surface(s);
    const LampView seen = sample_lamp(lamp, from, place.x, place.y);
    if (seen.radiance <= 0.0F || glm::dot(s.geometric, seen.direction) <= 0.0F) return;
    const bool specular = world.options.specular;
    const glm::vec3 sent = reflected(s, path.to_eye, seen.direction, specular);
    if (sent == glm::vec3(0.0F)) return;
    float share = 1.0F / (chance * seen.density);
    if (weighed)
        share *= seen.density /
                 (seen.density + scatter_density(s, path.to_eye, seen.direction, specular));
    wave.offers.push_back({from, seen.direction, seen.distance_m - start_m,
                           path.share * sent * lamp.exitance * (seen.radiance * share), number});
}

void ask_all(const World& world, Wave& wave, bool weighed) {
    const std::uint32_t points = batch_points(world);
    for (std::size_t l = 0; l < world.lamps.size(); ++l) {
        for (const std::uint32_t number : wave.numbers) {
            const Path& path = wave.paths[number];
            const glm::vec2 place = set_point(
                path.place, points, seed_of(path, number_light + static_cast<std::uint32_t>(l)));
            ask(world, wave, number, world.lamps[l], 1.0F, place, weighed);
        }
        take_offers(world, wave, RayOrder::coherent);
    }
}

/// Where one place of a light can outshine the rest by far: near it, and on smooth surfaces.
bool needs_weighing(const World& world, const Surface& s) {
    constexpr float smooth = 0.4F;
    if (world.options.specular && s.roughness < smooth && (s.metal || s.f0 > 0.0F)) return true;
    for (const Lamp& lamp : world.lamps) {
        const glm::vec3 way = s.position - glm::vec3(lamp.emitter.centre_m);
        if (glm::dot(way, way) < 4.0F * lamp.reach_m * lamp.reach_m) return true;
    }
    return false;
}

/// At the last surface only paths that need it go on, to find the lights themselves.
void ask_one(const World& world, Wave& wave, bool weighed, bool last) {
    std::vector<float> guesses(world.lamps.size());
    std::size_t kept = 0;
    for (const std::uint32_t number : wave.numbers) {
        Path& path = wave.paths[number];
        const bool on = weighed && (!last || needs_weighing(world, path.surface));
        if (on || !last) wave.numbers[kept++] = number;
        float sum = 0.0F;
        for (std::size_t l = 0; l < guesses.size(); ++l)
            sum += guesses[l] =
                guessed(world.lamps[l], path.surface.position, path.surface.geometric);
        if (sum <= 0.0F) continue;
        float left = path.dice.next() * sum;
        std::size_t chosen = 0;
        while (chosen + 1 < guesses.size() && left >= guesses[chosen]) left -= guesses[chosen++];
        if (guesses[chosen] <= 0.0F) continue;
        const float u = path.dice.next(), v = path.dice.next();
        ask(world, wave, number, world.lamps[chosen], guesses[chosen] / sum, {u, v}, on);
    }
    wave.numbers.resize(kept);
    take_offers(world, wave, RayOrder::incoherent);
}

/// Sends paths on; those that end where they are leave the wave.
void scatter(const World& world, Wave& wave, int depth) {
    const std::uint32_t points = batch_points(world);
    const bool specular = world.options.specular && (world.options.gloss_of_bounces || depth > 0);
    std::size_t kept = 0;
    for (const std::uint32_t number : wave.numbers) {
        Path& path = wave.paths[number];
        const glm::vec2 place = depth == 0
                                    ? set_point(path.place, points, seed_of(path, number_bounce))
                                    : glm::vec2(path.dice.next(), path.dice.next());
        const float lobe = path.dice.next();
        path.direction = scattered(path.surface, path.to_eye, specular, lobe, place.x, place.y);
        path.density = scatter_density(path.surface, path.to_eye, path.direction, specular);
        if (!(path.density > 0.0F) || glm::dot(path.surface.geometric, path.direction) <= 0.0F)
            continue;
        path.share *= reflected(path.surface, path.to_eye, path.direction, specular) / path.density;
        if (path.share == glm::vec3(0.0F)) continue;
        path.from = off_surface(path.surface);
        wave.numbers[kept++] = number;
    }
    wave.numbers.resize(kept);
}

/// Lights that the rays just cast have met themselves.
void meet_lamps(const World& world, Wave& wave) {
    for (std::size_t k = 0; k < wave.numbers.size(); ++k) {
        const Path& path = wave.paths[wave.numbers[k]];
        const Hit& hit = wave.hits[k];
        for (const Lamp& lamp : world.lamps) {
            if (path.surface.emitting_light == lamp.light) continue;
            const LampView seen = meet_lamp(lamp, path.from, path.direction);
            if (seen.radiance <= 0.0F) continue;
            if (seen.distance_m > hit.distance_m + 1e-3F) {
                // Something stands before it; grids and faces let their own light through.
                const std::uint32_t mask = world.studio->scene.parts[hit.mesh].mask;
                if ((mask & blockers) != 0 || (mask & ray_mask::emitter) == 0) continue;
                if (world.studio->rays->blocked(Vec3(path.from),
                                                Vec3(path.from + seen.distance_m * path.direction),
                                                blockers))
                    continue;
            }
            const float share = path.density / (path.density + seen.density);
            wave.sums[wave.numbers[k]] += path.share * lamp.exitance * (seen.radiance * share);
        }
    }
}

void trace(const World& world, Wave& wave) {
    const bool weighed = world.options.gloss_of_bounces;
    cast_paths(world, wave, near_m, ray_mask::all, RayOrder::coherent);
    if (world.lenses) meet_lenses(world, wave);
    for (int depth = 0;; ++depth) {
        arrive(world, wave, depth);
        const bool last = depth >= world.options.bounces;
        if (depth == 0)
            ask_all(world, wave, weighed);
        else
            ask_one(world, wave, weighed, last);
        if (wave.numbers.empty() || (last && !weighed)) return;
        scatter(world, wave, depth);
        cast_paths(world, wave, start_m, met_by_bounces, RayOrder::incoherent);
        if (weighed) meet_lamps(world, wave);
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
    world.lenses = studio.subject && studio.subject->lenses;
    for (std::size_t i = 0; i < studio.emitters.size(); ++i)
        if (studio.emitters[i].power > 0.0 && studio.emitters[i].exitance > 0.0)
            world.lamps.push_back(
                make_lamp(studio.emitters[i], static_cast<int>(i), studio.set.camera.shutter_s));
    return world;
}

void trace_block(const World& world, int left, int top, BlockSums& sums) {
    Wave wave;
    for (int first = 0; first < world.options.samples; first += wave_samples) {
        const int samples = std::min(wave_samples, world.options.samples - first);
        start_paths(world, left, top, first, samples, wave);
        trace(world, wave);
        for (std::size_t i = 0; i < wave.paths.size(); ++i)
            sums.pixels[wave.paths[i].pixel][wave.paths[i].batch] += wave.sums[i];
    }
}

} // namespace keystead::reference
