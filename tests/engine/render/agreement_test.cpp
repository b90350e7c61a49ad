// Comparing a picture with the reference: what is counted, and that the renderer's picture of a
// plain scene passes.
#include "engine/render/agreement.h"
#include "tests/engine/render/bench.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace bench;

namespace {

constexpr int side_px = 32;

/// A grey ball over a grey floor under a disc.
std::shared_ptr<Studio> ball_on_floor() {
    std::vector<ScenePart> parts{
        part("room", "floor", quad(Vec3(0.0), Vec3(0, 0, 2), Vec3(2, 0, 0)), 0.4F),
        part("subject", "skin", ball(Vec3(0, 0.5, 0), 0.3), 0.5F, true)};
    parts[0].mask = ray_mask::room;
    parts[1].mask = ray_mask::subject;
    for (ScenePart& one : parts) one.material.f0 = 0.0F;
    auto made = studio(std::move(parts), {disc({0.7, 2.0, 0.8}, {-0.4, -1, -0.5}, 0.35)});
    made->rays = std::make_shared<RayScene>();
    for (const ScenePart& one : made->scene.parts) made->rays->add(one.mesh, one.mask);
    made->rays->commit();
    return made;
}

ReferencePicture flat_reference(float value, float error) {
    ReferencePicture picture;
    picture.width_px = picture.height_px = side_px;
    picture.radiance.assign(side_px * side_px, glm::vec3(value));
    picture.standard_error.assign(side_px * side_px, glm::vec3(error));
    return picture;
}

} // namespace

TEST_CASE("The renderer and the path tracer draw the same ball") {
    const auto set = ball_on_floor();
    const View view = bench::view({0.6, 0.9, 2.4}, {0, 0.4, 0}, 0.3, side_px, side_px);
    auto r = renderer();
    r->show(set);
    r->look(view, side_px, side_px);
    converge(*r, 64);
    ReferenceOptions options;
    options.width_px = options.height_px = side_px;
    options.samples = 256;
    options.bounces = 0;
    options.specular = false;
    const ReferencePicture reference = trace_reference(*set, view, options);
    const Agreement found = agreement(r->read_linear(), reference, *set,
                                      parts_seen(*set, view, side_px, side_px), 1e-3);
    INFO("picture " << found.picture.picture << ", reference " << found.picture.reference << " ± "
                    << found.picture.error);
    CHECK(std::abs(found.picture.excess()) < 0.005 + 3.0 * found.picture.excess_error());
    CHECK(found.within_loose > 0.95);
}

TEST_CASE("A picture that is brighter in one place is said to be") {
    const auto set = ball_on_floor();
    const View view = bench::view({0.6, 0.9, 2.4}, {0, 0.4, 0}, 0.3, side_px, side_px);
    LinearImage picture{side_px, side_px,
                        std::vector<glm::vec3>(side_px * side_px, glm::vec3(1.0F))};
    const ReferencePicture reference = flat_reference(1.0F, 0.01F);
    const SeenParts seen = parts_seen(*set, view, side_px, side_px);
    const Agreement same = agreement(picture, reference, *set, seen, 0.18);
    CHECK(same.picture.excess() == Approx(0.0).margin(1e-6));
    CHECK(same.within_error == 1.0);
    CHECK(same.worst.empty());
    // The tile at the bottom right is half as bright again.
    for (int y = 16; y < side_px; ++y)
        for (int x = 16; x < side_px; ++x)
            picture.pixels[static_cast<std::size_t>(y * side_px + x)] = glm::vec3(1.5F);
    const Agreement off = agreement(picture, reference, *set, seen, 0.18);
    CHECK(off.picture.excess() == Approx(0.125));
    CHECK(off.within_error == Approx(0.75));
    REQUIRE(off.worst.size() == 1);
    CHECK(off.worst[0].x_px == 24);
    CHECK(off.worst[0].mean.excess() == Approx(0.5));
    CHECK(off.worst[0].off_grey == Approx(0.5));
    const RgbaImage map = difference_map(picture, reference);
    const auto pixel = [&map](int x, int y) {
        const auto at = static_cast<std::size_t>(4 * (y * side_px + x));
        return glm::ivec3(map.pixels[at], map.pixels[at + 1], map.pixels[at + 2]);
    };
    CHECK(pixel(4, 4) == glm::ivec3(128));
    CHECK(pixel(28, 28).r > 200);
    CHECK(pixel(28, 28).b < 10);
}
