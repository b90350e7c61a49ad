// Shadows fall where similar triangles put them.
#include "engine/render/shadow_fit.h"
#include "tests/engine/render/bench.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace bench;

namespace {

constexpr int wide = 200, high = 10;

/// Irradiance along x at y = 0 on the wall z = 0, from one light at z = 1.5, with a half plane
/// (x < 0) standing 30 cm before the wall.
struct Profile {
    std::vector<double> x_m, lit;
    /// Where the light passes a share of its unshaded value, by linear interpolation.
    double crossing(double share) const {
        for (std::size_t i = 1; i < lit.size(); ++i)
            if (lit[i - 1] < share && lit[i] >= share)
                return x_m[i - 1] +
                       (share - lit[i - 1]) / (lit[i] - lit[i - 1]) * (x_m[i] - x_m[i - 1]);
        return std::nan("");
    }
};

Profile profile(const Emitter& light, int samples) {
    const auto wall = part("wall", "wall", quad(Vec3(0), Vec3(2, 0, 0), Vec3(0, 2, 0)), 1.0F);
    const auto board =
        part("board", "board", block(Vec3(-1.2, -1.0, 0.28), Vec3(0.0, 1.0, 0.30)), 0.1F, true);
    const View front = bench::view(Vec3(0.05, 0, 3), Vec3(0.05, 0, 0), 0.0025, wide, high);
    std::vector<std::vector<glm::vec3>> pictures;
    std::vector<glm::vec4> places;
    for (const bool shaded : {true, false}) {
        auto r = renderer();
        // Looked at from behind the board's edge: the wall is seen through nothing.
        std::vector<ScenePart> parts{wall};
        if (shaded) parts.push_back(board);
        r->show(studio(parts, {light}));
        View grazing = front;
        grazing.eye_m = Vec3(0.05, 0, 0.2);
        grazing.tan_half_width = 0.75;
        grazing.tan_half_height = 0.75 * high / wide;
        r->look(grazing, wide, high);
        converge(*r, samples);
        pictures.push_back(r->read_linear().pixels);
        places = r->read_positions();
    }
    Profile p;
    for (int i = 0; i < wide; ++i) {
        const auto at = static_cast<std::size_t>(high / 2 * wide + i);
        p.x_m.push_back(static_cast<double>(places[at].x));
        p.lit.push_back(static_cast<double>(pictures[0][at].g) /
                        static_cast<double>(pictures[1][at].g));
    }
    return p;
}

} // namespace

TEST_CASE("A small light's shadow edge lies on the line through the obstacle's edge") {
    // Light at x = -0.4, edge at x = 0, 0.30 m before the wall (front of the board), 1.5 m away:
    // the shadow ends at 0.4 · 0.3 / 1.2 = 0.1 m.
    const Profile p = profile(disc(Vec3(-0.4, 0, 1.5), Vec3(0, 0, -1), 0.004), 4);
    CHECK(p.crossing(0.5) == Approx(0.1).margin(0.002));
}

TEST_CASE("A penumbra is as wide as similar triangles say") {
    // A rectangle 0.2 m wide, 1.2 m from the edge, wall 0.3 m behind it: 0.2 · 0.3 / 1.2 = 50 mm,
    // from -25 to +25 mm; light rises linearly across it (far light, cosine nearly constant).
    const Profile p = profile(rectangle(Vec3(0, 0, 1.5), Vec3(0, 0, -1), 0.2, 0.02), 256);
    const double from = p.crossing(0.1), to = p.crossing(0.9);
    INFO("10 % at " << from << ", 90 % at " << to);
    CHECK(to - from == Approx(0.8 * 0.05).epsilon(0.05));
    CHECK(p.crossing(0.5) == Approx(0.0).margin(0.0015));
    // Fully dark and fully lit outside.
    CHECK(*std::min_element(p.lit.begin(), p.lit.end()) < 1e-3);
    CHECK(*std::max_element(p.lit.begin(), p.lit.end()) == Approx(1.0).epsilon(1e-3));
}

TEST_CASE("A ball shades itself only past its own terminator") {
    auto r = renderer();
    r->show(studio({part("ball", "ball", ball(Vec3(0), 0.25, 64), 1.0F, true)},
                   {disc(Vec3(2, 0, 0), Vec3(-1, 0, 0), 0.01)}));
    r->look(bench::view(Vec3(0, 0, 2), Vec3(0), 0.15, 96, 96), 96, 96);
    converge(*r, 4);
    // A far small light: E = I cos / d², with the disc as a point (radius/distance = 1/200).
    const double area = pi * 1e-4, intensity = 1000.0 / pi * area;
    const Error error = irradiance_error(
        *r, 1.0,
        [&](const Vec3& p) {
            const Vec3 toward = Vec3(2, 0, 0) - p;
            const double d = glm::length(toward);
            return intensity * glm::dot(glm::normalize(p), toward / d) * (toward.x / d) / (d * d);
        },
        [](const Vec3& p) {
            // Facets and edge pixels blur the outermost degrees.
            return p.x > 0.25 * 0.20 && p.z > 0.25 * 0.25;
        });
    INFO("largest " << error.largest << ", mean " << error.mean << " over " << error.pixels);
    CHECK(error.pixels > 1000);
    CHECK(error.mean < 0.01);
    CHECK(error.largest < 0.04);
}

TEST_CASE("A light's own face throws no shadow, another's board does") {
    const auto wall = part("wall", "wall", quad(Vec3(0), Vec3(2, 0, 0), Vec3(0, 2, 0)), 1.0F);
    auto face = part("light 0", "face", quad(Vec3(0, 0, 1.0), Vec3(-0.2, 0, 0), Vec3(0, 0.2, 0)),
                     0.7F, true);
    face.emitting_light = 0;
    const auto shell =
        part("light 0", "shell", block(Vec3(-0.2, -0.2, 1.0), Vec3(0.2, 0.2, 1.3)), 0.05F, true);
    const View across = bench::view(Vec3(1.2, 0, 0.6), Vec3(0), 0.1, 16, 16);
    double lit[3] = {};
    for (int i = 0; i < 3; ++i) {
        std::vector<ScenePart> parts{wall};
        if (i > 0) parts.insert(parts.end(), {face, shell});
        if (i > 1)
            parts.push_back(part("panel", "flag",
                                 block(Vec3(-0.5, -0.5, 0.4), Vec3(0.5, 0.5, 0.41)), 0.05F, true));
        auto r = renderer();
        r->show(studio(parts, {rectangle(Vec3(0, 0, 1.0), Vec3(0, 0, -1), 0.4, 0.4)}));
        r->look(across, 16, 16);
        converge(*r, 16);
        lit[i] = static_cast<double>(r->read_linear().pixels[8 * 16 + 8].g);
    }
    CHECK(lit[1] == Approx(lit[0]).epsilon(1e-4));
    CHECK(lit[2] < 0.01 * lit[0]);
}

TEST_CASE(
    "A view fitted to a few receivers holds them, and what no caster can reach needs no map") {
    const std::vector<glm::vec3> seen{{0, 0, 0}, {0.3F, 0.2F, 0.1F}, {-0.3F, 0.1F, 0}};
    const std::vector<Box> between{{{-0.2F, -0.2F, 0.5F}, {0.2F, 0.2F, 0.6F}}};
    const auto views = fit_shadow_views({0, 0, 2}, {0, 0, -1}, seen, between, 1024);
    REQUIRE(views.size() == 1);
    const glm::vec4 clip = views[0].clip_from_room * glm::vec4(seen[0], 1.0F);
    CHECK(std::abs(clip.x) <= clip.w);
    CHECK(std::abs(clip.y) <= clip.w);
    CHECK(std::abs(clip.z) <= clip.w);
    CHECK(clip.w == Approx(2.0).epsilon(0.05));
    const std::vector<Box> aside{{{3, 3, 0}, {4, 4, 1}}};
    CHECK(fit_shadow_views({0, 0, 2}, {0, 0, -1}, seen, aside, 1024).empty());
    // A room all round the light takes the faces of a half cube that have something to show.
    std::vector<glm::vec3> room;
    for (const float x : {-3.0F, 3.0F})
        for (const float y : {-3.0F, 3.0F})
            for (const float z : {-3.0F, 1.9F}) room.emplace_back(x, y, z);
    const std::vector<Box> all{{{-3, -3, -3}, {3, 3, 3}}};
    const auto cube = fit_shadow_views({0, 0, 2}, {0, 0, -1}, room, all, 1024);
    CHECK(cube.size() >= 4);
    CHECK(cube.size() <= 5);
}
