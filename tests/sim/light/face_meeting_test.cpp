// Lines and faces: what a line meets is where sampled points lie, and the share of directions that
// meet a face is its solid angle.
#include "sim/light/emitter_face.h"
#include "sim/light/face_meeting.h"

#include <catch2/catch.hpp>
#include <random>

using namespace keystead;

namespace {

Emitter face(ModifierShape shape) {
    Emitter e;
    e.shape = shape;
    e.width_m = 0.8;
    e.height_m = shape == ModifierShape::rectangle || shape == ModifierShape::disc ? 0.5 : 0.8;
    if (shape == ModifierShape::ring) e.inner_width_m = 0.3;
    if (shape == ModifierShape::umbrella) e.depth_m = 0.2;
    e.centre_m = Vec3(0.3, 1.7, -0.4);
    const Vec3 beam = glm::normalize(Vec3(0.4, -0.5, 0.8));
    const Vec3 across = glm::normalize(glm::cross(Vec3(0, 1, 0), beam));
    e.axes = Mat3(across, glm::cross(beam, across), beam);
    e.hot_spot = 0.2;
    e.area_m2 = face_area_m2(e);
    e.exitance = 1.0;
    return e;
}

const std::array shapes{ModifierShape::bare,      ModifierShape::disc,    ModifierShape::ring,
                        ModifierShape::rectangle, ModifierShape::octagon, ModifierShape::umbrella};

} // namespace

TEST_CASE("A line toward a sampled point of a face meets it there") {
    std::mt19937 dice(4);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (const ModifierShape shape : shapes)
        for (const bool bulges : {false, true}) {
            Emitter e = face(shape);
            e.bulges = bulges && shape == ModifierShape::umbrella;
            for (int i = 0; i < 200; ++i) {
                const EmitterPoint point = emitter_point(e, unit(dice), unit(dice));
                const Vec3 eye = point.position_m + 1.3 * e.axes[2] + 0.4 * e.axes[0] +
                                 0.2 * unit(dice) * e.axes[1];
                const Vec3 way = point.position_m - eye;
                if (glm::dot(point.normal, way) > -1e-3) continue;
                const auto met = meet_face(e, eye, glm::normalize(way));
                REQUIRE(met.has_value());
                INFO("shape " << static_cast<int>(shape) << (bulges ? ", bulging" : ""));
                CHECK(met->distance_m == Approx(glm::length(way)).epsilon(1e-9));
                CHECK(glm::length(met->point.normal - point.normal) < 1e-6);
                CHECK(met->point.relative_exitance ==
                      Approx(point.relative_exitance).epsilon(1e-6));
            }
        }
}

TEST_CASE("The share of directions that meet a face is its solid angle") {
    std::mt19937 dice(9);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (const ModifierShape shape : shapes) {
        const Emitter e = face(shape);
        const Vec3 eye = e.centre_m + 0.9 * e.axes[2] + 0.2 * e.axes[0];
        double expected = 0.0;
        for (const EmitterPoint& point : emitter_points(e, 610)) {
            const Vec3 way = eye - point.position_m;
            const double d2 = glm::dot(way, way);
            expected +=
                std::max(0.0, glm::dot(point.normal, way / std::sqrt(d2))) * point.area_m2 / d2;
        }
        int met = 0;
        constexpr int count = 100000;
        for (int i = 0; i < count; ++i) {
            const double z = 2.0 * unit(dice) - 1.0, turn = 2.0 * pi * unit(dice);
            const double r = std::sqrt(1.0 - z * z);
            met += meet_face(e, eye, {r * std::cos(turn), r * std::sin(turn), z}) ? 1 : 0;
        }
        INFO("shape " << static_cast<int>(shape));
        // Three standard deviations of the count.
        CHECK(4.0 * pi * met / count ==
              Approx(expected).margin(3.0 * 4.0 * pi * std::sqrt(met) / count));
    }
}

TEST_CASE("A line from behind a face meets nothing") {
    for (const ModifierShape shape : {ModifierShape::disc, ModifierShape::rectangle}) {
        const Emitter e = face(shape);
        CHECK_FALSE(meet_face(e, e.centre_m - e.axes[2], e.axes[2]).has_value());
        CHECK(meet_face(e, e.centre_m + e.axes[2], -e.axes[2]).has_value());
    }
}
