// Indirect light reaches the picture as it was baked.
#include "tests/engine/render/bench.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace bench;

namespace {

constexpr int px = 24;

/// Two walls meeting at a right angle; a light above the first faces it, so that the second is lit
/// by way of the first alone.
std::shared_ptr<Studio> corner() {
    auto floor = part("room", "floor", quad(Vec3(0), Vec3(1, 0, 0), Vec3(0, 0, -1)), 0.5F);
    auto wall = part("room", "wall", quad(Vec3(0, 1, -1), Vec3(1, 0, 0), Vec3(0, 1, 0)), 0.8F);
    floor.mask = wall.mask = ray_mask::room;
    auto s = studio({floor, wall}, {disc(Vec3(0, 1.5, 0.2), Vec3(0, -1, 0.001), 0.2)});
    s->emitters[0].hot_spot = 0.0;
    s->rays = std::make_shared<RayScene>();
    for (const ScenePart& one : s->scene.parts) s->rays->add(one.mesh, one.mask);
    s->rays->commit();
    return s;
}

} // namespace

TEST_CASE("Baked irradiance is drawn as albedo over pi times itself, per light and at its power") {
    const auto s = corner();
    auto baked = std::make_shared<IndirectLight>();
    baked->emitters = 2; // the light, then the work light
    for (const ScenePart& one : s->scene.parts)
        baked->parts.emplace_back(one.mesh->positions_m.size() * 2, glm::vec3(0.0F));
    for (std::size_t v = 0; v < 4; ++v) baked->parts[1][2 * v] = glm::vec3(0.3F, 0.2F, 0.1F);
    auto r = renderer();
    r->show(s);
    r->look(bench::view(Vec3(0, 1, 2), Vec3(0, 1, -1), 0.1, px, px), px, px);
    converge(*r, 8);
    const LinearImage direct = r->read_linear();
    r->set_indirect(baked, *s);
    converge(*r, 8);
    const LinearImage both = r->read_linear();
    const std::size_t middle = px * px / 2 + px / 2;
    const glm::vec3 added = both.pixels[middle] - direct.pixels[middle];
    // Exitance 1000 at full power, albedo 0.8.
    CHECK(added.r == Approx(1000.0 * 0.3 * 0.8 / pi).epsilon(1e-3));
    CHECK(added.b == Approx(1000.0 * 0.1 * 0.8 / pi).epsilon(1e-3));
    auto half = std::make_shared<Studio>(*s);
    half->emitters[0].power = 0.5;
    r->show(half);
    CHECK(r->read_linear().pixels[middle].r == Approx(0.5F * both.pixels[middle].r).epsilon(1e-6));
    r->set_indirect(nullptr, *s);
    converge(*r, 8);
    r->show(s);
    CHECK(r->read_linear().pixels == direct.pixels);
}

TEST_CASE("A wall that no light sees is lit by way of the floor") {
    const auto s = corner();
    for (ScenePart& part : s->scene.parts) part.material.f0 = 0.0F; // matt
    BakeOptions options;
    options.paths = 1024;
    options.bounces = 1;
    const IndirectLight baked = bake_studio(*s, options);
    REQUIRE(baked.complete);
    // One bounce at the wall's lower left corner by midpoint rule: floor patches with irradiance
    // from the disc as an area light, seen under both cosines.
    const Vec3 place(baked.emitters == 2 ? s->scene.parts[1].mesh->positions_m[3] : glm::vec3(0));
    double expected = 0.0;
    constexpr int n = 120;
    const Emitter& light = s->emitters[0];
    for (int i = 0; i < n; ++i)
        for (int j = 0; j < n; ++j) {
            const Vec3 patch(-1.0 + 2.0 * (i + 0.5) / n, 0.0, -1.0 + 2.0 * (j + 0.5) / n);
            const Vec3 up = light.centre_m - patch;
            const double h2 = up.y * up.y, d2 = glm::dot(up, up);
            // A disc of 0.2 m at 1.5 m: a point with the disc's cosine, 1 % off at most.
            const double lit = 1.0 / pi * light.area_m2 * h2 / (d2 * d2);
            const Vec3 to = patch - place;
            const double r2 = glm::dot(to, to);
            const double share = std::max(0.0, to.z) * std::max(0.0, -to.y) / (pi * r2 * r2);
            expected += 0.5 * lit * share * (2.0 / n) * (2.0 / n);
        }
    const double found = static_cast<double>(baked.at(1, 3, 0).g);
    INFO("found " << found << ", expected " << expected);
    // The point lies a tenth of the wall inside its corner; shared vertices smooth over that.
    CHECK(found == Approx(expected).epsilon(0.15));
}
