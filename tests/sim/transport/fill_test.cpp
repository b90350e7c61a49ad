// Pictures made on the processor against closed forms of radiative exchange, and against themselves
// at other numbers of threads. Against the OpenGL renderer:
// tests/engine/render/processor_picture_test.
#include "sim/light/emitter_face.h"
#include "sim/transport/ray_packet.h"
#include "tests/sim/transport/fill_bench.h"
#include "tests/support/helpers/parallel_factors.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <tbb/task_arena.h>

using namespace fill_bench;

namespace {

constexpr PictureSize card_px{18, 14}; // with blocks that reach over two edges
constexpr float grey = 0.18F;

ScenePart part(const char* owner, std::shared_ptr<const Mesh> mesh, float albedo,
               std::uint32_t mask) {
    ScenePart made;
    made.owner = owner;
    made.mesh = std::move(mesh);
    made.material.albedo = glm::vec3(albedo);
    made.material.f0 = 0.0F;
    made.mask = mask;
    return made;
}

/// A grey card of 2 m in the plane z = 0 and what else there is.
std::shared_ptr<Studio> card_studio(std::vector<ScenePart> others, std::vector<Emitter> emitters) {
    auto studio = std::make_shared<Studio>();
    studio->scene.parts = std::move(others);
    studio->scene.parts.insert(
        studio->scene.parts.begin(),
        part("card", quad(Vec3(0), Vec3(1, 0, 0), Vec3(0, 1, 0)), grey, ray_mask::background));
    studio->emitters = std::move(emitters);
    studio->rays = std::make_shared<RayScene>();
    for (const ScenePart& one : studio->scene.parts) studio->rays->add(one.mesh, one.mask);
    studio->rays->commit();
    return studio;
}

/// Looks at the card from the front, past what hangs before it.
View card_view() {
    View view;
    view.eye_m = Vec3(0.1, 0.05, 4.0);
    view.tan_half_width = 0.2;
    view.tan_half_height = 0.2 * card_px.height_px / card_px.width_px;
    return view;
}

/// Faces the card from `distance_m` before it.
Emitter before_card(ModifierShape shape, double width_m, double height_m, double distance_m) {
    Emitter emitter;
    emitter.light = "light";
    emitter.shape = shape;
    emitter.width_m = width_m;
    emitter.height_m = height_m;
    emitter.centre_m = Vec3(0, 0, distance_m);
    emitter.axes = Mat3(Vec3(1, 0, 0), Vec3(0, -1, 0), Vec3(0, 0, -1));
    emitter.area_m2 = face_area_m2(emitter);
    return emitter;
}

/// Largest relative error of pi L / albedo over the card.
template <class Factor>
double worst_error(const Studio& studio, int samples, Factor factor) {
    const View view = card_view();
    const auto seen = see_picture(studio, view, card_px, {0.2F, -0.1F});
    Layer layer(card_px);
    for (int n = 0; n < samples; n += 16) add_samples(studio, *seen, view, 0, n, 16, {}, layer);
    double worst = 0.0;
    for (int y = 0; y < card_px.height_px; ++y)
        for (int x = 0; x < card_px.width_px; ++x) {
            const glm::vec4 place = seen_position(*seen, x, y);
            REQUIRE(place.w == 1.0F);
            const double irradiance =
                pi * double(layer.at(card_px, x, y).g) / samples / double(grey);
            const double expected = factor(double(place.x), double(place.y));
            worst = std::max(worst, std::abs(irradiance / expected - 1.0));
        }
    return worst;
}

} // namespace

TEST_CASE("A disc lights a grey card as the closed form says", "[transport]") {
    const double r = 0.45, d = 1.2;
    const auto studio = card_studio({}, {before_card(ModifierShape::disc, 2 * r, 2 * r, d)});
    CHECK(worst_error(*studio, 256, [&](double x, double y) {
              return disc_factor(r, d, std::hypot(x, y));
          }) < 0.005);
}

TEST_CASE("A rectangle lights a grey card as the closed form says", "[transport]") {
    for (const auto& [w, h, d] : {std::tuple{0.6, 0.9, 1.2}, {0.3, 1.2, 1.5}}) {
        const auto studio = card_studio({}, {before_card(ModifierShape::rectangle, w, h, d)});
        INFO(w << " x " << h << " m");
        CHECK(worst_error(*studio, 256, [&, w = w, h = h, d = d](double x, double y) {
                  return rectangle_factor(w, h, d, x, y);
              }) < 0.005);
    }
}

TEST_CASE("Casters throw shadows; strands, rooms and faces do not", "[transport]") {
    const auto mask = GENERATE(ray_mask::subject, ray_mask::panel, ray_mask::background,
                               ray_mask::strands, ray_mask::room, ray_mask::emitter);
    // A plate close to the light, out of the camera's way, that hides all of it from the card.
    ScenePart plate =
        part("plate", quad(Vec3(0.7, 0, 0.9), Vec3(0.2, 0, 0), Vec3(0, 0.2, 0)), 0.5F, mask);
    Emitter emitter = before_card(ModifierShape::disc, 0.1, 0.1, 1.0);
    emitter.centre_m.x = 0.7;
    const auto studio = card_studio({plate}, {emitter});
    const View view = card_view();
    const auto seen = see_picture(*studio, view, card_px, {0, 0});
    Layer layer(card_px);
    add_samples(*studio, *seen, view, 0, 0, 4, {}, layer);
    const bool casts = (mask & (ray_mask::casters | ray_mask::background)) != 0;
    const glm::vec3 middle = layer.at(card_px, 9, 7);
    CHECK((middle.g == 0.0F) == casts);
}

TEST_CASE("A light's own face shines at its exitance over pi, and no other's", "[transport]") {
    Emitter emitter = before_card(ModifierShape::rectangle, 0.2, 0.2, 1.0);
    emitter.axes = Mat3(1.0); // toward the camera
    ScenePart face = part("light", quad(emitter.centre_m, Vec3(0.1, 0, 0), Vec3(0, 0.1, 0)), 0.7F,
                          ray_mask::emitter);
    face.emitting_light = 0;
    const auto studio = card_studio({face}, {emitter});
    View view = card_view();
    view.eye_m = Vec3(0.0, 0.0, 3.0);
    const auto seen = see_picture(*studio, view, card_px, {0, 0});
    CHECK(seen_part(*seen, 9, 7) == 1);
    Layer own(card_px), other(card_px);
    add_samples(*studio, *seen, view, 0, 0, 4, {}, own);
    add_direct(*studio, *seen, view, emitter, 1, std::vector{sample_point(emitter, 0)}, {},
               other.all());
    CHECK(own.at(card_px, 9, 7).r == Approx(4.0 / pi).epsilon(1e-4));
    CHECK(other.at(card_px, 9, 7).r == 0.0F);
}

TEST_CASE("Baked light comes back as albedo over pi times itself, straight between vertices",
          "[transport]") {
    const auto studio = card_studio({}, {before_card(ModifierShape::disc, 0.1, 0.1, 1.0)});
    IndirectLight baked;
    baked.emitters = 2;
    baked.parts.emplace_back();
    for (const glm::vec3& p : studio->scene.parts[0].mesh->positions_m) {
        baked.parts[0].push_back(glm::vec3(9.0F)); // another light's
        baked.parts[0].push_back({2.0F + p.x, 3.0F + p.y, 1.0F});
    }
    const View view = card_view();
    const auto seen = see_picture(*studio, view, card_px, {0, 0});
    Layer layer(card_px);
    add_indirect(*studio, *seen, baked, 1, {}, layer.all());
    for (const auto& [x, y] : {std::pair{0, 0}, {5, 9}, {17, 13}}) {
        const glm::vec4 place = seen_position(*seen, x, y);
        const glm::vec3 found = layer.at(card_px, x, y) * float(pi) / grey;
        CHECK(found.r == Approx(2.0F + place.x).epsilon(1e-3));
        CHECK(found.g == Approx(3.0F + place.y).epsilon(1e-3));
        CHECK(found.b == Approx(1.0F).epsilon(1e-3));
    }
}

TEST_CASE("A line of sight passes where the view projects the place that it meets", "[transport]") {
    const auto studio = card_studio({}, {});
    const View view = card_view();
    const glm::vec2 offset(0.3F, -0.4F);
    const auto seen = see_picture(*studio, view, card_px, offset);
    for (const auto& [x, y] : {std::pair{0, 0}, {11, 3}, {17, 13}}) {
        Vec2 pixel;
        REQUIRE(project(view, card_px.width_px, card_px.height_px, Vec3(seen_position(*seen, x, y)),
                        pixel));
        // The picture moves by the offset: right and up.
        CHECK(pixel.x + double(offset.x) == Approx(x + 0.5).margin(1e-3));
        CHECK(pixel.y - double(offset.y) == Approx(y + 0.5).margin(1e-3));
    }
}

TEST_CASE("Pictures are the same bytes at any number of threads", "[transport]") {
    Emitter gridded = before_card(ModifierShape::octagon, 0.8, 0.8, 1.0);
    gridded.grid = Grid{};
    const auto studio = card_studio({}, {gridded});
    const View view = card_view();
    const PictureSize size{130, 97};
    std::vector<std::vector<float>> found;
    for (const int threads : {1, 2, 5}) {
        tbb::task_arena arena(threads);
        arena.execute([&] {
            const auto seen = see_picture(*studio, view, size, {0, 0});
            Layer layer(size);
            add_samples(*studio, *seen, view, 0, 0, 3, {}, layer);
            found.push_back(layer.copy());
        });
    }
    CHECK(found[0] == found[1]);
    CHECK(found[0] == found[2]);
}
