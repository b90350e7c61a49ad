// Catchlights against the optics of a convex mirror.
#include "sim/portrait/catchlight.h"

#include "support/helpers/checks.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;

namespace {

const Vec3 pupil(0.0, 1.6, 0.1), eyeball(0.0, 1.6, 0.087);
const Vec3 camera(0.0, 1.6, 3.1);
const Vec3 right(1, 0, 0), up(0, 1, 0);

/// A disc `distance_m` from the pupil at that azimuth and elevation, facing it.
Emitter disc_at(double azimuth_deg, double elevation_deg, double distance_m, double width_m) {
    const double a = azimuth_deg * pi / 180.0, e = elevation_deg * pi / 180.0;
    const Vec3 way(std::sin(a) * std::cos(e), std::sin(e), std::cos(a) * std::cos(e));
    Emitter light;
    light.light = "key";
    light.shape = ModifierShape::disc;
    light.centre_m = pupil + distance_m * way;
    const Vec3 out = -way, across = glm::normalize(glm::cross(up, out));
    light.axes = Mat3(across, glm::cross(out, across), out);
    light.width_m = light.height_m = width_m;
    light.area_m2 = pi / 4.0 * width_m * width_m;
    light.exitance = 1.0;
    return light;
}

} // namespace

TEST_CASE("A point of the sphere mirrors where its normal halves the angle", "[portrait][eyes]") {
    const Vec3 centre(0.1, 1.5, 0.0);
    for (const Vec3& place : {Vec3(1, 2, 1), Vec3(-2, 1.5, 0.4), Vec3(0.1, 0.3, 0.6)}) {
        const Vec3 at = mirror_point(centre, cornea_radius_m, place, camera);
        const Vec3 normal = glm::normalize(at - centre);
        CHECK(glm::length(at - centre) == Approx(cornea_radius_m));
        const Vec3 in = glm::normalize(at - place), out = glm::normalize(camera - at);
        CHECK(glm::length(glm::reflect(in, normal) - out) < 1e-6);
    }
}

TEST_CASE("A key 45 degrees round and 35 up sits at half past one", "[portrait][eyes]") {
    // Source: mirror at half the angle, worked by hand for a cornea of 7.8 mm: 2.5 mm to the side
    // and 2.5 mm up; 0.9 m at 1.5 m shows 2.3 mm wide, at 3 m 1.2 mm; 1.2 m at 1.0 m 4.2 mm (the
    // last one bends with the cornea, 10 % less).
    const RayScene empty = [] {
        RayScene scene;
        scene.commit();
        return scene;
    }();
    const auto in_eye = [&](const Emitter& light) {
        return find_catchlights(pupil, eyeball, camera, right, up, {&light, 1}, empty);
    };
    const auto lights = in_eye(disc_at(45.0, 35.0, 1.5, 0.9));
    REQUIRE(lights.size() == 1);
    CHECK_ROW(355, lights[0].from_pupil_mm.x);
    CHECK_ROW(356, lights[0].from_pupil_mm.y);
    CHECK(lights[0].clock == Approx(1.5).margin(0.1));
    CHECK(lights[0].seen_share > 0.95);
    CHECK(std::string(lights[0].shape) == "round");
    const auto ahead_width = [&](double distance_m, double width_m) {
        const auto found = in_eye(disc_at(0.0, 12.0, distance_m, width_m));
        REQUIRE(found.size() == 1);
        return found[0].size_mm.x;
    };
    CHECK_ROW(357, ahead_width(1.5, 0.9));
    CHECK_ROW(358, ahead_width(3.0, 0.9));
    CHECK_ROW(359, ahead_width(1.0, 1.2));
}

TEST_CASE("A light that is off, faces away or is hidden is in no eye", "[portrait][eyes]") {
    auto lid = std::make_shared<Mesh>();
    lid->positions_m = {{-0.05F, 1.604F, 0.12F}, {0.05F, 1.604F, 0.12F}, {0.0F, 1.75F, 0.12F}};
    lid->triangles = {{0, 1, 2}};
    RayScene scene;
    scene.add(lid, ray_mask::subject);
    scene.commit();
    RayScene empty;
    empty.commit();
    Emitter light = disc_at(0.0, 50.0, 1.5, 0.4);
    CHECK(find_catchlights(pupil, eyeball, camera, right, up, {&light, 1}, scene).empty());
    CHECK(find_catchlights(pupil, eyeball, camera, right, up, {&light, 1}, empty).size() == 1);
    light.power = 0.0;
    CHECK(find_catchlights(pupil, eyeball, camera, right, up, {&light, 1}, empty).empty());
    light.power = 1.0;
    light.axes = -light.axes;
    CHECK(find_catchlights(pupil, eyeball, camera, right, up, {&light, 1}, empty).empty());
}
