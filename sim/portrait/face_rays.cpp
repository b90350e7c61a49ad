#include "sim/portrait/face_rays.h"

#include "sim/light/emission_lanes.h"
#include "sim/portrait/tile_ranges.h"
#include "sim/transport/ray_packet.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>
#include <utility>

namespace keystead {

namespace {

using lanes::F16;
using lanes::I16;
using lanes::M16;
using lanes::V16;

constexpr std::size_t most_points = 64;
/// Packets with fewer rays than this wait for others to fill them.
constexpr int worth_a_packet = 13;

/// How many of a lamp's points are looked at first: enough to span it.
std::size_t outermost_points(std::size_t all) {
    return std::min(all, all / 4 + 2);
}

/// A point of the lamp, in single precision.
struct LampPoint {
    glm::vec3 position{0.0F}, normal{0.0F};
    float output = 0.0F; ///< area times exitance, over the plate's exposure
    float relative = 1.0F;
};

struct LampJob {
    const FaceChart* chart;
    emission_lanes::EmitterFace face;
    const DirectionTable* measured; ///< null: the face's profile holds
    std::vector<LampPoint> points;
};

/// What a block of cells gets, over the facing plate at the nose root; shares not yet divided by
/// what a plate there would get.
struct BlockLight {
    F16 plate, open, level, nose, hair, seen, nose_share, brow_share;
};

/// One point's light on its way to a block, and what it meets.
struct Way {
    F16 on_plate; ///< on a plate that faces the point
    F16 facing;   ///< cosine at the skin
    M16 reaches;
    I16 blockers; ///< Blocker, by lane
};
using Ways = std::array<Way, most_points>;

struct Arriving {
    V16 direction; ///< to the point
    F16 distance;
    Way way;
};

KEYSTEAD_INLINE Arriving arriving_from(const LampJob& job, const LampPoint& point,
                                       const CellBlock& block) {
    Arriving light;
    const V16 toward = V16(point.position) - block.origin_m;
    const F16 d2 = dot(toward, toward);
    light.distance = sqrt(d2);
    light.direction = toward / light.distance;
    Way& way = light.way;
    way.on_plate = way.facing = F16(0.0F);
    way.blockers = I16(static_cast<int>(Blocker::nothing));
    way.reaches = M16(false);
    const F16 leaving = -dot(V16(point.normal), light.direction);
    const M16 leaves = block.covered && leaving > F16(0.0F);
    if (!any(leaves)) return light;
    const V16 away = -light.direction;
    F16 per_lumen(0.0F);
    if (job.measured != nullptr) per_lumen = lane_intensity(job.face, *job.measured, away);
    const F16 sent = emission_lanes::sample_radiance(
        job.face, V16(point.position), V16(point.normal), F16(point.relative), away, per_lumen);
    way.on_plate = choose(leaves, sent * leaving * point.output / d2, F16(0.0F));
    way.facing = dot(block.normal, light.direction);
    // Both normals: smooth ones on coarse triangles alone leave specks along the terminator.
    way.reaches = way.on_plate > F16(0.0F) && way.facing > F16(0.0F) &&
                  dot(block.flat_normal, light.direction) > F16(0.0F);
    return light;
}

int blocker_at(const FaceChart& chart, const HitPacket& hits, std::size_t lane) {
    if (hits.mesh[lane] == ray_miss) return static_cast<int>(Blocker::nothing);
    return static_cast<int>(blocker_of(
        chart.region_at(hits.mesh[lane], hits.triangle[lane], hits.u[lane], hits.v[lane])));
}

/// Rays that wait until sixteen are together, and where their answers go.
struct Waiting {
    RayPacket packet;
    std::array<Way*, lanes::lane_count> way{};
    std::array<std::size_t, lanes::lane_count> lane{};
    std::size_t count = 0;
};

void trace_waiting(const LampJob& job, Waiting& waiting) {
    if (waiting.count == 0) return;
    RayPacket& packet = waiting.packet;
    for (std::size_t i = 0; i < lanes::lane_count; ++i) packet.active.set(i, i < waiting.count);
    HitPacket hits;
    job.chart->rays.first_hits(packet, ray_mask::all, RayOrder::coherent, hits);
    for (std::size_t i = 0; i < waiting.count; ++i)
        waiting.way[i]->blockers.set(waiting.lane[i], blocker_at(*job.chart, hits, i));
    waiting.count = 0;
}

/// Finds what is before the `asked` lanes: at once, or when enough rays are together.
KEYSTEAD_INLINE void ask(const LampJob& job, const CellBlock& block, const Arriving& light,
                         const M16& asked, Way& way, Waiting& waiting) {
    if (count(asked) >= worth_a_packet) {
        const RayPacket packet{block.origin_m, light.direction, F16(0.0F), light.distance, asked};
        HitPacket hits;
        job.chart->rays.first_hits(packet, ray_mask::all, RayOrder::coherent, hits);
        if (!any(asked && hits.mesh != lanes::U16(ray_miss))) return;
        for (std::size_t i = 0; i < lanes::lane_count; ++i)
            if (asked[i]) way.blockers.set(i, blocker_at(*job.chart, hits, i));
        return;
    }
    if (!any(asked)) return;
    for (std::size_t i = 0; i < lanes::lane_count; ++i) {
        if (!asked[i]) continue;
        const std::size_t slot = waiting.count++;
        waiting.packet.origin_m.set(slot, block.origin_m[i]);
        waiting.packet.direction.set(slot, light.direction[i]);
        waiting.packet.end.set(slot, light.distance[i]);
        waiting.way[slot] = &way;
        waiting.lane[slot] = i;
        if (waiting.count == lanes::lane_count) trace_waiting(job, waiting);
    }
}

/// Over those of a lamp's points that places face.
KEYSTEAD_INLINE TileRange range_of(const Way* ways, std::size_t points, const M16& covered) {
    TileRange range{I16(99), I16(-1), I16(0)};
    M16 reached(false);
    for (std::size_t p = 0; p < points; ++p) {
        const M16& reaches = ways[p].reaches;
        range.least = choose(reaches, lesser(range.least, ways[p].blockers), range.least);
        range.greatest = choose(reaches, greater(range.greatest, ways[p].blockers), range.greatest);
        reached = reached || reaches;
    }
    range.away = I16((covered && !reached).v);
    return range;
}

/// Beside a place that faces away, skin that light only grazes is asked about.
constexpr float grazing_cosine = 0.25F;

/// Takes over what all places around have in common; gives the lanes that have to ask.
KEYSTEAD_INLINE M16 take_common(const TileRange& range, Way& way) {
    const M16 alike =
        range.least == range.greatest && (range.away == I16(0) || way.facing > F16(grazing_cosine));
    way.blockers = choose(way.reaches && alike, range.least, way.blockers);
    return way.reaches && !alike;
}

KEYSTEAD_INLINE void add(const Way& way, BlockLight& sum) {
    const F16 none(0.0F);
    const F16 on_plate = choose(way.reaches, way.on_plate, none);
    const F16 on_skin = on_plate * way.facing;
    const M16 free = way.blockers == I16(static_cast<int>(Blocker::nothing));
    sum.plate += way.on_plate;
    sum.open += on_skin;
    sum.level += choose(free, on_skin, none);
    sum.seen += choose(free, on_plate, none);
    if (all(free)) return;
    const M16 nose = way.blockers == I16(static_cast<int>(Blocker::nose));
    const M16 brow = way.blockers == I16(static_cast<int>(Blocker::brow));
    const M16 hair = way.blockers == I16(static_cast<int>(Blocker::hair));
    sum.nose += choose(nose, on_skin, none);
    sum.nose_share += choose(nose, on_plate, none);
    sum.brow_share += choose(brow, on_plate, none);
    sum.hair += choose(hair, on_skin, none);
}

void keep(const CellBlock& block, const BlockLight& sum, FaceLight& result) {
    for (std::size_t i = 0; i < lanes::lane_count; ++i) {
        if (!block.covered[i] || sum.plate[i] <= 0.0F) continue;
        const std::size_t cell = block.cell[i];
        const double plate = static_cast<double>(sum.plate[i]);
        result.open_level[cell] = static_cast<double>(sum.open[i]);
        result.level[cell] = static_cast<double>(sum.level[i]);
        result.nose_level[cell] = static_cast<double>(sum.nose[i]);
        result.hair_level[cell] = static_cast<double>(sum.hair[i]);
        result.seen[cell] = static_cast<double>(sum.seen[i]) / plate;
        result.nose_share[cell] = static_cast<double>(sum.nose_share[i]) / plate;
        result.brow_share[cell] = static_cast<double>(sum.brow_share[i]) / plate;
    }
}

KEYSTEAD_INLINE BlockLight sum_of(const Ways& ways, std::size_t points) {
    BlockLight sum;
    sum.plate = sum.open = sum.level = sum.nose = sum.hair = F16(0.0F);
    sum.seen = sum.nose_share = sum.brow_share = F16(0.0F);
    for (std::size_t p = 0; p < points; ++p) add(ways[p], sum);
    return sum;
}

/// The outermost points of the lamp are asked about everywhere, the rest where the answers differ
/// from point to point or from place to place.
KEYSTEAD_INLINE void light_first(const LampJob& job, const CellBlock& block, Waiting& waiting,
                                 Ways& ways) {
    const std::size_t points = job.points.size(), outermost = outermost_points(points);
    for (std::size_t p = 0; p < outermost; ++p) {
        const Arriving light = arriving_from(job, job.points[p], block);
        ways[p] = light.way;
        ask(job, block, light, light.way.reaches, ways[p], waiting);
    }
    trace_waiting(job, waiting);
    const TileRange range = around(range_of(ways.data(), outermost, block.covered));
    for (std::size_t p = outermost; p < points; ++p) {
        const Arriving light = arriving_from(job, job.points[p], block);
        ways[p] = light.way;
        const M16 asked = take_common(range, ways[p]);
        ask(job, block, light, asked, ways[p], waiting);
    }
    trace_waiting(job, waiting);
}

/// Another block of the tile, from what is known of the places around.
KEYSTEAD_INLINE void light_between(const LampJob& job, const CellBlock& block,
                                   const CellBlock& first, const Ways& first_ways,
                                   bool inner_columns, bool inner_rows, Waiting& waiting,
                                   Ways& ways) {
    for (std::size_t p = 0; p < job.points.size(); ++p) {
        const Arriving light = arriving_from(job, job.points[p], block);
        ways[p] = light.way;
        const TileRange range =
            surrounding(range_of(&first_ways[p], 1, first.covered), inner_columns, inner_rows);
        const M16 asked = take_common(range, ways[p]);
        ask(job, block, light, asked, ways[p], waiting);
    }
}

} // namespace

/// Outside the unnamed namespace: functions compiled for several machines need a public name.
/// `sums` is as long as the tile's blocks.
KEYSTEAD_SIMD void light_tile(const LampJob& job, const CellTile& tile, BlockLight* sums) {
    std::array<Ways, 4> ways;
    Waiting waiting;
    waiting.packet.origin_m = V16(F16(0.0F));
    waiting.packet.direction = V16(F16(1.0F));
    waiting.packet.start = waiting.packet.end = F16(0.0F);
    light_first(job, tile.blocks[0], waiting, ways[0]);
    for (std::size_t b = 1; b < tile.blocks.size(); ++b)
        light_between(job, tile.blocks[b], tile.blocks[0], ways[0], (b & 1U) != 0, (b & 2U) != 0,
                      waiting, ways[b]);
    trace_waiting(job, waiting);
    for (std::size_t b = 0; b < tile.blocks.size(); ++b)
        sums[b] = sum_of(ways[b], job.points.size());
}

Blocker blocker_of(Region region) {
    switch (region) {
    case Region::nose:
        return Blocker::nose;
    case Region::brow:
    case Region::lid:
        return Blocker::brow;
    case Region::hair:
        return Blocker::hair;
    default:
        return Blocker::other;
    }
}

namespace {

/// Outermost first, then what lies farthest from those before it, so that the first few span the
/// lamp.
std::vector<LampPoint> spread(std::vector<LampPoint> points) {
    glm::vec3 middle(0.0F);
    for (const LampPoint& point : points)
        middle += point.position / static_cast<float>(points.size());
    std::vector<float> apart;
    for (const LampPoint& point : points) apart.push_back(glm::distance(point.position, middle));
    for (std::size_t next = 0; next < points.size(); ++next) {
        std::size_t best = next;
        // A lamp and its mirror image are to be taken alike, whatever rounding says.
        constexpr float tie = 1.0F + 1e-4F;
        for (std::size_t i = next + 1; i < points.size(); ++i)
            if (apart[i] > tie * apart[best]) best = i;
        std::swap(points[next], points[best]);
        std::swap(apart[next], apart[best]);
        for (std::size_t i = next + 1; i < points.size(); ++i) {
            const float distance = glm::distance(points[i].position, points[next].position);
            apart[i] = next == 0 ? distance : std::min(apart[i], distance);
        }
    }
    return points;
}

} // namespace

void trace_lamp(const FaceChart& chart, const ChartGrid& grid, const Emitter& emitter,
                const std::vector<EmitterPoint>& points, double full_plate, FaceLight& result) {
    assert(points.size() <= most_points);
    LampJob job{&chart, lane_face(emitter), emitter.measured.get(), {}};
    for (const EmitterPoint& point : points)
        job.points.push_back({glm::vec3(point.position_m), glm::vec3(point.normal),
                              static_cast<float>(point.area_m2 * emitter.exitance / full_plate),
                              static_cast<float>(point.relative_exitance)});
    job.points = spread(std::move(job.points));
    // Every cell belongs to one tile: threads change nothing.
    tbb::parallel_for(tbb::blocked_range<std::size_t>(0, grid.tiles.size(), 8),
                      [&](const auto& range) {
                          std::array<BlockLight, 4> sums;
                          for (std::size_t t = range.begin(); t < range.end(); ++t) {
                              const CellTile& tile = grid.tiles[t];
                              light_tile(job, tile, sums.data());
                              for (std::size_t b = 0; b < tile.blocks.size(); ++b)
                                  keep(tile.blocks[b], sums[b], result);
                          }
                      });
}

} // namespace keystead
