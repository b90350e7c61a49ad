// What sixteen rays hit, against the same looked up one by one from the mesh.
#include "sim/transport/surface_lanes.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace keystead;

namespace {

/// A bumpy sheet over -1..1 in x and y with normals, colours, roughness and a grain along x.
std::shared_ptr<const Mesh> sheet(int cells, bool attributes) {
    auto mesh = std::make_shared<Mesh>();
    for (int j = 0; j <= cells; ++j)
        for (int i = 0; i <= cells; ++i) {
            const float x = 2.0F * float(i) / float(cells) - 1.0F;
            const float y = 2.0F * float(j) / float(cells) - 1.0F;
            mesh->positions_m.emplace_back(x, y, 0.05F * std::sin(9.0F * x + 4.0F * y));
            if (!attributes) continue;
            mesh->normals.push_back(glm::normalize(glm::vec3(0.3F * x, 0.2F * y, 1.0F)));
            mesh->colours.emplace_back(0.5F + 0.4F * x, 0.5F + 0.4F * y, 0.3F);
            mesh->roughness.push_back(0.5F + 0.3F * x);
            mesh->tangents.push_back(glm::normalize(glm::vec3(1.0F, 0.2F * y, 0.0F)));
        }
    const auto at = [&](int i, int j) { return static_cast<glm::uint>(j * (cells + 1) + i); };
    for (int j = 0; j < cells; ++j)
        for (int i = 0; i < cells; ++i) {
            mesh->triangles.emplace_back(at(i, j), at(i + 1, j), at(i + 1, j + 1));
            mesh->triangles.emplace_back(at(i, j), at(i + 1, j + 1), at(i, j + 1));
        }
    return mesh;
}

struct World {
    Scene scene;
    RayScene rays;
    void add(std::shared_ptr<const Mesh> mesh, const Material& material, int light = -1) {
        ScenePart part;
        part.mesh = std::move(mesh);
        part.material = material;
        part.emitting_light = light;
        rays.add(part.mesh, 1U);
        scene.parts.push_back(part);
    }
};

/// Rays down on the sheet from random places; some miss it.
RayPacket random_rays(std::mt19937& random, float spread) {
    std::uniform_real_distribution<float> place(-spread, spread);
    RayPacket packet{lanes::V16(lanes::F16(0.0F)), lanes::V16(lanes::F16(0.0F)), 1e-4F, 10.0F,
                     lanes::M16(true)};
    for (std::size_t i = 0; i < lanes::lane_count; ++i) {
        packet.origin_m.set(i, {place(random), place(random), 2.0F});
        const glm::vec2 lean = glm::vec2(place(random), place(random)) / spread;
        packet.direction.set(i, {0.1F * lean.x, 0.1F * lean.y, -1.0F});
    }
    return packet;
}

template <class T>
T between(const std::vector<T>& values, const Mesh& mesh, std::uint32_t triangle, float u,
          float v) {
    const glm::uvec3 c = mesh.triangles[triangle];
    return (1.0F - u - v) * values[c.x] + u * values[c.y] + v * values[c.z];
}

} // namespace

TEST_CASE("Surfaces of a packet are those of its rays one by one", "[transport]") {
    World world;
    const Material plain{glm::vec3(0.2F, 0.3F, 0.4F), 0.6F, 0.04F, false, Finish::plain};
    Material metal{glm::vec3(0.7F), 0.3F, 0.05F, true, Finish::plain};
    const int cells = GENERATE(1, 40); // one triangle for many lanes, and many triangles
    world.add(sheet(cells, true), plain, 2);
    auto lower = std::make_shared<Mesh>(*sheet(cells, false));
    for (glm::vec3& p : lower->positions_m) p = 1.6F * p - glm::vec3(0.0F, 0.0F, 0.5F);
    world.add(lower, metal);
    world.rays.commit();
    const auto table = make_surface_table(world.scene);
    std::mt19937 random(5);
    int met = 0, missed = 0;
    for (int round = 0; round < 40; ++round) {
        const RayPacket packet = random_rays(random, round < 20 ? 1.9F : 0.3F);
        HitPacket hits;
        world.rays.first_hits(packet, 1U, RayOrder::incoherent, hits);
        reflection_lanes::Surface s;
        surfaces_at(*table, packet, hits, 1.0F, s);
        for (std::size_t i = 0; i < lanes::lane_count; ++i) {
            if (hits.mesh[i] == ray_miss) {
                ++missed;
                CHECK(s.emitting_light[i] == -1);
                CHECK(s.albedo[i] == glm::vec3(0.0F));
                continue;
            }
            ++met;
            const ScenePart& part = world.scene.parts[hits.mesh[i]];
            const Mesh& mesh = *part.mesh;
            const std::uint32_t triangle = hits.triangle[i];
            const float u = hits.u[i], v = hits.v[i];
            REQUIRE(glm::distance(s.position[i], between(mesh.positions_m, mesh, triangle, u, v)) <
                    2e-6F);
            const glm::uvec3 c = mesh.triangles[triangle];
            const glm::vec3 up =
                glm::normalize(glm::cross(mesh.positions_m[c.y] - mesh.positions_m[c.x],
                                          mesh.positions_m[c.z] - mesh.positions_m[c.x]));
            REQUIRE(glm::distance(s.geometric[i], up) < 1e-5F); // all face the rays
            const glm::vec3 smooth =
                mesh.normals.empty() ? up
                                     : glm::normalize(between(mesh.normals, mesh, triangle, u, v));
            REQUIRE(glm::distance(s.normal[i], smooth) < 1e-5F);
            const glm::vec3 albedo = mesh.colours.empty()
                                         ? part.material.albedo
                                         : between(mesh.colours, mesh, triangle, u, v);
            REQUIRE(glm::distance(s.albedo[i], albedo) < 1e-5F);
            const float rough = mesh.roughness.empty()
                                    ? part.material.roughness
                                    : between(mesh.roughness, mesh, triangle, u, v);
            REQUIRE(s.roughness[i] == Approx(rough).margin(1e-5));
            REQUIRE(s.metal[i] == part.material.metal);
            REQUIRE(s.f0[i] == part.material.f0);
            REQUIRE(s.emitting_light[i] == part.emitting_light);
            REQUIRE(s.tangent[i] == glm::vec3(0.0F)); // only hair has a grain
        }
    }
    CHECK(met > 200);
    CHECK(missed > 20);
}

TEST_CASE("Normals turn to the side that rays come from, but for hair", "[transport]") {
    World world;
    const Finish finish = GENERATE(Finish::plain, Finish::hair);
    world.add(sheet(4, true), {glm::vec3(0.1F), 0.5F, 0.04F, false, finish});
    world.rays.commit();
    RayPacket packet{lanes::V16(glm::vec3(0.1F, 0.2F, -2.0F)), lanes::V16(glm::vec3(0, 0, 1)),
                     1e-4F, 10.0F, lanes::M16(true)};
    HitPacket hits;
    world.rays.first_hits(packet, 1U, RayOrder::coherent, hits);
    reflection_lanes::Surface s;
    surfaces_at(*make_surface_table(world.scene), packet, hits, 1.0F, s);
    if (finish == Finish::plain) {
        CHECK(s.geometric[3].z < -0.9F);
        CHECK(s.normal[3].z < -0.9F);
    } else {
        CHECK(s.geometric[3].z > 0.9F);
        CHECK(s.normal[3].z > 0.9F);
        CHECK(s.tangent[3].x > 0.9F);
    }
}

TEST_CASE("The unevenness of a finish keeps its mean and goes where a pixel is coarser than it",
          "[transport]") {
    World world;
    // Wide enough for many grains of the coarsest, 0.6 m.
    auto wide = std::make_shared<Mesh>(*sheet(1, false));
    for (glm::vec3& p : wide->positions_m) p = glm::vec3(100.0F * p.x, 100.0F * p.y, 0.0F);
    world.add(wide, {glm::vec3(0.3F), 0.4F, 0.04F, false,
                     GENERATE(Finish::skin, Finish::cloth, Finish::floor)});
    world.rays.commit();
    const auto table = make_surface_table(world.scene);
    std::mt19937 random(9);
    double sum = 0.0, most = 0.0, coarse = 0.0;
    int count = 0;
    for (int round = 0; round < 600; ++round) {
        const RayPacket packet = random_rays(random, 80.0F);
        HitPacket hits;
        world.rays.first_hits(packet, 1U, RayOrder::incoherent, hits);
        reflection_lanes::Surface fine, blurred;
        surfaces_at(*table, packet, hits, 1e-5F, fine);
        surfaces_at(*table, packet, hits, 10.0F, blurred);
        for (std::size_t i = 0; i < lanes::lane_count; ++i) {
            const double tone = double(fine.albedo[i].g) / double(0.3F) - 1.0;
            sum += tone;
            most = std::max(most, std::abs(tone));
            coarse = std::max(coarse, std::abs(double(blurred.albedo[i].g - 0.3F)));
            ++count;
        }
    }
    // Standard deviation of the finishes is 0.05 at most; four standard errors of the mean.
    CHECK(std::abs(sum / count) < 4.0 * 0.05 / std::sqrt(double(count) / 4.0));
    CHECK(most > 0.01);
    CHECK(most < 0.16);
    CHECK(coarse < 1e-6);
}
