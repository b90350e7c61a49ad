// Groups of meshes in one ray scene: the same answers as everything in one tree, and no more built
// than what moved.
#include "sim/transport/ray_packet.h"
#include "sim/transport/ray_scene.h"

#include <catch2/catch.hpp>
#include <memory>
#include <random>

using namespace keystead;

namespace {

Vec3 random_point(std::mt19937& random) {
    std::uniform_real_distribution<double> place(-1.0, 1.0);
    const double x = place(random), y = place(random);
    return {x, y, place(random)};
}

/// Triangles in a ball of 0.4 around a place.
std::shared_ptr<const Mesh> cloud(const Vec3& centre, int count, std::mt19937& random) {
    Mesh mesh;
    for (int i = 0; i < count; ++i) {
        const Vec3 middle = centre + 0.3 * random_point(random);
        const auto first = static_cast<glm::uint>(mesh.positions_m.size());
        for (int corner = 0; corner < 3; ++corner)
            mesh.positions_m.emplace_back(middle + 0.1 * random_point(random));
        mesh.triangles.emplace_back(first, first + 1, first + 2);
    }
    return std::make_shared<const Mesh>(std::move(mesh));
}

struct Clouds {
    std::vector<RayMesh> meshes;
    std::vector<std::uint32_t> group_of;
};

/// `groups` groups of two clouds each, ids taking turns between the groups.
Clouds make_clouds(int groups, std::mt19937& random) {
    Clouds clouds;
    constexpr std::uint32_t masks[] = {ray_mask::subject, ray_mask::gear, ray_mask::panel};
    for (int i = 0; i < 2 * groups; ++i) {
        clouds.meshes.push_back({cloud(2.0 * random_point(random), 150, random), masks[i % 3]});
        clouds.group_of.push_back(static_cast<std::uint32_t>(i % groups));
    }
    return clouds;
}

std::vector<RayQuery> random_rays(int count, std::mt19937& random) {
    std::vector<RayQuery> rays;
    for (int i = 0; i < count; ++i) {
        const Vec3 from = 3.0 * random_point(random);
        Vec3 way = glm::normalize(2.0 * random_point(random) - from);
        // Some run along the axes: boxes are tested with one over their directions.
        if (i % 7 == 0) way = {0, 0, i % 2 == 0 ? 1 : -1};
        rays.push_back({from, way, 1e-4, 10.0});
    }
    return rays;
}

} // namespace

TEST_CASE("Meshes in groups answer as meshes in one tree do", "[transport]") {
    std::mt19937 random(17);
    for (const int groups : {1, 2, 3, 9, 40}) {
        const Clouds clouds = make_clouds(groups, random);
        const RayScene grouped(clouds.meshes, clouds.group_of, nullptr);
        CHECK(grouped.groups_built() == groups);
        RayScene flat;
        for (const RayMesh& one : clouds.meshes) flat.add(one.mesh, one.mask);
        flat.commit();
        const std::vector<RayQuery> rays = random_rays(2003, random);
        int struck = 0;
        for (const std::uint32_t mask : {ray_mask::all, ray_mask::casters, ray_mask::panel}) {
            std::vector<RayHit> a(rays.size()), b(rays.size());
            grouped.first_hits(rays, mask, a);
            flat.first_hits(rays, mask, b);
            for (std::size_t i = 0; i < rays.size(); ++i) {
                INFO(groups << " groups, ray " << i);
                REQUIRE(a[i].mesh == b[i].mesh);
                REQUIRE(a[i].triangle == b[i].triangle);
                REQUIRE(a[i].distance_m == b[i].distance_m);
                REQUIRE(a[i].u == b[i].u);
                RayHit one;
                const bool hit =
                    grouped.first_hit(rays[i].origin_m, rays[i].direction, 1e-4, 10.0, mask, one);
                REQUIRE(hit == (a[i].mesh != ray_miss));
                if (!hit) continue;
                ++struck;
                REQUIRE(one.mesh == a[i].mesh);
                REQUIRE(one.triangle == a[i].triangle);
                const Vec3 to = rays[i].origin_m + 10.0 * rays[i].direction;
                REQUIRE(grouped.blocked(rays[i].origin_m, to, mask));
            }
        }
        CHECK(struck > 100);
    }
}

TEST_CASE("A scene after an edit builds the group that changed and shares the others",
          "[transport]") {
    std::mt19937 random(29);
    Clouds clouds = make_clouds(5, random);
    const RayScene before(clouds.meshes, clouds.group_of, nullptr);
    clouds.meshes[3].mesh = cloud({0, 0, 0}, 50, random);
    const RayScene after(clouds.meshes, clouds.group_of, &before);
    CHECK(after.groups_built() == 1);
    CHECK(after.device() == before.device());
    const RayScene same(clouds.meshes, clouds.group_of, &after);
    CHECK(same.groups_built() == 0);
    const RayScene fresh(clouds.meshes, clouds.group_of, nullptr);
    const std::vector<RayQuery> rays = random_rays(1000, random);
    std::vector<RayHit> a(rays.size()), b(rays.size());
    after.first_hits(rays, ray_mask::all, a);
    fresh.first_hits(rays, ray_mask::all, b);
    for (std::size_t i = 0; i < rays.size(); ++i) {
        REQUIRE(a[i].mesh == b[i].mesh);
        REQUIRE(a[i].distance_m == b[i].distance_m);
    }
    // What is no longer there is not hit; a mask of the group counts as much as its meshes.
    clouds.meshes[0].mask = ray_mask::background;
    CHECK(RayScene(clouds.meshes, clouds.group_of, &after).groups_built() == 1);
}

TEST_CASE("Every ray asked for is counted, on whichever scene of a device", "[transport]") {
    std::mt19937 random(31);
    const Clouds clouds = make_clouds(2, random);
    const RayScene one(clouds.meshes, clouds.group_of, nullptr);
    const RayScene other(clouds.meshes, clouds.group_of, &one);
    CHECK(one.rays_cast() == 0);
    std::vector<RayHit> hits(35);
    one.first_hits(random_rays(35, random), ray_mask::all, hits);
    CHECK(one.rays_cast() == 35);
    other.blocked({0, 0, 0}, {1, 1, 1}, ray_mask::all);
    CHECK(one.rays_cast() == 36);
    RayPacket packet{lanes::V16(lanes::F16(0.0F)), lanes::V16(lanes::F16(1.0F)), 0.0F, 1.0F,
                     lanes::M16(true)};
    packet.active.set(3, false);
    lanes::M16 blocked;
    other.blocked(packet, ray_mask::all, RayOrder::incoherent, blocked);
    CHECK(other.rays_cast() == 51);
}

TEST_CASE("Strands are met by rays from a camera only", "[transport]") {
    std::mt19937 random(37);
    RayScene scene;
    Mesh square;
    square.positions_m = {{-1, -1, 1}, {1, -1, 1}, {1, 1, 1}, {-1, 1, 1}};
    square.triangles = {{0, 1, 2}, {0, 2, 3}};
    scene.add(std::make_shared<const Mesh>(square), ray_mask::strands);
    scene.commit();
    RayHit hit;
    CHECK(scene.first_hit({0, 0, 0}, {0, 0, 1}, 0.0, 5.0, ray_mask::visible, hit));
    CHECK_FALSE(scene.first_hit({0, 0, 0}, {0, 0, 1}, 0.0, 5.0, ray_mask::all, hit));
    CHECK_FALSE(scene.blocked({0, 0, 0}, {0, 0, 2}, ray_mask::all));
    CHECK_FALSE(scene.blocked({0, 0, 0}, {0, 0, 2}, ray_mask::casters));
}
