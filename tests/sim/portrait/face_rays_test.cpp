// Light on a face takes answers over from neighbours: here every ray is cast singly instead.
#include "heads.h"
#include "plain_faces.h"
#include "sim/portrait/face_light.h"
#include "sim/portrait/measure.h"
#include "sim/portrait/read.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <tbb/global_control.h>

using namespace keystead;
using plain_faces::disc_at;

namespace {

bool is_in_front(const ChartGrid& grid, std::size_t cell, const Vec3& direction) {
    return glm::dot(direction, grid.normal[cell]) > 0.0 &&
           glm::dot(direction, grid.flat_normal[cell]) > 0.0;
}

/// Share of the lamp that each cell sees, by one ray for each cell and each of its points.
std::vector<double> seen_by_single_rays(const FaceChart& chart, const Emitter& lamp, int points) {
    const ChartGrid& grid = chart.fine;
    std::vector<double> seen(grid.size(), 0.0);
    for (std::size_t cell = 0; cell < grid.size(); ++cell) {
        if (grid.covered[cell] == 0) continue;
        const Vec3 origin = chart.metres(grid.place_mm[cell]) + 0.35e-3 * grid.flat_normal[cell];
        double all = 0.0;
        for (const EmitterPoint& point : emitter_points(lamp, points)) {
            const Vec3 way = point.position_m - origin;
            const double distance = glm::length(way);
            const Vec3 direction = way / distance;
            const double leaving = -glm::dot(direction, point.normal);
            if (leaving <= 0.0) continue;
            const double light =
                radiance(lamp, point, -direction) * leaving / (distance * distance);
            all += light;
            RayHit hit;
            if (is_in_front(grid, cell, direction) &&
                !chart.rays.first_hit(origin, direction, 0.0, distance, ray_mask::all, hit))
                seen[cell] += light;
        }
        if (all > 0.0) seen[cell] /= all;
    }
    return seen;
}

} // namespace

TEST_CASE("What a face sees of a lamp is what single rays say", "[portrait]") {
    const FaceChart& chart = *heads::mean_male().chart;
    const struct {
        double azimuth_deg, elevation_deg, size_m;
        int points;
    } lamps[] = {{0, 45, 0.9, 16},  {40, 30, 0.9, 16}, {-65, 10, 0.9, 16},
                 {30, 60, 1.4, 32}, {50, 40, 0.1, 8},  {130, 20, 0.9, 16}};
    for (const auto& [azimuth, elevation, size, points] : lamps) {
        INFO("lamp of " << size << " m at (" << azimuth << ", " << elevation << ")");
        const Emitter lamp =
            in_head_frame(chart, disc_at(heads::mean_male().form, azimuth, elevation, size),
                          Mat3(1.0), Vec3(0.0));
        const FaceLight light = light_on_face(chart, chart.fine, lamp);
        const std::vector<double> single = seen_by_single_rays(chart, lamp, points);
        double off = 0.0, cells = 0.0, wrong = 0.0;
        for (std::size_t cell = 0; cell < single.size(); ++cell) {
            if (chart.fine.covered[cell] == 0) continue;
            cells += 1.0;
            off += std::abs(light.seen[cell] - single[cell]);
            if (std::abs(light.seen[cell] - single[cell]) > 0.2) wrong += 1.0;
        }
        // Taken from neighbours 4 to 6 mm apart: a shadow thinner than that may be missed.
        CHECK(off / cells < 0.004);
        CHECK(wrong / cells < 0.004);
    }
}

TEST_CASE("Threads change nothing of the light on a face", "[portrait]") {
    const FaceChart& chart = *heads::mean_male().chart;
    const Emitter lamp =
        in_head_frame(chart, disc_at(heads::mean_male().form, 40, 30, 0.9), Mat3(1.0), Vec3(0.0));
    const FaceLight many = light_on_face(chart, chart.fine, lamp);
    const tbb::global_control one(tbb::global_control::max_allowed_parallelism, 1);
    const FaceLight alone = light_on_face(chart, chart.fine, lamp);
    CHECK(many.level == alone.level);
    CHECK(many.nose_share == alone.nose_share);
}
