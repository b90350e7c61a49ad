// The ray caster against brute force: every triangle tried by hand.
#include "sim/transport/ray_scene.h"

#include "sim/transport/ray_packet.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <memory>
#include <optional>
#include <random>
#include <thread>

using namespace keystead;

namespace {

/// Möller and Trumbore, "Fast, minimum storage ray/triangle intersection", J. Graphics Tools 2(1),
/// 1997: distance along the ray, both faces count.
std::optional<double> triangle_distance(const Vec3& origin, const Vec3& direction, const Vec3& p0,
                                        const Vec3& p1, const Vec3& p2) {
    const Vec3 e1 = p1 - p0, e2 = p2 - p0, across = glm::cross(direction, e2);
    const double det = glm::dot(e1, across);
    if (std::abs(det) < 1e-14) return std::nullopt;
    const Vec3 offset = origin - p0;
    const double u = glm::dot(offset, across) / det;
    const Vec3 q = glm::cross(offset, e1);
    const double v = glm::dot(direction, q) / det;
    if (u < 0 || v < 0 || u + v > 1) return std::nullopt;
    return glm::dot(e2, q) / det;
}

struct Nearest {
    double distance = 1e9;
    std::size_t triangle = 0;
};

Nearest brute_force(const Mesh& mesh, const RayQuery& ray) {
    Nearest nearest;
    for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
        const glm::uvec3& corner = mesh.triangles[i];
        const auto distance =
            triangle_distance(ray.origin_m, ray.direction, Vec3(mesh.positions_m[corner.x]),
                              Vec3(mesh.positions_m[corner.y]), Vec3(mesh.positions_m[corner.z]));
        if (distance && *distance > ray.start_m && *distance < ray.end_m &&
            *distance < nearest.distance)
            nearest = {*distance, i};
    }
    return nearest;
}

Vec3 random_point(std::mt19937& random) {
    std::uniform_real_distribution<double> place(-1.0, 1.0);
    const double x = place(random), y = place(random);
    return {x, y, place(random)};
}

Mesh random_triangles(int count, std::mt19937& random) {
    Mesh mesh;
    for (int i = 0; i < count; ++i) {
        const Vec3 centre = random_point(random);
        const auto first = static_cast<glm::uint>(mesh.positions_m.size());
        for (int corner = 0; corner < 3; ++corner)
            mesh.positions_m.emplace_back(centre + 0.25 * random_point(random));
        mesh.triangles.emplace_back(first, first + 1, first + 2);
    }
    return mesh;
}

std::vector<RayQuery> random_rays(int count, std::mt19937& random) {
    std::vector<RayQuery> rays;
    for (int i = 0; i < count; ++i) {
        const Vec3 from = 1.5 * random_point(random);
        rays.push_back({from, glm::normalize(random_point(random) - from), 1e-4, 10.0});
    }
    return rays;
}

std::shared_ptr<const Mesh> shared(Mesh mesh) {
    return std::make_shared<const Mesh>(std::move(mesh));
}

/// A square of side 2 in the plane z = `z`, facing +z.
Mesh square_at(float z) {
    Mesh mesh;
    mesh.positions_m = {{-1, -1, z}, {1, -1, z}, {1, 1, z}, {-1, 1, z}};
    mesh.triangles = {{0, 1, 2}, {0, 2, 3}};
    return mesh;
}

const Vec3 forward(0, 0, 1), backward(0, 0, -1);

} // namespace

TEST_CASE("The nearest triangle is the one that trying all of them finds", "[transport]") {
    std::mt19937 random(71);
    const Mesh mesh = random_triangles(300, random);
    const std::vector<RayQuery> rays = random_rays(2000, random);
    RayScene scene;
    const std::uint32_t id = scene.add(shared(mesh), ray_mask::subject);
    scene.commit();
    std::vector<RayHit> bulk(rays.size());
    scene.first_hits(rays, ray_mask::all, bulk);
    int struck = 0;
    for (std::size_t i = 0; i < rays.size(); ++i) {
        const Nearest expected = brute_force(mesh, rays[i]);
        RayHit hit;
        const bool found = scene.first_hit(rays[i].origin_m, rays[i].direction, rays[i].start_m,
                                           rays[i].end_m, ray_mask::all, hit);
        INFO("ray " << i);
        // Single precision: a ray within a micrometre of an edge may go either way (none here).
        REQUIRE(found == (expected.distance < 1e8));
        REQUIRE((bulk[i].mesh != ray_miss) == found);
        if (!found) continue;
        ++struck;
        REQUIRE(hit.mesh == id);
        REQUIRE(hit.triangle == expected.triangle);
        REQUIRE(hit.distance_m == Approx(expected.distance).margin(2e-6));
        REQUIRE(bulk[i].triangle == hit.triangle);
        const glm::uvec3& corner = mesh.triangles[hit.triangle];
        const Vec3 p0(mesh.positions_m[corner.x]), p1(mesh.positions_m[corner.y]),
            p2(mesh.positions_m[corner.z]);
        const Vec3 by_barycentric = (1.0 - hit.u - hit.v) * p0 + hit.u * p1 + hit.v * p2;
        const Vec3 by_distance = rays[i].origin_m + expected.distance * rays[i].direction;
        REQUIRE(glm::length(by_barycentric - by_distance) < 1e-5);
        REQUIRE(glm::length(hit.geometric_normal - glm::normalize(glm::cross(p1 - p0, p2 - p0))) <
                1e-9);
    }
    CHECK(struck > 500);
}

TEST_CASE("A packet finds what its rays find singly, whether in order or not", "[transport]") {
    std::mt19937 random(72);
    RayScene scene;
    scene.add(shared(random_triangles(300, random)), ray_mask::subject);
    scene.commit();
    const std::vector<RayQuery> rays = random_rays(480, random);
    for (const RayOrder order : {RayOrder::coherent, RayOrder::incoherent})
        for (std::size_t begin = 0; begin < rays.size(); begin += 16) {
            RayPacket packet{lanes::V16(lanes::F16(0.0F)), lanes::V16(lanes::F16(0.0F)), 1e-4F,
                             10.0F, lanes::M16(true)};
            for (std::size_t i = 0; i < 16; ++i) {
                packet.origin_m.set(i, glm::vec3(rays[begin + i].origin_m));
                // Lengths of the direction are the unit of its distances.
                packet.direction.set(i, 2.0F * glm::vec3(rays[begin + i].direction));
                packet.active.set(i, i != 5);
            }
            HitPacket hits;
            scene.first_hits(packet, ray_mask::all, order, hits);
            lanes::M16 blocked;
            scene.blocked(packet, ray_mask::all, order, blocked);
            for (std::size_t i = 0; i < 16; ++i) {
                RayHit one;
                const bool found =
                    i != 5 && scene.first_hit(rays[begin + i].origin_m, rays[begin + i].direction,
                                              1e-4, 20.0, ray_mask::all, one);
                REQUIRE((hits.mesh[i] != ray_miss) == found);
                REQUIRE(blocked[i] == found);
                if (!found) continue;
                REQUIRE(hits.triangle[i] == one.triangle);
                REQUIRE(2.0F * hits.distance[i] == Approx(one.distance_m).epsilon(1e-5));
                REQUIRE(hits.u[i] == Approx(one.u).margin(1e-4));
            }
        }
}

TEST_CASE("Two points are blocked when some triangle crosses the way between them", "[transport]") {
    std::mt19937 random(5);
    const Mesh mesh = random_triangles(60, random);
    RayScene scene;
    scene.add(shared(mesh), ray_mask::gear);
    scene.commit();
    std::vector<Segment> segments;
    for (int i = 0; i < 1003; ++i) {
        const Vec3 from = random_point(random);
        segments.push_back({from, random_point(random)});
    }
    std::vector<std::uint8_t> bulk(segments.size());
    scene.blocked_many(segments, ray_mask::casters, bulk);
    int blocked = 0;
    for (std::size_t i = 0; i < segments.size(); ++i) {
        const Vec3 way = segments[i].to_m - segments[i].from_m;
        const double length = glm::length(way);
        const Nearest nearest =
            brute_force(mesh, {segments[i].from_m, way / length, 1e-4, length - 1e-4});
        const bool expected = nearest.distance < 1e8;
        INFO("segment " << i);
        REQUIRE(scene.blocked(segments[i].from_m, segments[i].to_m, ray_mask::casters) == expected);
        REQUIRE((bulk[i] == 1) == expected);
        blocked += expected ? 1 : 0;
    }
    CHECK(blocked > 100);
    CHECK(blocked < 900);
}

TEST_CASE("A ray meets only what its mask names", "[transport]") {
    RayScene scene;
    const std::uint32_t near_panel = scene.add(shared(square_at(1)), ray_mask::panel);
    const std::uint32_t far_subject = scene.add(shared(square_at(2)), ray_mask::subject);
    scene.add(shared(square_at(0.5F)), ray_mask::emitter);
    scene.commit();
    RayHit hit;
    REQUIRE(scene.first_hit({}, forward, 0, 10, ray_mask::casters, hit));
    CHECK(hit.mesh == near_panel);
    CHECK(hit.distance_m == Approx(1.0));
    REQUIRE(scene.first_hit({}, forward, 0, 10, ray_mask::subject, hit));
    CHECK(hit.mesh == far_subject);
    CHECK_FALSE(scene.blocked({}, {0, 0, 3}, ray_mask::gear));
    CHECK_FALSE(scene.blocked({}, {0, 0, 0.9}, ray_mask::casters)); // an emitter casts no shadow
    CHECK(scene.blocked({}, {0, 0, 0.9}, ray_mask::emitter));
}

TEST_CASE("Both faces of a triangle stop a ray, and its normal keeps the winding's side",
          "[transport]") {
    RayScene scene;
    scene.add(shared(square_at(0)), ray_mask::subject);
    scene.commit();
    RayHit hit;
    REQUIRE(scene.first_hit({0.1, 0.2, 1}, backward, 0, 10, ray_mask::all, hit));
    CHECK(hit.geometric_normal.z == Approx(1.0));
    REQUIRE(scene.first_hit({0.1, 0.2, -1}, forward, 0, 10, ray_mask::all, hit));
    CHECK(hit.geometric_normal.z == Approx(1.0));
}

TEST_CASE("A removed mesh is gone and what stays keeps its id", "[transport]") {
    RayScene scene;
    const std::uint32_t first = scene.add(shared(square_at(1)), ray_mask::gear);
    const std::uint32_t second = scene.add(shared(square_at(2)), ray_mask::gear);
    scene.commit();
    RayHit hit;
    REQUIRE(scene.first_hit({}, forward, 0, 10, ray_mask::gear, hit));
    CHECK(hit.mesh == first);
    scene.remove(first);
    scene.commit();
    REQUIRE(scene.first_hit({}, forward, 0, 10, ray_mask::gear, hit));
    CHECK(hit.mesh == second);
    const std::uint32_t third = scene.add(shared(square_at(0.5F)), ray_mask::gear);
    scene.commit();
    REQUIRE(scene.first_hit({}, forward, 0, 10, ray_mask::gear, hit));
    CHECK(hit.mesh == third);
    CHECK(scene.mesh(third).positions_m[0].z == 0.5F);
    CHECK(scene.mesh(second).positions_m[0].z == 2.0F);
}

TEST_CASE("One mesh may stand in a scene twice and be removed once", "[transport]") {
    const auto mesh = shared(square_at(1));
    RayScene scene;
    const std::uint32_t first = scene.add(mesh, ray_mask::gear);
    const std::uint32_t second = scene.add(mesh, ray_mask::panel);
    scene.remove(first);
    scene.commit();
    CHECK_FALSE(scene.blocked({}, {0, 0, 2}, ray_mask::gear));
    CHECK(scene.blocked({}, {0, 0, 2}, ray_mask::panel));
    CHECK(&scene.mesh(second) == mesh.get());
}

TEST_CASE("An empty scene and an empty mesh stop nothing", "[transport]") {
    RayScene scene;
    scene.commit();
    CHECK_FALSE(scene.blocked({}, {0, 0, 2}, ray_mask::all));
    scene.add(shared(Mesh{}), ray_mask::subject);
    scene.commit();
    CHECK_FALSE(scene.blocked({}, {0, 0, 2}, ray_mask::all));
    CHECK_FALSE(scene.blocked({1, 1, 1}, {1, 1, 1}, ray_mask::all));
}

TEST_CASE("No ray slips between triangles that share an edge or a corner", "[transport]") {
    // A fan whose edges are not axis-aligned; rays aimed at points on the shared edges and at the
    // hub, from many sides. The rim is far away, so every ray must hit.
    Mesh fan;
    fan.positions_m.emplace_back(0.013F, -0.021F, 0.0F);
    constexpr glm::uint leaves = 17;
    for (glm::uint i = 0; i < leaves; ++i) {
        const double angle = 2.0 * pi * i / leaves;
        fan.positions_m.emplace_back(std::cos(angle), std::sin(angle), 0.1 * std::sin(3.0 * angle));
    }
    for (glm::uint i = 0; i < leaves; ++i)
        fan.triangles.emplace_back(0, 1 + i, 1 + (i + 1) % leaves);
    RayScene scene;
    scene.add(shared(fan), ray_mask::subject);
    scene.commit();
    std::mt19937 random(11);
    std::uniform_real_distribution<double> share(0.0, 0.9);
    std::vector<Segment> segments;
    for (int i = 0; i < 20000; ++i) {
        const Vec3 hub(fan.positions_m[0]);
        const Vec3 rim(fan.positions_m[1 + static_cast<std::size_t>(i) % leaves]);
        const Vec3 target = i % 10 == 0 ? hub : hub + share(random) * (rim - hub);
        const Vec3 from = target + Vec3(0.3, 0.2, 1.0) + 0.25 * random_point(random);
        segments.push_back({from, target + (target - from)});
    }
    std::vector<std::uint8_t> blocked(segments.size());
    scene.blocked_many(segments, ray_mask::all, blocked);
    CHECK(std::count(blocked.begin(), blocked.end(), 1) == 20000);
}

TEST_CASE("Queries from many threads give the same answers as one", "[transport]") {
    std::mt19937 random(3);
    RayScene scene;
    scene.add(shared(random_triangles(500, random)), ray_mask::subject);
    scene.commit();
    const std::vector<RayQuery> rays = random_rays(4000, random);
    const auto trace = [&] {
        std::vector<RayHit> hits(rays.size());
        scene.first_hits(rays, ray_mask::all, hits);
        return hits;
    };
    const std::vector<RayHit> alone = trace();
    std::vector<std::vector<RayHit>> together(4);
    std::vector<std::thread> threads;
    for (auto& result : together) threads.emplace_back([&] { result = trace(); });
    for (std::thread& thread : threads) thread.join();
    for (const auto& result : together)
        for (std::size_t i = 0; i < alone.size(); ++i) {
            REQUIRE(result[i].mesh == alone[i].mesh);
            REQUIRE(result[i].triangle == alone[i].triangle);
            REQUIRE(result[i].distance_m == alone[i].distance_m);
        }
}
