// Light on a face whose shadows can be worked out by hand: a plate with a wedge for a nose.
#include "plain_faces.h"
#include "sim/portrait/face_light.h"
#include "sim/portrait/measure.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;
using namespace plain_faces;

namespace {

constexpr double cell_mm = 1.0;
constexpr double far_m = 100.0; ///< so far that all its rays are parallel within 0.06 degrees

struct WedgeUnderLamp {
    std::shared_ptr<const FaceChart> chart;
    FaceLight light;
};

WedgeUnderLamp light_wedge(double protrusion_mm, double azimuth_deg, double elevation_deg) {
    const SubjectForm form = plate_with_wedge(protrusion_mm);
    WedgeUnderLamp result{make_face_chart(form, cell_mm), {}};
    const Emitter lamp = disc_at(form, azimuth_deg, elevation_deg, 0.1, far_m);
    result.light = light_on_face(*result.chart, result.chart->fine, lamp);
    return result;
}

double cross(const Vec2& a, const Vec2& b) {
    return a.x * b.y - a.y * b.x;
}

bool in_triangle(const Vec2& p, const Vec2& a, const Vec2& b, const Vec2& c) {
    const double ab = cross(b - a, p - a), bc = cross(c - b, p - b), ca = cross(a - c, p - c);
    return (ab >= 0 && bc >= 0 && ca >= 0) || (ab <= 0 && bc <= 0 && ca <= 0);
}

/// The shadow by hand: every triangle between the base's corners and the tip's own shadow.
struct ShadowByHand {
    Vec2 root{0.0, 0.0}, left{-wedge_half_width_mm, wedge_tip_mm},
        right{wedge_half_width_mm, wedge_tip_mm}, tip_shadow{0.0};

    ShadowByHand(double protrusion_mm, Angles lamp) {
        const Vec2 fall = tip_shadow_mm(protrusion_mm, lamp);
        tip_shadow = Vec2(-fall.x, wedge_tip_mm - fall.y);
    }
    bool covers(const Vec2& p) const {
        return in_triangle(p, root, left, tip_shadow) || in_triangle(p, root, right, tip_shadow) ||
               in_triangle(p, left, right, tip_shadow) || in_triangle(p, root, left, right);
    }
    /// Further than `margin_mm` inside or outside: 1 or -1; 0 near the edge.
    int side(const Vec2& p, double margin_mm) const {
        int inside = 0;
        for (int k = 0; k < 8; ++k) {
            const double angle = 0.25 * pi * k;
            if (covers(p + margin_mm * Vec2(std::cos(angle), std::sin(angle)))) ++inside;
        }
        return inside == 8 ? 1 : inside == 0 && !covers(p) ? -1 : 0;
    }
};

double polygon_area(const std::vector<Vec2>& corners) {
    double twice = 0.0;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const Vec2 &a = corners[i], &b = corners[(i + 1) % corners.size()];
        twice += cross(a, b);
    }
    return 0.5 * std::abs(twice);
}

} // namespace

TEST_CASE("The wedge's shadow lies between its base and where the tangents put its tip",
          "[portrait]") {
    // Parallel light on a tip 25 mm proud of a plane: 25 tan(az) aside, 25 tan(el)/cos(az) down.
    // The directions are the trade's own examples; the millimetres are trigonometry.
    const double directions_deg[][2] = {{0, 45},  {0, 25},  {30, 25}, {45, 30},
                                        {45, 45}, {55, 40}, {70, 20}};
    for (const auto& [azimuth, elevation] : directions_deg) {
        INFO("azimuth " << azimuth << ", elevation " << elevation);
        const ShadowByHand by_hand(25, {azimuth, elevation});
        const WedgeUnderLamp wedge = light_wedge(25, azimuth, elevation);
        const ChartGrid& grid = wedge.chart->fine;
        // Rays leave 0.35 mm above the plate, which draws the shadow's edge in by its slant.
        const double margin = 0.1 + 0.35 * glm::length(tip_shadow_mm(1, {azimuth, elevation}));
        int dark = 0, wrong = 0;
        for (std::size_t cell = 0; cell < grid.size(); ++cell) {
            if (grid.covered[cell] == 0 || grid.region[cell] == Region::nose) continue;
            const int side = by_hand.side(Vec2(grid.place_mm[cell]), margin);
            dark += side > 0 ? 1 : 0;
            if (side != 0 && (side > 0) != (wedge.light.nose_share[cell] > 0.5)) ++wrong;
        }
        CHECK(dark > 50);
        // Answers are taken over from places two cells apart: a sliver narrower than that, at the
        // very tip, may be missed.
        CHECK(wrong <= 2);
    }
}

TEST_CASE("The light that the wedge takes is its shadow's area times the cosine", "[portrait]") {
    for (const double elevation : {35.0, 45.0, 55.0}) {
        const WedgeUnderLamp wedge = light_wedge(25, 0, elevation);
        const double down = 25.0 * std::tan(radians(elevation));
        // Lamp on the midline: the shadow beyond the base is a triangle below the base line.
        const double area =
            polygon_area({{-wedge_half_width_mm, 0}, {wedge_half_width_mm, 0}, {0, -down}});
        const FaceMeasures face =
            measure_face(*wedge.chart, MirroredChart(wedge.chart->fine, 0.0), wedge.light);
        CHECK(face.nose_lost_mm2 ==
              Approx(area * std::cos(radians(elevation))).epsilon(0.04)); // edge cells
        CHECK(face.tip_shift_mm == Approx(0.0).margin(0.2));
    }
}

TEST_CASE("A flat plate that faces the lamp has level 1, and a tilted one the cosine",
          "[portrait]") {
    const WedgeUnderLamp wedge = light_wedge(25, 40, 0);
    const ChartGrid& grid = wedge.chart->fine;
    double worst = 0.0;
    for (std::size_t cell = 0; cell < grid.size(); ++cell)
        if (grid.covered[cell] != 0 && grid.region[cell] != Region::nose)
            worst =
                std::max(worst, std::abs(wedge.light.open_level[cell] - std::cos(radians(40.0))));
    CHECK(worst < 2.5e-3); // the plate is 75 mm wide to either side, the lamp 100 m away
}

TEST_CASE("The chart gives a plate its true area", "[portrait]") {
    const auto chart = make_face_chart(plate_with_wedge(25), cell_mm);
    const ChartGrid& grid = chart->fine;
    double area = 0.0, nose = 0.0;
    for (std::size_t cell = 0; cell < grid.size(); ++cell)
        (grid.region[cell] == Region::nose ? nose : area) += grid.area_mm2[cell];
    // 150 by 180 mm less the wedge's base; cells along the rim count whole or not at all.
    CHECK(area == Approx(150.0 * 180.0 - wedge_half_width_mm * -wedge_tip_mm).epsilon(0.015));
    CHECK(nose > 0.0);
}

TEST_CASE("Nothing of a lamp that looks away arrives", "[portrait]") {
    const SubjectForm form = plate_with_wedge(25);
    const auto chart = make_face_chart(form, 4.0);
    Emitter lamp = disc_at(form, 0, 30, 0.5);
    lamp.axes = upright_frame(-lamp.axes[2]);
    const PatternReading reading = read_pattern(*chart, lamp, Mat3(1.0), Vec3(0.0));
    CHECK(reading.pattern == Pattern::none);
    CHECK(reading.note.find("points elsewhere") != std::string::npos);
    CHECK(reading.eye_visible[0] == 0.0);
}

TEST_CASE("Light on the midline falls on both halves of a symmetric face alike", "[portrait]") {
    const SubjectForm form = plain_head();
    const auto chart = make_face_chart(form);
    for (const double elevation : {10.0, 40.0}) {
        const PatternReading reading =
            read_pattern(*chart, disc_at(form, 0, elevation, 0.05), Mat3(1.0), Vec3(0.0));
        // The eight points of a small lamp are not symmetric themselves.
        CHECK(reading.near_lit == Approx(reading.far_lit).margin(0.01));
        CHECK(std::abs(reading.tip_shift_mm) < 0.5);
    }
}

TEST_CASE("The widest way out of a closed bowl meets the lowest part of its rim", "[portrait]") {
    // Levels made by hand on the plate's chart: dark everywhere but a bright block on the far cheek
    // and a bridge of 0.2 from it to the lit side.
    const auto chart = make_face_chart(plate_with_wedge(25), 2.0);
    const ChartGrid& grid = chart->fine;
    const MirroredChart view(grid, 1.0);
    std::vector<double> level(grid.size(), 0.01);
    for (std::size_t cell = 0; cell < grid.size(); ++cell) {
        const double x = view.x(cell), y = view.y(cell);
        if (x > 3.0) level[cell] = 0.9;
        if (x > -45 && x < -20 && y > -40 && y < -15) level[cell] = 0.8;
        if (x >= -20 && x <= 3 && y > -30 && y < -24) level[cell] = 0.2;
        if (y > chart->lines.lid_mm) level[cell] = 0.9; // bright above the lids: must not count
    }
    const Enclosure found = find_enclosure(chart->lines, view, level);
    CHECK(found.peak == 0.8);
    CHECK(found.ring == 0.2);
    CHECK(found.stops() == Approx(2.0));
    const LitPatch patch = measure_patch(chart->lines, view, level, found);
    CHECK(patch.width_mm == Approx(25.0).margin(2.5));
    CHECK(patch.height_mm == Approx(25.0).margin(2.5));
    CHECK(patch.area_mm2 == Approx(625.0).epsilon(0.15));
}
