#include "sim/portrait/face_shadows.h"

#include "sim/portrait/measure.h"
#include "sim/portrait/thresholds.h"

#include <algorithm>
#include <array>

namespace keystead {

namespace {

namespace limit = pattern_threshold;

/// Enough to say which of several things hides most of a lamp.
constexpr int cause_points = 13;
/// Rays leave the skin from this far outside it, as the chart's own do.
constexpr double lift_m = 0.35e-3;
constexpr double half_seen = 0.5;

ShadowCause cause_of(Region region) {
    switch (region) {
    case Region::nose:
        return ShadowCause::nose;
    case Region::brow:
        return ShadowCause::brow;
    case Region::lid:
    case Region::eye:
        return ShadowCause::lid;
    case Region::hair:
        return ShadowCause::hair;
    case Region::hat:
        return ShadowCause::hat;
    case Region::glasses:
        return ShadowCause::glasses;
    case Region::ear:
        return ShadowCause::ear;
    case Region::lip:
        return ShadowCause::lip;
    case Region::cheek:
        return ShadowCause::cheek;
    case Region::chin:
        return ShadowCause::chin;
    default:
        return ShadowCause::body;
    }
}

struct Rays {
    const FaceChart& chart;
    const ChartGrid& grid;
    std::vector<EmitterPoint> points;
    const RoomAround& around;

    Vec3 origin(std::size_t cell) const {
        return chart.metres(grid.place_mm[cell]) + lift_m * grid.flat_normal[cell];
    }
    bool faces(std::size_t cell, const Vec3& way) const {
        return glm::dot(way, grid.normal[cell]) > 0.0 &&
               glm::dot(way, grid.flat_normal[cell]) > 0.0;
    }
    Vec3 in_room(const Vec3& head_m) const {
        return around.head_origin_m + around.head_axes * head_m;
    }
};

/// Share of the lamp's points that something in the room stands before.
std::vector<double> room_shares(const Rays& rays, const std::vector<std::size_t>& cells) {
    std::vector<Segment> ways;
    for (const std::size_t cell : cells)
        for (const EmitterPoint& point : rays.points)
            ways.push_back({rays.in_room(rays.origin(cell)), rays.in_room(point.position_m)});
    std::vector<std::uint8_t> blocked(ways.size());
    rays.around.rays->blocked_many(ways, rays.around.mask, blocked);
    std::vector<double> shares(cells.size(), 0.0);
    for (std::size_t i = 0; i < blocked.size(); ++i)
        shares[i / rays.points.size()] +=
            (blocked[i] != 0 ? 1.0 : 0.0) / static_cast<double>(rays.points.size());
    return shares;
}

/// By cell. Most sets have nothing before the lamp: a sparse look says so.
std::vector<double> hidden_by_room(const Rays& rays, const FaceLight& light) {
    std::vector<double> hidden(rays.grid.size(), 0.0);
    if (rays.around.rays == nullptr) return hidden;
    constexpr int sparse = 3;
    std::vector<std::size_t> some, all;
    for (std::size_t cell = 0; cell < rays.grid.size(); ++cell) {
        if (rays.grid.covered[cell] == 0 || light.seen[cell] <= 0.0) continue;
        all.push_back(cell);
        if (rays.grid.column_of(cell) % sparse == 0 && rays.grid.row_of(cell) % sparse == 0)
            some.push_back(cell);
    }
    const std::vector<double> look = room_shares(rays, some);
    if (std::all_of(look.begin(), look.end(), [](double share) { return share == 0.0; }))
        return hidden;
    const std::vector<double> shares = room_shares(rays, all);
    for (std::size_t i = 0; i < all.size(); ++i) hidden[all[i]] = shares[i];
    return hidden;
}

using Shares = std::array<double, shadow_cause_count>;

double& share_of(Shares& shares, ShadowCause cause) {
    return shares[static_cast<std::size_t>(cause)];
}

/// What hides how many of the lamp's points from the cells: away from them, behind a part of the
/// head. Points that are seen count for nothing.
std::vector<Shares> hidden_by_head(const Rays& rays, const std::vector<std::size_t>& cells) {
    std::vector<Shares> shares(cells.size(), Shares{});
    std::vector<RayQuery> asked;
    std::vector<std::size_t> whose;
    for (std::size_t i = 0; i < cells.size(); ++i)
        for (const EmitterPoint& point : rays.points) {
            const Vec3 origin = rays.origin(cells[i]), way = point.position_m - origin;
            const double distance = glm::length(way);
            if (!rays.faces(cells[i], way)) {
                share_of(shares[i], ShadowCause::turned_away) += 1.0;
                continue;
            }
            asked.push_back({origin, way / distance, 0.0, distance});
            whose.push_back(i);
        }
    std::vector<RayHit> hits(asked.size());
    rays.chart.rays.first_hits(asked, ray_mask::all, hits);
    for (std::size_t i = 0; i < hits.size(); ++i)
        if (hits[i].mesh != ray_miss)
            share_of(shares[whose[i]], cause_of(rays.chart.region_of(hits[i]))) += 1.0;
    return shares;
}

ShadowCause most(const Shares& shares) {
    const auto at = std::max_element(shares.begin() + 1, shares.end());
    return *at > 0.0 ? static_cast<ShadowCause>(at - shares.begin()) : ShadowCause::turned_away;
}

/// Each dark cell takes what most of the dark cells around it have: single specks go.
void smooth_causes(const ChartGrid& grid, std::vector<ShadowCause>& cause) {
    const std::vector<ShadowCause> before = cause;
    for (std::size_t cell = 0; cell < grid.size(); ++cell) {
        if (before[cell] == ShadowCause::nothing) continue;
        Shares around{};
        for (int row = -2; row <= 2; ++row)
            for (int column = -2; column <= 2; ++column) {
                const int c = grid.column_of(cell) + column, r = grid.row_of(cell) + row;
                if (c < 0 || r < 0 || c >= grid.columns || r >= grid.rows) continue;
                share_of(around, before[grid.cell_at(c, r)]) += 1.0;
            }
        cause[cell] = most(around);
    }
}

std::optional<std::size_t> closed_patch(const FaceChart& chart, const FaceLight& light,
                                        const FaceShadows& shadows) {
    const MirroredChart view(chart.fine, light.to_lamp.x);
    const std::vector<double> level = blurred(chart.fine, light.level, limit::blur_mm);
    const Enclosure enclosure = find_enclosure(chart.lines, view, level);
    if (enclosure.stops() < limit::joined_stops || enclosure.peak < limit::patch_level ||
        shadows.cause[enclosure.cell] != ShadowCause::nothing)
        return {};
    return enclosure.cell;
}

ShadowArea grown(const ChartGrid& grid, const FaceShadows& shadows, std::size_t start,
                 std::vector<std::uint8_t>& taken) {
    ShadowArea area{shadows.cause[start], {start}};
    taken[start] = 1;
    std::array<double, 32> by_region{};
    for (std::size_t i = 0; i < area.cells.size(); ++i) {
        const std::size_t cell = area.cells[i];
        area.area_mm2 += grid.area_mm2[cell];
        by_region[static_cast<std::size_t>(grid.region[cell])] += grid.area_mm2[cell];
        area.is_patch = area.is_patch || (shadows.patch && *shadows.patch == cell);
        const int column = grid.column_of(cell), row = grid.row_of(cell);
        for (const auto& [c, r] : {std::pair{column - 1, row}, std::pair{column + 1, row},
                                   std::pair{column, row - 1}, std::pair{column, row + 1}}) {
            if (c < 0 || r < 0 || c >= grid.columns || r >= grid.rows) continue;
            const std::size_t next = grid.cell_at(c, r);
            if (taken[next] != 0 || shadows.cause[next] != area.cause || !on_skin(grid, next))
                continue;
            taken[next] = 1;
            area.cells.push_back(next);
        }
    }
    area.mostly = static_cast<Region>(std::max_element(by_region.begin(), by_region.end()) -
                                      by_region.begin());
    return area;
}

} // namespace

bool on_skin(const ChartGrid& grid, std::size_t cell) {
    return grid.covered[cell] != 0 && grid.region[cell] != Region::hair &&
           grid.region[cell] != Region::clothing;
}

FaceShadows shadows_on_face(const FaceChart& chart, const Emitter& lamp, const FaceLight& light,
                            const RoomAround& around) {
    const ChartGrid& grid = chart.fine;
    const Rays rays{chart, grid, emitter_points(lamp, cause_points), around};
    const std::vector<double> room = hidden_by_room(rays, light);
    std::vector<double> seen = light.seen;
    for (std::size_t cell = 0; cell < grid.size(); ++cell) seen[cell] *= 1.0 - room[cell];
    FaceShadows shadows;
    shadows.seen = blurred(grid, seen, limit::blur_mm);
    shadows.cause.assign(grid.size(), ShadowCause::nothing);
    std::vector<std::size_t> dark;
    for (std::size_t cell = 0; cell < grid.size(); ++cell)
        if (grid.covered[cell] != 0 && shadows.seen[cell] < half_seen) dark.push_back(cell);
    std::vector<Shares> shares = hidden_by_head(rays, dark);
    for (std::size_t i = 0; i < dark.size(); ++i) {
        share_of(shares[i], ShadowCause::room) =
            static_cast<double>(rays.points.size()) * room[dark[i]] * light.seen[dark[i]];
        shadows.cause[dark[i]] = most(shares[i]);
    }
    smooth_causes(grid, shadows.cause);
    shadows.patch = closed_patch(chart, light, shadows);
    return shadows;
}

std::vector<ShadowArea> shadow_areas(const ChartGrid& grid, const FaceShadows& shadows) {
    std::vector<std::uint8_t> taken(grid.size(), 0);
    std::vector<ShadowArea> areas;
    for (std::size_t cell = 0; cell < grid.size(); ++cell)
        if (taken[cell] == 0 && on_skin(grid, cell))
            areas.push_back(grown(grid, shadows, cell, taken));
    std::stable_sort(areas.begin(), areas.end(), [](const ShadowArea& a, const ShadowArea& b) {
        return a.area_mm2 > b.area_mm2;
    });
    return areas;
}

} // namespace keystead
