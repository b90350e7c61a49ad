// Indirect light against the integrating sphere: inside a closed diffuse sphere of reflectance r
// every bounce spreads evenly, so the k-th adds r^k Phi / A whatever the source (Ulbricht, 1900;
// textbook radiometry).
#include "sim/transport/bake.h"

#include "tests/support/helpers/hollow_sphere.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <tbb/global_control.h>
#include <utility>

using namespace keystead;

namespace {

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
    wall.mesh = hollow_sphere(1.0, 32);
    wall.material.albedo = glm::vec3(0.8F, 0.5F, 0.2F);
    wall.material.f0 = 0.0F; // matt
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
    wall.mesh = hollow_sphere(1.0, 8);
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

TEST_CASE("A bake that remembers gives what a bake from nothing gives, from fewer rays") {
    // A box of panels in a room, and a lamp that moves behind them.
    struct Room {
        Scene scene;
        std::vector<Emitter> emitters{panel(), panel()};
    };
    const auto plate = [](const Vec3& centre, float half, bool upright) {
        auto mesh = std::make_shared<Mesh>();
        for (const auto& [a, b] : {std::pair(-1, -1), {1, -1}, {1, 1}, {-1, 1}}) {
            const Vec3 offset = upright ? Vec3(a, b, 0) : Vec3(a, 0, b);
            mesh->positions_m.emplace_back(centre + static_cast<double>(half) * offset);
            mesh->normals.emplace_back(upright ? Vec3(0, 0, 1) : Vec3(0, 1, 0));
        }
        mesh->triangles = {{0, 1, 2}, {0, 2, 3}};
        return std::shared_ptr<const Mesh>(mesh);
    };
    const auto add = [](Scene& scene, const char* name, std::shared_ptr<const Mesh> mesh,
                        std::uint32_t mask) {
        ScenePart part;
        part.owner = name;
        part.part = "plate";
        part.mesh = std::move(mesh);
        part.material.albedo = glm::vec3(0.6F, 0.5F, 0.4F);
        part.material.f0 = 0.0F; // matt
        part.mask = mask;
        scene.parts.push_back(part);
    };
    Room room;
    room.emitters[1].light = "other";
    room.emitters[1].centre_m = Vec3(-0.3, 0.3, 0.1);
    add(room.scene, "wall", hollow_sphere(1.0, 24), ray_mask::room);
    add(room.scene, "board", plate({0.1, 0.0, -0.2}, 0.15F, true), ray_mask::panel);
    add(room.scene, "stand", plate({0.2, 0.05, 0.3}, 0.05F, false), ray_mask::gear);
    BakeOptions options;
    options.paths = 16;
    options.room_spacing_m = 0.2;
    BakeMemory memory;
    const auto both = [&] {
        RayScene rays;
        for (const ScenePart& part : room.scene.parts) rays.add(part.mesh, part.mask);
        rays.commit();
        const IndirectLight kept = bake_indirect(room.scene, rays, room.emitters, options, &memory);
        const std::size_t with_memory = memory.traced;
        BakeMemory none;
        const IndirectLight fresh = bake_indirect(room.scene, rays, room.emitters, options, &none);
        CHECK(kept.parts == fresh.parts);
        CHECK(kept.complete);
        return static_cast<double>(with_memory) / static_cast<double>(none.traced);
    };
    CHECK(both() == 1.0);
    CHECK(both() == 0.0); // nothing changed
    room.emitters[0].exitance = 7.0;
    CHECK(both() == 0.0); // output is a factor
    room.emitters[1].centre_m.x += 0.1;
    const double one_light = both();
    CHECK(one_light > 0.05);
    CHECK(one_light < 0.5);
    room.scene.parts[2].mesh = plate({0.25, 0.05, 0.3}, 0.05F, false);
    CHECK(both() < 0.25); // a small thing moved
    room.scene.parts[1].material.albedo = glm::vec3(0.1F);
    room.scene.parts[1].material.f0 = 0.0F; // matt
    both();
    room.scene.parts.pop_back(); // the stand is gone
    CHECK(both() < 0.25);
    room.emitters.pop_back();
    CHECK(both() == 0.0); // one light fewer: nothing to trace
    options.stop = [] { return true; };
    const auto before = memory.state;
    RayScene rays;
    for (const ScenePart& part : room.scene.parts) rays.add(part.mesh, part.mask);
    rays.commit();
    CHECK_FALSE(bake_indirect(room.scene, rays, room.emitters, options, &memory).complete);
    CHECK(memory.state == before);
}

TEST_CASE("A bake shows a first result from few paths, near what it ends with") {
    Scene scene;
    ScenePart wall;
    wall.mesh = hollow_sphere(1.0, 24);
    wall.material.albedo = glm::vec3(0.6F);
    wall.material.f0 = 0.0F; // matt
    wall.mask = ray_mask::room;
    scene.parts.push_back(wall);
    RayScene rays;
    rays.add(wall.mesh, wall.mask);
    rays.commit();
    const std::vector<Emitter> emitters{panel()};
    BakeOptions options;
    options.paths = 32;
    options.room_spacing_m = 0.2;
    int shown = 0;
    IndirectLight coarse;
    options.show = [&](IndirectLight light) {
        ++shown;
        CHECK_FALSE(light.complete);
        coarse = std::move(light);
    };
    const IndirectLight fine = bake_indirect(scene, rays, emitters, options);
    CHECK(shown == 1);
    options.show = {};
    CHECK(bake_indirect(scene, rays, emitters, options).parts == fine.parts);
    double a = 0.0, b = 0.0;
    for (std::size_t i = 0; i < fine.parts[0].size(); ++i) {
        a += static_cast<double>(coarse.parts[0][i].g);
        b += static_cast<double>(fine.parts[0][i].g);
    }
    CHECK(a == Approx(b).epsilon(0.03));
}

TEST_CASE("Many paths and few agree, and one thread with all of them") {
    Scene scene;
    ScenePart wall;
    wall.mesh = hollow_sphere(1.0, 24);
    wall.material.albedo = glm::vec3(0.6F);
    wall.material.f0 = 0.0F; // matt
    wall.mask = ray_mask::room;
    scene.parts.push_back(wall);
    RayScene rays;
    rays.add(wall.mesh, wall.mask);
    rays.commit();
    const std::vector<Emitter> emitters{panel()};
    BakeOptions options;
    options.room_spacing_m = 0.2;
    options.paths = 32;
    const IndirectLight few = bake_indirect(scene, rays, emitters, options);
    {
        const tbb::global_control one(tbb::global_control::max_allowed_parallelism, 1);
        CHECK(bake_indirect(scene, rays, emitters, options).parts == few.parts);
    }
    options.paths = 2048;
    const IndirectLight many = bake_indirect(scene, rays, emitters, options);
    double square = 0.0, mean = 0.0, bias = 0.0;
    const double count = static_cast<double>(few.parts[0].size());
    for (std::size_t i = 0; i < few.parts[0].size(); ++i) {
        const double off =
            static_cast<double>(few.parts[0][i].g) - static_cast<double>(many.parts[0][i].g);
        square += off * off / count;
        bias += off / count;
        mean += static_cast<double>(many.parts[0][i].g) / count;
    }
    INFO("noise " << std::sqrt(square) / mean << ", bias " << bias / mean);
    CHECK(std::sqrt(square) < 0.10 * mean);
    CHECK(std::abs(bias) < 0.02 * mean);
}
