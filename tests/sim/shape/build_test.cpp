#include "sim/shape/build/finish.h"
#include "sim/shape/build/sheet.h"
#include "sim/shape/build/solids.h"
#include "sim/shape/build/sweep.h"
#include "sim/shape/mesh_checks.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;
using namespace keystead::build;
using mesh_checks::area_m2;
using mesh_checks::not_closed;
using mesh_checks::unsound;

namespace {

double volume_m3(const Mesh& mesh) {
    double volume = 0.0;
    for (const glm::uvec3& t : mesh.triangles)
        volume += glm::dot(Vec3(mesh.positions_m[t.x]),
                           glm::cross(Vec3(mesh.positions_m[t.y]), Vec3(mesh.positions_m[t.z]))) /
                  6.0;
    return volume;
}

const Frame tilted = facing({0.3, 1.2, -0.4}, {0.5, 0.7, -0.2});

} // namespace

// Volumes and areas: elementary solid geometry.
TEST_CASE("A bar of many sides has the volume and the area of a cylinder", "[shape]") {
    const Mesh mesh = finished(bar({1, 2, 3}, {1, 2, 4}, 0.5, 256));
    CHECK(not_closed(mesh).empty());
    CHECK(unsound(mesh).empty());
    CHECK(volume_m3(mesh) == Approx(pi * 0.25).epsilon(2e-4));
    CHECK(area_m2(mesh) == Approx(2.0 * pi * 0.25 + pi).epsilon(2e-4));
}

TEST_CASE("A tapering bar has the volume of a frustum", "[shape]") {
    const Mesh mesh = bar({0, 0, 0}, {0, 2, 0}, 0.6, 0.3, 256);
    CHECK(volume_m3(mesh) == Approx(pi * 2.0 / 3.0 * (0.36 + 0.18 + 0.09)).epsilon(2e-4));
}

TEST_CASE("A ball has the volume of a sphere", "[shape]") {
    CHECK(volume_m3(ball(tilted, 0.4, 128)) == Approx(4.0 / 3.0 * pi * 0.064).epsilon(2e-3));
}

TEST_CASE("A ring turned about an axis has the volume Pappus gives it", "[shape]") {
    // Square section of 0.1 m centred 0.5 m from the axis: 2 pi r A.
    const Mesh ring =
        lathe(tilted, {{0.45, -0.05}, {0.55, -0.05}, {0.55, 0.05}, {0.45, 0.05}}, 256, true);
    CHECK(not_closed(ring).empty());
    CHECK(volume_m3(ring) == Approx(2.0 * pi * 0.5 * 0.01).epsilon(2e-4));
}

TEST_CASE("Boxes are closed, face outward and have their volume", "[shape]") {
    CHECK(not_closed(box(tilted, {0.1, 0.2, 0.3})).empty());
    CHECK(volume_m3(box(tilted, {0.1, 0.2, 0.3})) == Approx(8 * 0.006));
    const Mesh chamfered = chamfered_box(tilted, {0.1, 0.2, 0.3}, 0.02);
    CHECK(not_closed(chamfered).empty());
    CHECK(volume_m3(chamfered) < 8 * 0.006);
    CHECK(volume_m3(chamfered) > 0.93 * 8 * 0.006);
}

TEST_CASE("A prism has the area of its polygon times its thickness", "[shape]") {
    const Mesh prism = extruded(tilted, {{0, 0}, {0.3, 0}, {0.3, 0.2}, {0, 0.2}}, 0.05);
    CHECK(not_closed(prism).empty());
    CHECK(volume_m3(prism) == Approx(0.3 * 0.2 * 0.05));
}

TEST_CASE("A rod along a bent path is closed and holds about its section times its length",
          "[shape]") {
    const std::vector<Vec3> path =
        smooth_path({{0, 0, 0}, {0.5, 0.1, 0}, {1.0, 0.4, 0.2}, {1.0, 1.0, 0.6}}, 24);
    double length = 0.0;
    for (std::size_t i = 1; i < path.size(); ++i) length += glm::distance(path[i - 1], path[i]);
    const Mesh mesh = finished(rod(path, 0.02, 64));
    CHECK(not_closed(mesh).empty());
    CHECK(unsound(mesh).empty());
    CHECK(volume_m3(mesh) == Approx(pi * 4e-4 * length).epsilon(0.01));
}

TEST_CASE("A smooth path passes through its points and does not leave their range", "[shape]") {
    const std::vector<Vec3> points{{0, 0, 0}, {0.01, 0, 0}, {1, 0, 0}, {1, 0.02, 0}};
    const std::vector<Vec3> path = smooth_path(points, 8);
    REQUIRE(path.size() == 25);
    CHECK(glm::distance(path[8], points[1]) < 1e-12);
    CHECK(glm::distance(path[16], points[2]) < 1e-12);
    for (const Vec3& point : path) CHECK(point.x < 1.02);
}

TEST_CASE("A slab between two sheets is closed", "[shape]") {
    const auto at = [](double z) {
        return [z](double u, double v) { return Vec3(u, v, z + 0.1 * u * v); };
    };
    const Mesh mesh = slab(5, 3, at(0.0), at(-0.02));
    CHECK(not_closed(mesh).empty());
    CHECK(volume_m3(mesh) == Approx(0.02));
}

TEST_CASE("A cylinder's side is smooth and its rim is hard", "[shape]") {
    const Mesh mesh = finished(bar({0, 0, 0}, {0, 0, 1}, 0.5, 24));
    for (std::size_t i = 0; i < mesh.positions_m.size(); ++i) {
        const Vec3 normal(mesh.normals[i]);
        const Vec3 position(mesh.positions_m[i]);
        if (std::abs(normal.z) > 0.5)
            CHECK(std::abs(normal.z) == Approx(1.0));
        else
            CHECK(glm::dot(normal, glm::normalize(Vec3(position.x, position.y, 0))) ==
                  Approx(1.0).epsilon(1e-4));
    }
}
