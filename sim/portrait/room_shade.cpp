#include "sim/portrait/room_shade.h"

#include <algorithm>
#include <cmath>
#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>

namespace keystead {

namespace {

/// The head and what it wears are in the chart; faces of lights let light through.
constexpr std::uint32_t blockers = ray_mask::gear | ray_mask::panel | ray_mask::background;
constexpr int lamp_points = 21;
/// Every so many places each way are asked first: 16 mm apart, narrower than the thinnest pole.
constexpr int lattice_step = 8;
constexpr double margin_m = 1e-3;

struct Lamp {
    std::vector<Vec3> points_m; ///< room frame
    std::vector<double> weight; ///< of what a place facing the point gets
    double sum = 0.0;
};

Vec3 in_room(const FaceRoom& room, const Vec3& canonical_m) {
    return room.head_origin_m + room.head_axes * canonical_m;
}

Lamp lamp_in_room(const FaceChart& chart, const Emitter& emitter, const FaceRoom& room) {
    Lamp lamp;
    for (const EmitterPoint& point : emitter_points(emitter, lamp_points)) {
        const Vec3 way = chart.landmarks.face - point.position_m;
        const double distance = glm::length(way);
        const Vec3 direction = way / distance;
        const double leaving = std::max(0.0, glm::dot(point.normal, direction));
        lamp.points_m.push_back(in_room(room, point.position_m));
        lamp.weight.push_back(radiance(emitter, point, direction) * leaving * point.area_m2 /
                              (distance * distance));
        lamp.sum += lamp.weight.back();
    }
    return lamp;
}

/// Share of the lamp that the room hides from a place.
double hidden_share(const FaceRoom& room, const Lamp& lamp, const Vec3& place_m) {
    std::vector<Segment> ways;
    for (const Vec3& point : lamp.points_m) ways.push_back({place_m, point});
    std::vector<std::uint8_t> stopped(ways.size(), 0);
    room.rays->blocked_many(ways, blockers, stopped, margin_m);
    double hidden = 0.0;
    for (std::size_t i = 0; i < stopped.size(); ++i)
        if (stopped[i] != 0) hidden += lamp.weight[i];
    return std::min(1.0, hidden / lamp.sum);
}

void take_share(std::size_t cell, double left, FaceLight& light) {
    for (std::vector<double>* field : {&light.level, &light.nose_level, &light.hair_level,
                                       &light.seen, &light.nose_share, &light.brow_share})
        (*field)[cell] *= left;
}

} // namespace

std::optional<FaceLight> shaded_by_room(const FaceChart& chart, const ChartGrid& grid,
                                        const Emitter& lamp, const FaceRoom& room,
                                        const FaceLight& light) {
    if (room.rays == nullptr || light.plate_exposure <= 0.0) return {};
    const Lamp posed = lamp_in_room(chart, lamp, room);
    if (posed.sum <= 0.0) return {};
    std::vector<std::size_t> lit;
    bool any = false;
    for (std::size_t cell = 0; cell < grid.size(); ++cell) {
        if (grid.covered[cell] == 0 || light.open_level[cell] <= 0.0) continue;
        lit.push_back(cell);
        if (any || grid.row_of(cell) % lattice_step != 0 ||
            grid.column_of(cell) % lattice_step != 0)
            continue;
        any = hidden_share(room, posed, in_room(room, chart.metres(grid.place_mm[cell]))) > 0.0;
    }
    if (!any) return {};
    FaceLight shaded = light;
    tbb::parallel_for(tbb::blocked_range<std::size_t>(0, lit.size(), 128), [&](const auto& range) {
        for (std::size_t i = range.begin(); i < range.end(); ++i) {
            const Vec3 place = in_room(room, chart.metres(grid.place_mm[lit[i]]));
            const double hidden = hidden_share(room, posed, place);
            if (hidden > 0.0) take_share(lit[i], 1.0 - hidden, shaded);
        }
    });
    return shaded;
}

} // namespace keystead
