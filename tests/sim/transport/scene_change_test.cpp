// Boxes around what an edit changed, against rays cast at the meshes themselves.
#include "sim/transport/scene_change.h"

#include "sim/base/frames.h"
#include "sim/transport/ray_scene.h"

#include <catch2/catch.hpp>
#include <random>

using namespace keystead;

namespace {

/// A board of that size that stands askew.
std::shared_ptr<const Mesh> board(const Vec3& middle_m, const Vec3& facing, double half_width_m,
                                  double half_height_m) {
    const Mat3 axes = upright_frame(facing);
    auto mesh = std::make_shared<Mesh>();
    for (const auto& [a, b] : {std::pair(-1.0, -1.0), {1.0, -1.0}, {1.0, 1.0}, {-1.0, 1.0}})
        mesh->positions_m.emplace_back(middle_m + a * half_width_m * axes[0] +
                                       b * half_height_m * axes[1]);
    mesh->triangles = {{0, 1, 2}, {0, 2, 3}};
    return mesh;
}

} // namespace

TEST_CASE("No ray that meets what changed is missed, and few others are taken for it") {
    ChangedPlaces changed;
    RayScene rays;
    const auto add = [&](const std::shared_ptr<const Mesh>& mesh) {
        changed.add(box_of(*mesh));
        rays.add(mesh, ray_mask::gear);
    };
    add(board({0.4, 0.3, 0.1}, glm::normalize(Vec3(1, 2, 3)), 0.5, 0.02));
    add(board({0.41, 0.3, 0.1}, glm::normalize(Vec3(1, 2, 3)), 0.5, 0.02)); // moved a little
    add(board({-0.3, 0.0, 0.2}, glm::normalize(Vec3(-1, 0.3, 0.5)), 0.3, 0.3));
    add(board({-0.3, 0.0, 0.2}, glm::normalize(Vec3(-1, 0.3, 0.5)), 0.1, 0.1)); // within the last
    rays.commit();
    std::mt19937 random(5);
    std::uniform_real_distribution<float> place(-1.0F, 1.0F);
    int met = 0, touched_but_free = 0, missed = 0, all = 0;
    for (int packet = 0; packet < 2000; ++packet) {
        lanes::V16 from, to;
        for (std::size_t i = 0; i < lanes::lane_count; ++i) {
            from.set(i, {place(random), place(random), place(random)});
            to.set(i, {place(random), place(random), place(random)});
        }
        lanes::M16 touched;
        changed.meet(from, to, touched);
        for (std::size_t i = 0; i < lanes::lane_count; ++i) {
            const bool blocked = rays.blocked(Vec3(from[i]), Vec3(to[i]), ray_mask::all);
            met += blocked ? 1 : 0;
            missed += blocked && !touched[i] ? 1 : 0;
            touched_but_free += touched[i] && !blocked ? 1 : 0;
            ++all;
        }
    }
    CHECK(missed == 0);
    CHECK(met > all / 50);
    CHECK(touched_but_free < all / 20);
    lanes::M16 touched;
    ChangedPlaces().meet(lanes::V16(lanes::F16(-1.0F)), lanes::V16(lanes::F16(1.0F)), touched);
    CHECK_FALSE(lanes::any(touched));
}
