// Indirect light against the integrating sphere: inside a closed diffuse sphere of reflectance r
// every bounce spreads evenly, so the k-th adds r^k Phi / A whatever the source (Ulbricht, 1900;
// textbook radiometry).
#include "sim/transport/bake.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;

namespace {

/// Sphere of 1 m seen from inside, many facets.
std::shared_ptr<const Mesh> hollow_sphere(int rings) {
    auto mesh = std::make_shared<Mesh>();
    const int turns = 2 * rings;
    for (int i = 0; i <= rings; ++i)
        for (int j = 0; j < turns; ++j) {
            const double polar = pi * i / rings, turn = 2.0 * pi * j / turns;
            const Vec3 n(std::sin(polar) * std::cos(turn), std::cos(polar),
                         std::sin(polar) * std::sin(turn));
            mesh->positions_m.emplace_back(n);
            mesh->normals.emplace_back(-n);
        }
    const auto at = [&](int i, int j) { return static_cast<glm::uint>(i * turns + j % turns); };
    for (int i = 0; i < rings; ++i)
        for (int j = 0; j < turns; ++j) {
            mesh->triangles.emplace_back(at(i, j), at(i, j + 1), at(i + 1, j + 1));
            mesh->triangles.emplace_back(at(i, j), at(i + 1, j + 1), at(i + 1, j));
        }
    return mesh;
}

Emitter panel() {
    Emitter emitter;
    emitter.shape = ModifierShape::disc;
    emitter.width_m = emitter.height_m = 0.2;
    emitter.area_m2 = pi * 0.01;
    emitter.exitance = 1.0;
    emitter.centre_m = Vec3(0.2, 0.1, 0.3);
    return emitter;
}

} // namespace

TEST_CASE("Light in a white sphere comes back evenly, bounce by bounce") {
    Scene scene;
    ScenePart wall;
    wall.mesh = hollow_sphere(32);
    wall.material.albedo = glm::vec3(0.8F, 0.5F, 0.2F);
    wall.mask = ray_mask::room;
    scene.parts.push_back(wall);
    RayScene rays;
    rays.add(wall.mesh, wall.mask);
    rays.commit();
    const std::vector<Emitter> emitters{panel(), panel()};
    BakeOptions options;
    options.paths = 64;
    options.bounces = 3;
    options.room_spacing_m = 0.25;
    const IndirectLight light = bake_indirect(scene, rays, emitters, options);
    REQUIRE(light.complete);
    const double first = emitters[0].area_m2 / (4.0 * pi); // flux over the sphere's area
    for (int channel = 0; channel < 3; ++channel) {
        const double r = static_cast<double>(wall.material.albedo[channel]);
        const double expected = first * (r + r * r + r * r * r);
        double mean = 0.0, square = 0.0;
        const std::size_t count = wall.mesh->positions_m.size();
        for (std::size_t v = 0; v < count; ++v) {
            const double value = static_cast<double>(light.at(0, v, 0)[channel]);
            mean += value / static_cast<double>(count);
            square += value * value / static_cast<double>(count);
        }
        INFO("channel " << channel << ": mean " << mean << ", expected " << expected << ", spread "
                        << std::sqrt(square - mean * mean) / mean);
        // Measured: 0.9 % with these paths, 0.1 % with sixteen times as many.
        CHECK(mean == Approx(expected).epsilon(0.015));
        CHECK(std::sqrt(square - mean * mean) < 0.08 * mean);
    }
    CHECK(light.at(0, 5, 0).g == Approx(light.at(0, 5, 1).g).epsilon(0.3));
}

TEST_CASE("A bake is the same every time") {
    Scene scene;
    ScenePart wall;
    wall.mesh = hollow_sphere(8);
    wall.mask = ray_mask::room;
    scene.parts.push_back(wall);
    RayScene rays;
    rays.add(wall.mesh, wall.mask);
    rays.commit();
    const std::vector<Emitter> emitters{panel()};
    BakeOptions options;
    options.paths = 8;
    const IndirectLight a = bake_indirect(scene, rays, emitters, options);
    const IndirectLight b = bake_indirect(scene, rays, emitters, options);
    CHECK(a.parts == b.parts);
    options.stop = [] { return true; };
    CHECK_FALSE(bake_indirect(scene, rays, emitters, options).complete);
}
