// What is named on a face: against shadows worked out by hand, against symmetry, and against the
// pattern's own reading.
#include "sim/portrait/face_shadows.h"

#include "heads.h"
#include "plain_faces.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;
using namespace plain_faces;

namespace {

struct Shaded {
    FaceLight light;
    FaceShadows shadows;
    std::vector<ShadowArea> areas;
};

Shaded shade(const FaceChart& chart, const Emitter& lamp, const RoomAround& around = {}) {
    const Emitter in_head = in_head_frame(chart, lamp, Mat3(1.0), Vec3(0.0));
    Shaded result;
    result.light = light_on_face(chart, chart.fine, in_head);
    result.shadows = shadows_on_face(chart, in_head, result.light, around);
    result.areas = shadow_areas(chart.fine, result.shadows);
    return result;
}

double area_of(const Shaded& shaded, ShadowCause cause) {
    double area = 0.0;
    for (const ShadowArea& each : shaded.areas)
        if (each.cause == cause) area += each.area_mm2;
    return area;
}

const heads::Head& bald_man() {
    for (const heads::Head& head : heads::presets())
        if (head.name == "mean-male") return head;
    return heads::mean_male();
}

} // namespace

TEST_CASE("A wedge's shadow on a plate is named after the nose and has the area that tangents give",
          "[portrait][shadows]") {
    const SubjectForm form = plate_with_wedge(25);
    const auto chart = make_face_chart(form, 1.0);
    for (const double elevation : {35.0, 45.0, 55.0}) {
        // So far away that all rays are parallel; on the midline the shadow beyond the base is a
        // triangle as wide as the base and 25 tan(elevation) high.
        const Shaded shaded = shade(*chart, disc_at(form, 0, elevation, 0.1, 100.0));
        const double by_hand = wedge_half_width_mm * 25.0 * std::tan(radians(elevation));
        double on_plate = 0.0;
        for (std::size_t cell = 0; cell < chart->fine.size(); ++cell)
            if (shaded.shadows.cause[cell] == ShadowCause::nose &&
                chart->fine.region[cell] != Region::nose)
                on_plate += chart->fine.area_mm2[cell];
        INFO("elevation " << elevation);
        // The blur that measures have, 1.5 mm, rounds the tip off and reaches onto the base.
        CHECK(on_plate == Approx(by_hand).epsilon(0.12));
    }
}

TEST_CASE("Half an egg is turned away from a lamp at its side", "[portrait][shadows]") {
    const SubjectForm form = plain_head();
    const auto chart = make_face_chart(form);
    const Shaded shaded = shade(*chart, disc_at(form, 90, 0, 0.1, 50.0));
    const ChartGrid& grid = chart->fine;
    int wrong = 0, asked = 0;
    for (std::size_t cell = 0; cell < grid.size(); ++cell) {
        // Normals say which way skin is turned; near the terminator both answers are right.
        if (!on_skin(grid, cell) || std::abs(grid.normal[cell].x) < 0.25) continue;
        ++asked;
        const bool away = grid.normal[cell].x < 0.0;
        if (away != (shaded.shadows.cause[cell] == ShadowCause::turned_away) &&
            (away || shaded.shadows.cause[cell] == ShadowCause::nothing))
            ++wrong;
    }
    CHECK(asked > 1000);
    CHECK(wrong < asked / 100);
}

TEST_CASE("A lamp's mirror image has mirrored shadows", "[portrait][shadows]") {
    const SubjectForm form = plain_head();
    const auto chart = make_face_chart(form);
    const Shaded left = shade(*chart, disc_at(form, 45, 40, 0.4));
    const Shaded right = shade(*chart, disc_at(form, -45, 40, 0.4));
    const ChartGrid& grid = chart->fine;
    int differ = 0;
    for (std::size_t cell = 0; cell < grid.size(); ++cell) {
        const std::size_t other =
            grid.cell_at(grid.columns - 1 - grid.column_of(cell), grid.row_of(cell));
        if (left.shadows.cause[cell] != right.shadows.cause[other]) ++differ;
    }
    CHECK(differ < 10); // ties between two causes fall as rounding has it
    CHECK(area_of(left, ShadowCause::nose) ==
          Approx(area_of(right, ShadowCause::nose)).epsilon(0.01));
}

TEST_CASE("The lit patch is named where the pattern's reading has one", "[portrait][shadows]") {
    const heads::Head& head = bald_man();
    for (const auto& [azimuth, elevation] :
         {std::pair{45.0, 40.0}, std::pair{30.0, 25.0}, std::pair{0.0, 40.0},
          std::pair{-50.0, 40.0}, std::pair{90.0, 10.0}}) {
        const Emitter lamp = disc_at(head.form, azimuth, elevation, 0.2);
        const PatternReading reading = read_pattern(*head.chart, lamp, Mat3(1.0), Vec3(0.0));
        const Shaded shaded = shade(*head.chart, lamp);
        INFO("azimuth " << azimuth << ", elevation " << elevation << ": "
                        << name_of(reading.pattern));
        if (reading.pattern == Pattern::rembrandt) {
            REQUIRE(shaded.shadows.patch);
            // On the cheek away from the lamp.
            CHECK(head.chart->fine.place_mm[*shaded.shadows.patch].x * azimuth < 0.0);
        }
        if (reading.pattern == Pattern::loop || reading.pattern == Pattern::butterfly)
            CHECK_FALSE(shaded.shadows.patch);
        // Every light from in front makes a nose shadow where the reading counts one.
        if (reading.lost_light_mm2 > 100.0 && reading.nose_core > 0.6)
            CHECK(area_of(shaded, ShadowCause::nose) > 50.0);
    }
    // Both names were among them.
    CHECK(shade(*head.chart, disc_at(head.form, 45, 40, 0.2)).shadows.patch);
}

TEST_CASE("Hair, brow and hat are told apart by what the ray meets", "[portrait][shadows]") {
    // From straight above the brow keeps the lamp off the eyes and the nose off the mouth.
    const heads::Head& head = bald_man();
    const Shaded steep = shade(*head.chart, disc_at(head.form, 0, 65, 0.2));
    CHECK(area_of(steep, ShadowCause::brow) > 200.0);
    CHECK(area_of(steep, ShadowCause::nose) > 200.0);
    CHECK(area_of(steep, ShadowCause::hair) == 0.0);
    CHECK(area_of(steep, ShadowCause::hat) == 0.0);
    Subject hatted;
    hatted.hat = Hat{};
    const SubjectForm form = build_subject(hatted);
    const Shaded under = shade(*make_face_chart(form), disc_at(form, 0, 50, 0.2));
    CHECK(area_of(under, ShadowCause::hat) > 1000.0);
}

TEST_CASE("A board between lamp and face is something in the room", "[portrait][shadows]") {
    const SubjectForm form = plain_head();
    const auto chart = make_face_chart(form);
    const Emitter lamp = disc_at(form, 30, 20, 0.1, 1.3);
    // A metre square, half-way: nothing of so small a lamp gets past it.
    const Vec3 middle = 0.5 * (lamp.centre_m + form.landmarks.face);
    const Mat3 axes = upright_frame(glm::normalize(lamp.centre_m - form.landmarks.face));
    auto board = std::make_shared<Mesh>();
    for (const auto& [x, y] :
         {std::pair{-0.5, -0.5}, std::pair{0.5, -0.5}, std::pair{0.5, 0.5}, std::pair{-0.5, 0.5}})
        board->positions_m.emplace_back(middle + x * axes[0] + y * axes[1]);
    board->triangles = {{0, 1, 2}, {0, 2, 3}};
    RayScene room;
    room.add(board, ray_mask::panel);
    room.commit();
    RoomAround around;
    around.rays = &room;
    const Shaded open = shade(*chart, lamp), shaded = shade(*chart, lamp, around);
    CHECK(area_of(open, ShadowCause::room) == 0.0);
    CHECK(area_of(open, ShadowCause::nothing) > 5000.0);
    CHECK(area_of(shaded, ShadowCause::nothing) == 0.0);
    CHECK(area_of(shaded, ShadowCause::room) >
          0.95 * area_of(open, ShadowCause::nothing));
}
