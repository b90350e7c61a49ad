#include "sim/meter/probe_paths.h"

#include "sim/base/frames.h"
#include "sim/transport/light_path.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <tbb/parallel_for.h>

namespace keystead {

namespace {

using namespace light_path;
using lanes::lane_count;

using Places = std::vector<PathPlace>;

/// The second coordinate of a Hammersley set.
double radical_inverse(std::uint32_t i) {
    double sum = 0.0, place = 0.5;
    for (; i != 0; i >>= 1U, place *= 0.5)
        if ((i & 1U) != 0) sum += place;
    return sum;
}

/// A direction that the receptor sees, and the irradiance on it for a radiance of 1 from there over
/// how often that direction is taken.
struct Look {
    Vec3 direction{0.0};
    double weight = 0.0;
};

/// Flat: as often as the cosine, ∫ cosθ dω = pi. Dome: (1+cosθ)/2 over the whole sphere, whose
/// integral is 2 pi: with c = cosθ the share of directions below c is ((1+c)/2)².
Look look_from(const Probe& probe, const Mat3& axes, const Vec2& at) {
    const bool flat = probe.receptor == Receptor::flat;
    const double c = flat ? std::sqrt(1.0 - at.x) : 2.0 * std::sqrt(at.x) - 1.0;
    const double s = std::sqrt(std::max(0.0, 1.0 - c * c)), turn = 2.0 * pi * at.y;
    return {axes * Vec3(s * std::cos(turn), s * std::sin(turn), c), flat ? pi : 2.0 * pi};
}

/// A path on its way.
struct Walker {
    glm::vec3 position_m{0.0F}, direction{0.0F};
    float share = 1.0F;
    std::uint32_t path = 0, bounce = 0;
};

/// Sixteen walkers' next stretch. Rays are cast one by one: what a path meets then depends on no
/// other path.
struct Stretch {
    RayPacket rays;
    HitPacket hits;
    U16 path, bounce;
    Landings landings;
    RayPacket onward;
    F16 fate; ///< 0..1
};

// What the numbers of a path are for; those of all paths' same bounce are spread evenly.
constexpr std::uint32_t number_fate = 1, number_way = 2, number_light = 3;

KEYSTEAD_INLINE U16 seed_for(const U16& bounce, std::uint32_t number) {
    return mixed(bounce, U16(number));
}

KEYSTEAD_SIMD void finish_stretch(const World& world, std::uint32_t paths, Stretch& s) {
    M16 through;
    land(world, s.rays, s.hits, mixed(s.path, s.bounce), through, s.landings);
    s.fate = stratum(s.path, paths, seed_for(s.bounce, number_fate));
    const P16 way = set_point(s.path, paths, seed_for(s.bounce, number_way));
    aim(s.landings.position_m, s.landings.normal, way.x, way.y, M16(true), s.onward);
}

void cast(const World& world, std::span<const Walker> walkers, std::uint32_t paths, Stretch& s) {
    s.rays.active = M16(false);
    s.rays.origin_m = s.rays.direction = V16(F16(1.0F));
    s.rays.start = leave_m;
    s.rays.end = far_m;
    s.hits.mesh = ray_miss;
    s.hits.distance = s.hits.u = s.hits.v = 0.0F;
    s.hits.triangle = s.path = s.bounce = 0U;
    for (std::size_t i = 0; i < walkers.size(); ++i) {
        const Walker& w = walkers[i];
        s.rays.active.set(i, true);
        s.rays.origin_m.set(i, w.position_m);
        s.rays.direction.set(i, w.direction);
        s.path.set(i, w.path);
        s.bounce.set(i, w.bounce);
        RayHit hit;
        if (!world.rays.first_hit(Vec3(w.position_m), Vec3(w.direction), double(leave_m),
                                  double(far_m), ray_mask::all, hit))
            continue;
        s.hits.mesh.set(i, hit.mesh);
        s.hits.triangle.set(i, hit.triangle);
        s.hits.distance.set(i, static_cast<float>(hit.distance_m));
        s.hits.u.set(i, static_cast<float>(hit.u));
        s.hits.v.set(i, static_cast<float>(hit.v));
    }
    finish_stretch(world, paths, s);
}

/// Notes where a walker came to; false where its path ends there.
bool arrive(const World& world, const Stretch& s, std::size_t i, int bounces, Walker& w,
            Places& places) {
    PathPlace place;
    place.from_m = w.position_m;
    place.position_m = s.landings.position_m[i];
    place.normal = s.landings.normal[i];
    place.silver = s.landings.silver[i];
    place.path = w.path;
    place.bounce = w.bounce;
    const std::uint32_t part = s.landings.part[i];
    if (part == ray_miss) {
        place.position_m = w.position_m + far_m * w.direction;
        places.push_back(place);
        return false;
    }
    const bool panel = (world.scene.parts[part].mask & ray_mask::panel) != 0;
    const auto sent_on = static_cast<float>(luminance(Vec3(s.landings.albedo[i])));
    w.share *= sent_on;
    // The first bounce off panels has readings of its own.
    if (!(panel && w.bounce == 0)) place.share = w.share;
    places.push_back(place);
    // Paths end as often as light does, so that a white room costs more than a black one.
    const float on = std::min(0.95F, sent_on);
    if (++w.bounce >= static_cast<std::uint32_t>(bounces) || s.fate[i] >= on) return false;
    w.share /= on;
    w.position_m = place.position_m;
    w.direction = s.onward.direction[i];
    return true;
}

Walker set_out(const Probe& probe, const Mat3& axes, int paths, std::uint32_t path) {
    const Vec2 at((path + 0.5) / paths, radical_inverse(path) + 0.5 / paths);
    const Look look = look_from(probe, axes, at);
    return {glm::vec3(probe.position_m), glm::vec3(look.direction),
            static_cast<float>(look.weight / (pi * paths)), path, 0};
}

std::uint32_t strata(const BounceOptions& options) {
    return std::bit_ceil(static_cast<std::uint32_t>(options.paths));
}

/// Follows the paths with those numbers; their places, path by path.
Places follow(const World& world, const Probe& probe, const BounceOptions& options,
              std::span<const std::uint32_t> numbers) {
    const Mat3 axes = upright_frame(probe.facing);
    std::vector<Walker> walkers;
    for (const std::uint32_t path : numbers)
        walkers.push_back(set_out(probe, axes, options.paths, path));
    Places places;
    Stretch stretch;
    while (!walkers.empty()) {
        std::vector<Walker> left;
        for (std::size_t begin = 0; begin < walkers.size(); begin += lane_count) {
            const std::size_t count = std::min(lane_count, walkers.size() - begin);
            cast(world, std::span(walkers).subspan(begin, count), strata(options), stretch);
            for (std::size_t i = 0; i < count; ++i) {
                Walker walker = walkers[begin + i];
                if (arrive(world, stretch, i, options.bounces, walker, places))
                    left.push_back(walker);
            }
        }
        walkers = std::move(left);
    }
    std::stable_sort(places.begin(), places.end(),
                     [](const PathPlace& a, const PathPlace& b) { return a.path < b.path; });
    return places;
}

Places follow_all(const World& world, const Probe& probe, const BounceOptions& options,
                  const std::vector<std::uint32_t>& numbers) {
    constexpr std::size_t run = 64; // a thread's
    std::vector<Places> runs((numbers.size() + run - 1) / run);
    tbb::parallel_for(std::size_t{0}, runs.size(), [&](std::size_t r) {
        runs[r] =
            follow(world, probe, options,
                   std::span(numbers).subspan(r * run, std::min(run, numbers.size() - r * run)));
    });
    Places places;
    for (const Places& part : runs) places.insert(places.end(), part.begin(), part.end());
    return places;
}

/// A light being asked.
struct Query {
    const World& world;
    Source source;
    std::uint32_t strata; ///< as many as paths, or more
};

/// Up to sixteen places as the kernels want them.
struct Gathered {
    Landings landings;
    V16 from_m;
    M16 there;
    U16 path, bounce;
    Offers offers;
};

/// Of so many places of a light's face one is asked, each as likely as what it offers: near a light
/// they differ by far (Talbot, Cline and Egbert, "Importance resampling for global illumination",
/// 2005).
constexpr std::uint32_t candidates = 8;

KEYSTEAD_SIMD void choose_offers(const Query& query, Gathered& g) {
    const U16 seed = seed_for(g.bounce, number_light) ^ U16(query.source.seed);
    F16 total(0.0F);
    Offers next;
    for (std::uint32_t c = 0; c < candidates; ++c) {
        const P16 at =
            set_point(g.path * U16(candidates) + U16(c), query.strata * candidates, seed);
        offers_of(query.source, g.landings, g.from_m, g.there, at.x, at.y, next);
        total += next.irradiance;
        const F16 draw = unit(mixed(mixed(seed, g.path), U16(c)));
        const M16 taken = M16(c == 0) || draw * total < next.irradiance;
        g.offers.place_m = choose(taken, next.place_m, g.offers.place_m);
    }
    g.offers.irradiance = total * (1.0F / static_cast<float>(candidates));
}

void gather(const Places& places, std::span<const std::uint32_t> which, Gathered& g) {
    g.there = M16(false);
    g.landings.position_m = g.from_m = g.offers.place_m = V16(F16(0.0F));
    g.landings.normal = V16(0.0F, 1.0F, 0.0F);
    g.landings.silver = -1.0F;
    g.landings.part = g.path = g.bounce = 0U;
    g.offers.irradiance = 0.0F;
    for (std::size_t i = 0; i < which.size(); ++i) {
        const PathPlace& place = places[which[i]];
        g.there.set(i, true);
        g.landings.position_m.set(i, place.position_m);
        g.landings.normal.set(i, place.normal);
        g.landings.silver.set(i, place.silver);
        g.from_m.set(i, place.from_m);
        g.path.set(i, place.path);
        g.bounce.set(i, place.bounce);
    }
}

template <class Do>
void by_sixteens(std::span<const std::uint32_t> which, Do&& act) {
    for (std::size_t begin = 0; begin < which.size(); begin += lane_count)
        act(which.subspan(begin, std::min(lane_count, which.size() - begin)));
}

/// Asks a light at the places numbered.
void ask(const Query& query, const Places& places, std::span<const std::uint32_t> which,
         std::vector<PlaceLight>& column) {
    Gathered g;
    F16 arrives;
    by_sixteens(which, [&](std::span<const std::uint32_t> some) {
        gather(places, some, g);
        choose_offers(query, g);
        lit_by(query.world, g.landings, g.offers, arrives);
        for (std::size_t i = 0; i < some.size(); ++i)
            column[some[i]] = {g.offers.place_m[i], g.offers.irradiance[i], arrives[i]};
    });
}

/// Casts again the shadow rays that an edit may have touched, of places asked before.
void ask_again(const Query& query, const Places& places, std::span<const std::uint32_t> known,
               const ChangedPlaces& changed, std::vector<PlaceLight>& column) {
    if (changed.none()) return;
    Gathered g;
    const auto load = [&](std::span<const std::uint32_t> some) {
        gather(places, some, g);
        for (std::size_t i = 0; i < some.size(); ++i) {
            g.offers.place_m.set(i, column[some[i]].light_m);
            g.offers.irradiance.set(i, column[some[i]].offered);
        }
    };
    std::vector<std::uint32_t> touched;
    by_sixteens(known, [&](std::span<const std::uint32_t> some) {
        load(some);
        M16 met;
        changed.meet(g.landings.position_m, g.offers.place_m, met);
        for (std::size_t i = 0; i < some.size(); ++i)
            if (met[i]) touched.push_back(some[i]);
    });
    by_sixteens(touched, [&](std::span<const std::uint32_t> some) {
        load(some);
        F16 arrives;
        lit_by(query.world, g.landings, g.offers, arrives);
        for (std::size_t i = 0; i < some.size(); ++i) column[some[i]].arrives = arrives[i];
    });
}

/// Paths of which a stretch may have been touched.
std::vector<bool> touched_paths(const Places& places, std::size_t paths,
                                const ChangedPlaces& changed) {
    std::vector<bool> touched(paths, false);
    if (changed.none()) return touched;
    for (std::size_t begin = 0; begin < places.size(); begin += lane_count) {
        const std::size_t count = std::min(lane_count, places.size() - begin);
        V16 from_m(F16(0.0F)), to_m(F16(0.0F));
        for (std::size_t i = 0; i < count; ++i) {
            from_m.set(i, places[begin + i].from_m);
            to_m.set(i, places[begin + i].position_m);
        }
        M16 met;
        changed.meet(from_m, to_m, met);
        for (std::size_t i = 0; i < count; ++i)
            if (met[i]) touched[places[begin + i].path] = true;
    }
    return touched;
}

/// The new list of places, and which of them were known before.
struct Merged {
    Places places;
    std::vector<int> old; ///< by place: its number before, or -1
};

Merged merge(const World& world, const Probe& probe, const BounceOptions& options,
             const ProbePaths* before, const ChangedPlaces& changed) {
    const auto paths = static_cast<std::size_t>(options.paths);
    std::vector<bool> touched(paths, true);
    if (before != nullptr) touched = touched_paths(before->places, paths, changed);
    std::vector<std::uint32_t> again;
    for (std::uint32_t path = 0; path < paths; ++path)
        if (touched[path]) again.push_back(path);
    const Places fresh = follow_all(world, probe, options, again);
    Merged merged;
    std::size_t f = 0, o = 0;
    for (std::uint32_t path = 0; path < paths; ++path) {
        for (; before != nullptr && o < before->places.size() && before->places[o].path == path;
             ++o) {
            if (touched[path]) continue;
            merged.places.push_back(before->places[o]);
            merged.old.push_back(static_cast<int>(o));
        }
        for (; f < fresh.size() && fresh[f].path == path; ++f) {
            merged.places.push_back(fresh[f]);
            merged.old.push_back(-1);
        }
    }
    return merged;
}

/// What one light sends to all places.
std::vector<PlaceLight> column_of(const Query& query, const Merged& merged,
                                  const std::vector<PlaceLight>* before,
                                  const ChangedPlaces& changed) {
    std::vector<PlaceLight> column(merged.places.size());
    std::vector<std::uint32_t> asked, known;
    for (std::uint32_t i = 0; i < merged.places.size(); ++i) {
        if (merged.places[i].share <= 0.0F) continue;
        const bool kept = before != nullptr && merged.old[i] >= 0;
        if (kept) column[i] = (*before)[static_cast<std::size_t>(merged.old[i])];
        // What offers nothing needs no ray.
        if (!kept)
            asked.push_back(i);
        else if (column[i].offered > 0.0F)
            known.push_back(i);
    }
    ask_again(query, merged.places, known, changed, column);
    ask(query, merged.places, asked, column);
    return column;
}

} // namespace

ProbePaths trace_probe(const Studio& studio, const Probe& probe, const BounceOptions& options,
                       std::span<const std::uint64_t> lights, const ProbePaths* before,
                       const ChangedPlaces& changed) {
    const World world = world_of(studio.scene, *studio.rays);
    Merged merged = merge(world, probe, options, before, changed);
    ProbePaths result;
    result.lights.assign(lights.begin(), lights.end());
    result.columns.resize(studio.emitters.size());
    tbb::parallel_for(std::size_t{0}, studio.emitters.size(), [&](std::size_t e) {
        const std::vector<PlaceLight>* old = nullptr;
        if (before != nullptr && e < lights.size()) {
            const auto found = std::find(before->lights.begin(), before->lights.end(), lights[e]);
            if (found != before->lights.end())
                old = &before->columns[static_cast<std::size_t>(found - before->lights.begin())];
        }
        result.columns[e] = column_of({world, source_of(studio.emitters[e]), strata(options)},
                                      merged, old, changed);
    });
    result.places = std::move(merged.places);
    return result;
}

std::vector<double> light_along(const ProbePaths& paths) {
    std::vector<double> sums;
    for (const std::vector<PlaceLight>& column : paths.columns) {
        double sum = 0.0;
        for (std::size_t i = 0; i < column.size(); ++i)
            sum +=
                static_cast<double>(paths.places[i].share) * static_cast<double>(column[i].arrives);
        sums.push_back(sum);
    }
    return sums;
}

} // namespace keystead
