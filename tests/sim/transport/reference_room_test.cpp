// Rooms: bounced light of the reference tracer against radiosity with published configuration
// factors, and against the integrating cavity.
#include "sim/light/configuration_factor.h"
#include "support/helpers/checks.h"
#include "tests/sim/transport/rectangle_factors.h"
#include "tests/sim/transport/reference_bench.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;
using namespace reference_bench;

namespace {

rectangle_factors::Box test_box(int cuts) {
    return {{2.0, 1.5, 3.0}, cuts, {0.7, 0.3, 0.2, 0.5, 0.6, 0.4}};
}

/// The same box for the tracer; its ceiling glows with an exitance of 1000.
Studio traced_box() {
    const rectangle_factors::Box box = test_box(1);
    const Vec3 size(box.size[0], box.size[1], box.size[2]);
    std::vector<ScenePart> parts;
    const auto meshes = walls(size);
    for (std::size_t i = 0; i < 6; ++i)
        parts.push_back(
            matt_part(meshes[i], static_cast<float>(box.reflectance[i]), ray_mask::room));
    parts[3].emitting_light = 0;
    parts[3].mask = ray_mask::emitter;
    return studio(std::move(parts),
                  {rectangle({0.5 * size.x, size.y, 0.5 * size.z}, {0, -1, 0}, size.x, size.z)});
}

/// Irradiance of the far wall x = 0 over what the ceiling emits, by tracing.
Mean traced_wall(const Studio& room, int bounces, int pixels, glm::ivec2 from, glm::ivec2 to) {
    // Square on, framed by the wall's edges: equal areas of the wall are equal areas of the
    // picture.
    const Vec3 eye(1.9, 0.75, 1.5);
    const View square_on = view(eye, {0.0, 0.75, 1.5}, 1.5 / eye.x, 0.75 / eye.x);
    const ReferencePicture seen =
        trace_reference(room, square_on, options(pixels, pixels, 256, bounces));
    Mean mean = mean_green(seen, from, to);
    const double scale = pi / (0.7 * 1000.0);
    mean.value *= scale;
    mean.error *= scale;
    return mean;
}

} // namespace

TEST_CASE("Configuration factors between a box's patches add up to one and are mutual") {
    const rectangle_factors::Box box = test_box(3);
    for (std::size_t i = 0; i < box.patches(); i += 5) {
        double sum = 0.0;
        for (std::size_t j = 0; j < box.patches(); ++j) sum += box.factor(i, j);
        CHECK(sum == Approx(1.0).epsilon(1e-9));
    }
    // Opposite and adjoining faces of a cube (Siegel and Howell; Howell's catalogue C-11, C-14).
    const rectangle_factors::Box cube{{1.0, 1.0, 1.0}, 1, {}};
    CHECK_ROW(254, cube.factor(0, 1));
    CHECK_ROW(255, cube.factor(0, 2));
}

TEST_CASE("Bounced light in a box is what radiosity gives it") {
    const Studio room = traced_box();
    constexpr int cuts = 6, pixels = 24;
    const rectangle_factors::Box box = test_box(cuts);
    for (const int bounces : {0, 1, 3}) {
        const std::vector<double> expected = rectangle_factors::irradiance(box, 3, bounces);
        double whole = 0.0, top = 0.0; // wall x = 0: patches by y first, then z
        for (int j = 0; j < cuts; ++j)
            for (int i = 0; i < cuts; ++i) {
                const double e = expected[static_cast<std::size_t>(j * cuts + i)];
                whole += e / (cuts * cuts);
                if (i >= cuts / 2) top += e / (cuts * cuts / 2);
            }
        const Mean wall = traced_wall(room, bounces, pixels, {0, 0}, {pixels, pixels});
        const Mean upper = traced_wall(room, bounces, pixels, {0, 0}, {pixels, pixels / 2});
        INFO(bounces << " bounces: wall " << wall.value << " ± " << wall.error << ", radiosity "
                     << whole << "; upper half " << upper.value << " ± " << upper.error
                     << ", radiosity " << top);
        CHECK(wall.value == Approx(whole).epsilon(0.005));
        CHECK(upper.value == Approx(top).epsilon(0.01));
        if (bounces == 0) CHECK_ROW(256, wall.value);
        if (bounces == 3) CHECK_ROW(257, wall.value);
    }
}

TEST_CASE("A room's bounce is what the integrating cavity makes of its paint") {
    // E = Phi rho / (A (1 - rho)): Ulbricht 1900, textbook radiometry; rho is the area's mean. A
    // softbox key 1.5 m from a card in an empty room of 4 x 5 x 2.5 m; the card faces away from it.
    struct Paint {
        const char* name;
        float walls, floor;
        double stops; ///< under the key, by the estimate
    };
    for (const Paint& paint :
         {Paint{"all 80 %", 0.8F, 0.8F, -1.6}, Paint{"floor 30 %", 0.8F, 0.3F, -2.5}}) {
        const Vec3 size(4.0, 2.5, 5.0);
        std::vector<ScenePart> parts;
        const auto meshes = walls(size);
        for (std::size_t i = 0; i < 6; ++i)
            parts.push_back(
                matt_part(meshes[i], i == 2 ? paint.floor : paint.walls, ray_mask::room));
        const Vec3 sitter(2.0, 1.2, 2.5);
        const Vec3 toward_key = glm::normalize(
            Vec3(std::sin(radians(45.0)), std::tan(radians(25.0)), std::cos(radians(45.0))));
        const Vec3 across = glm::normalize(glm::cross(Vec3(0, 1, 0), toward_key));
        const Vec3 up = glm::cross(toward_key, across);
        parts.push_back(matt_part(quad(sitter, 0.05 * across, 0.05 * up), 0.5F, ray_mask::subject));
        const Emitter key = rectangle(sitter + 1.5 * toward_key, -toward_key, 0.6, 0.6);
        const Studio room = studio(std::move(parts), {key});
        const View shadow_side = view(sitter - 0.5 * toward_key + 0.05 * up, sitter, 0.02, 0.02);
        const Mean seen = mean_green(trace_reference(room, shadow_side, options(8, 8, 256, 30)));
        const double bounce = seen.value * pi / 0.5;
        const double direct = 1000.0 * rectangle_parallel(0.6, 0.6, 1.5);
        const double area = 2.0 * (4.0 * 5.0 + 4.0 * 2.5 + 5.0 * 2.5);
        const double rho = (static_cast<double>(paint.walls) * (area - 20.0) +
                            static_cast<double>(paint.floor) * 20.0) /
                           area;
        const double cavity = 1000.0 * key.area_m2 * rho / (area * (1.0 - rho));
        INFO(paint.name << ": traced " << std::log2(bounce / direct)
                        << " stops under the key, cavity " << std::log2(cavity / direct)
                        << ", table " << paint.stops);
        CHECK(std::log2(cavity / direct) == Approx(paint.stops).margin(0.15));
        CHECK(std::abs(std::log2(bounce / cavity)) < 0.5);
        if (paint.floor == 0.8F)
            CHECK_ROW(258, std::log2(bounce / direct));
        else
            CHECK_ROW(259, std::log2(bounce / direct));
    }
}
