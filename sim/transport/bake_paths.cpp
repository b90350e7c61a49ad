#include "sim/transport/bake_paths.h"

#include <tbb/parallel_for.h>

namespace keystead {

namespace {

using namespace light_path;
using lanes::lane_count;
using words_lanes::P16;

/// Bits of a point of the unit square.
struct SquareBits {
    std::uint32_t x = 0, y = 0;
};

/// Sobol's first two dimensions: the radical inverse, and one that goes well with it (Kollig and
/// Keller, 2002).
SquareBits sobol(std::uint32_t number) {
    SquareBits bits;
    std::uint32_t radix = 1U << 31U;
    for (std::uint32_t i = number, v = 1U << 31U; i != 0; i >>= 1U, v ^= v >> 1U, radix >>= 1U)
        if ((i & 1U) != 0) {
            bits.x |= radix;
            bits.y ^= v;
        }
    return bits;
}

/// The half space in sixteen cells: near the normal or not, by eighths of a turn.
std::uint32_t direction_cell(const SquareBits& bits) {
    return (bits.x >> 31U) << 3U | bits.y >> 29U;
}

/// Every sixteen elements of the sequence have one in each cell: by set and cell.
std::vector<SquareBits> elements_by_cell(std::size_t paths) {
    std::vector<SquareBits> elements(paths);
    for (std::uint32_t i = 0; i < paths; ++i) {
        const SquareBits bits = sobol(i);
        elements[i / path_set * path_set + direction_cell(bits)] = bits;
    }
    return elements;
}

/// Sixteen points next to each other.
struct Block {
    V16 position_m, normal;
    M16 there;
    U16 seed; ///< of each point
    std::uint32_t shared_seed = 0;
    std::size_t part = 0, number = 0;
};

KEYSTEAD_SIMD void load_block(const BakePart& part, std::size_t p, std::size_t number,
                              Block& block) {
    const std::vector<BakePoint>& points = part.layout->points;
    for (std::size_t i = 0; i < lane_count; ++i) {
        const std::size_t n = number * lane_count + i;
        block.there.set(i, n < points.size());
        const BakePoint& point = points[std::min(n, points.size() - 1)];
        block.position_m.set(i, point.position_m);
        block.normal.set(i, point.normal);
        block.seed.set(i, static_cast<std::uint32_t>(n));
    }
    const std::uint32_t name = seed_of(part.name);
    block.seed = mixed(U16(name), block.seed);
    block.shared_seed = block.seed[0];
    block.part = p;
    block.number = number;
}

/// Aims path number `path` of every point of a block. Each point turns the sequence its own way (by
/// exclusive or, which keeps it even); of each the element that falls in the path's cell is taken.
KEYSTEAD_SIMD void aim_block(const Block& block, const std::vector<SquareBits>& elements,
                             std::size_t path, RayPacket& rays) {
    const U16 turn_x = mixed(block.seed + U16(1U)), turn_y = mixed(block.seed + U16(2U));
    const U16 cell = ((turn_x >> 31) << 3 | turn_y >> 29) ^ U16(path % path_set);
    const SquareBits* set = elements.data() + path / path_set * path_set;
    U16 x, y;
    for (std::size_t i = 0; i < lane_count; ++i) {
        x.set(i, set[cell[i]].x);
        y.set(i, set[cell[i]].y);
    }
    aim(block.position_m, block.normal, unit(x ^ turn_x), unit(y ^ turn_y), block.there, rays);
}

/// A place of a light's face for each of a block's paths of one number: from the same sixteenth of
/// the face, so that rays to it run side by side. The sixteen paths of a set take one each.
KEYSTEAD_SIMD void pick_places(const Block& block, const Source& source, std::size_t path, F16& u,
                               F16& v) {
    const U16 set = mixed(U16(block.shared_seed + static_cast<std::uint32_t>(path / path_set)),
                          U16(source.seed));
    const U16 cell = (U16(path) * (set >> 8 | U16(1U)) + set) & U16(15U);
    const U16 own = mixed(block.seed + U16(path), U16(source.seed));
    u = (lanes::to_float(as_signed(cell >> 2)) + unit(own)) * 0.25F;
    v = (lanes::to_float(as_signed(cell & U16(3U))) + unit(mixed(own))) * 0.25F;
}

KEYSTEAD_SIMD void path_seeds(const Block& block, std::size_t path, U16& seeds) {
    seeds = mixed(block.seed, U16(path + 0x5DEECE66DU));
}

/// Which of a part's points stands for a place behind its surface.
std::uint32_t point_behind(const BakeLayout& layout, const glm::vec3& place_m,
                           const glm::vec3& normal) {
    std::uint32_t best = 0;
    float least = std::numeric_limits<float>::max();
    for (std::uint32_t i = 0; i < layout.points.size(); ++i) {
        const float away = glm::length(layout.points[i].position_m - place_m) +
                           (glm::dot(layout.points[i].normal, normal) > 0.5F ? 0.0F : 100.0F);
        if (away < least) {
            least = away;
            best = i;
        }
    }
    return best;
}

std::uint32_t point_at(const BakeLayout& layout, std::uint32_t triangle, float u, float v) {
    const glm::uvec3& corner = layout.mesh->triangles[triangle];
    const float w = 1.0F - u - v;
    return layout.nearest[w >= u && w >= v ? corner.x : u >= v ? corner.y : corner.z];
}

/// Says which points stand for landings.
void name_points(const BakeState& state, const HitPacket& hits, const M16& through,
                 Landings& landings) {
    for (std::size_t i = 0; i < lane_count; ++i) {
        if (landings.part[i] == ray_miss) continue;
        const BakeLayout& layout = *state.parts[landings.part[i]].layout;
        landings.point.set(i, through[i]
                                  ? point_behind(layout, landings.position_m[i], landings.normal[i])
                                  : point_at(layout, hits.triangle[i], hits.u[i], hits.v[i]));
    }
}

/// Takes a packet over, or says that something in the way of one of its paths changed: packets are
/// traced whole, so that each always has the same neighbours.
bool keep_packet(const Continuation& going, const Block& block, const Landings& old,
                 Landings& landings) {
    M16 touched;
    going.changed.meet(block.position_m, old.position_m, touched);
    const M16 missed = old.part == U16(ray_miss);
    // A path out of the room may meet whatever changed.
    touched = touched || (missed && M16(!going.changed.none()));
    if (lanes::any(touched && block.there)) return false;
    landings = old;
    for (std::size_t i = 0; i < lane_count; ++i) {
        if (old.part[i] == ray_miss) continue;
        landings.part.set(i, going.new_part[old.part[i]]);
        if (landings.part[i] == ray_miss) return false;
    }
    return true;
}

/// What one light sends to a packet's landings, or sent them before where nothing in the way
/// changed. Returns how many rays were cast.
int light_packet(const BakeWork& work, const Block& block, std::size_t path, std::size_t e,
                 const Landings& landings, const float* before, float* direct) {
    const Source& source = work.sources[e];
    F16 u, v, light, old(0.0F);
    pick_places(block, source, path, u, v);
    Offers offers;
    offers_of(source, landings, block.position_m, block.there, u, v, offers);
    M16 asked = block.there;
    if (before != nullptr) {
        old = lanes::load(before);
        work.going.changed.meet(landings.position_m, offers.place_m, asked);
        offers.irradiance = choose(asked, offers.irradiance, F16(0.0F));
    }
    const int rays = lit_by(work.world, landings, offers, light);
    lanes::store(direct, choose(asked, light, old));
    return rays;
}

/// A block's share of the work.
std::size_t trace_block(const BakeWork& work, const std::vector<SquareBits>& elements,
                        std::size_t p, std::size_t number, std::size_t begin, std::size_t end) {
    BakePart& part = work.state.parts[p];
    const int old_p = work.going.old_part[p];
    const BakePart* old =
        old_p < 0 ? nullptr : &work.going.old->parts[static_cast<std::size_t>(old_p)];
    Block block;
    load_block(part, p, number, block);
    std::size_t traced = 0;
    RayPacket rays;
    HitPacket hits;
    for (std::size_t path = begin; path < end; ++path) {
        const std::size_t packet = number * work.state.paths + path;
        Landings& landings = part.landings[packet];
        const bool kept =
            old != nullptr && keep_packet(work.going, block, old->landings[packet], landings);
        if (!kept) {
            aim_block(block, elements, path, rays);
            U16 seeds;
            path_seeds(block, path, seeds);
            M16 through;
            work.world.rays.first_hits(rays, ray_mask::all, RayOrder::incoherent, hits);
            land(work.world, rays, hits, seeds, through, landings);
            name_points(work.state, hits, through, landings);
            traced += static_cast<std::size_t>(lanes::count(block.there));
        }
        for (std::size_t e = 0; e < work.sources.size(); ++e) {
            const int old_e = kept ? work.going.old_emitter[e] : -1;
            const float* before = old_e < 0
                                      ? nullptr
                                      : &old->direct[(packet * work.going.old->emitters.size() +
                                                      static_cast<std::size_t>(old_e)) *
                                                     lane_count];
            float* direct = &part.direct[(packet * work.sources.size() + e) * lane_count];
            traced += static_cast<std::size_t>(
                light_packet(work, block, path, e, landings, before, direct));
        }
    }
    return traced;
}

} // namespace

void trace_paths(BakeWork& work, std::size_t begin, std::size_t end) {
    const std::vector<SquareBits> elements = elements_by_cell(work.state.paths);
    for (std::size_t p = 0; p < work.state.parts.size() && !work.stopped; ++p)
        tbb::parallel_for(std::size_t{0}, work.state.parts[p].layout->blocks(), [&](std::size_t b) {
            if (work.stopped) return;
            if (work.options.stop && b % 4 == 0 && work.options.stop()) {
                work.stopped = true;
                return;
            }
            work.traced += trace_block(work, elements, p, b, begin, end);
        });
}

} // namespace keystead
