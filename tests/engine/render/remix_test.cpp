// Layers are linear, and an edit restarts no more than it must.
#include "tests/engine/render/bench.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace bench;

namespace {

constexpr int px = 24;

struct Bench {
    std::unique_ptr<Renderer> r = renderer(true);
    std::shared_ptr<Studio> two_lights() const {
        std::vector<ScenePart> parts{
            part("wall", "wall", quad(Vec3(0), Vec3(2, 0, 0), Vec3(0, 2, 0)), 0.5F)};
        // A stand of the first light, behind it: out of sight and out of the second's way.
        parts.push_back(part("light 0", "column", stand_, 0.1F, true));
        return studio(parts, {disc(Vec3(-0.6, 0.3, 1.4), Vec3(0.6, 0, -1), 0.3),
                              rectangle(Vec3(0.8, 0.2, 1.1), Vec3(-0.8, 0, -1), 0.4, 0.8)});
    }
    void show(const std::shared_ptr<Studio>& s) const {
        r->show(s);
        r->look(bench::view(Vec3(0, 0, 2.5), Vec3(0), 0.3, px, px), px, px);
    }

private:
    std::shared_ptr<const Mesh> stand_ = block(Vec3(-0.8, -1.0, 3.0), Vec3(-0.7, 1.0, 3.1));
};

std::shared_ptr<Studio> copy_of(const std::shared_ptr<Studio>& s) {
    return std::make_shared<Studio>(*s);
}

} // namespace

TEST_CASE("Halving a light's power halves its layer exactly and casts no ray") {
    const Bench b;
    auto s = b.two_lights();
    b.show(s);
    converge(*b.r, 8);
    const LinearImage full = b.r->read_linear(0);
    auto half = copy_of(s);
    half->emitters[0].power = 0.5;
    b.r->show(half);
    CHECK(b.r->samples_of(0) == 8);
    CHECK(b.r->samples_of(1) == 8);
    const LinearImage dimmed = b.r->read_linear(0);
    bool exact = true;
    for (std::size_t i = 0; i < full.pixels.size(); ++i)
        exact = exact && dimmed.pixels[i] == 0.5F * full.pixels[i];
    CHECK(exact);
    CHECK(full.pixels[px * px / 2].g > 0.0F);
    CHECK_FALSE(b.r->refine(8));
}

TEST_CASE("A light that is off adds nothing, and a gel tints only its own light") {
    const Bench b;
    auto s = b.two_lights();
    b.show(s);
    converge(*b.r, 4);
    const LinearImage first = b.r->read_linear(0), second = b.r->read_linear(1);
    auto edited = copy_of(s);
    edited->emitters[0].power = 0.0;
    edited->emitters[1].colour = Vec3(1.5, 0.9, 0.25);
    b.r->show(edited);
    const LinearImage sum = b.r->read_linear();
    for (const std::size_t i : {0U, 100U, 300U, 575U}) {
        CHECK(sum.pixels[i].r == Approx(1.5 * second.pixels[i].r).epsilon(1e-5));
        CHECK(sum.pixels[i].g == Approx(0.9 * second.pixels[i].g).epsilon(1e-5));
        CHECK(sum.pixels[i].b == Approx(0.25 * second.pixels[i].b).epsilon(1e-5));
    }
    b.r->show(s);
    CHECK(b.r->read_linear(0).pixels == first.pixels);
}

TEST_CASE("The picture is the sum of its lights") {
    const Bench b;
    b.show(b.two_lights());
    converge(*b.r, 8);
    const LinearImage sum = b.r->read_linear(), one = b.r->read_linear(0),
                      two = b.r->read_linear(1);
    for (std::size_t i = 0; i < sum.pixels.size(); i += 37) {
        const double expected =
            static_cast<double>(one.pixels[i].g) + static_cast<double>(two.pixels[i].g);
        CHECK(sum.pixels[i].g == Approx(expected).epsilon(1e-5));
    }
}

TEST_CASE("Continuous light counts for the shutter time in the sum, not in its own layer") {
    const Bench b;
    auto s = b.two_lights();
    s->emitters[0].flash = false;
    s->emitters[1].power = 0.0;
    s->set.camera.shutter_s = 1.0 / 50.0;
    b.show(s);
    converge(*b.r, 2);
    const float lit = b.r->read_linear(0).pixels[px * px / 2].g;
    CHECK(lit > 0.0F);
    CHECK(b.r->read_linear().pixels[px * px / 2].g == Approx(lit / 50.0F).epsilon(1e-5));
}

TEST_CASE("Moving a light out of sight restarts that light alone") {
    const Bench b;
    auto s = b.two_lights();
    b.show(s);
    converge(*b.r, 8);
    auto moved = copy_of(s);
    moved->emitters[0].centre_m.y += 0.2;
    moved->light_keys[0] = 7;
    moved->scene.parts[1].mesh = block(Vec3(-0.8, -1.0, 3.0), Vec3(-0.7, 1.2, 3.1));
    moved->scene.parts[1].key = 7;
    b.r->show(moved);
    CHECK(b.r->samples_of(0) == 0);
    CHECK(b.r->samples_of(1) == 8);
}

TEST_CASE("A stand that moves into another light's way restarts that light too") {
    const Bench b;
    auto s = b.two_lights();
    b.show(s);
    converge(*b.r, 4);
    auto moved = copy_of(s);
    // Between the second light and the wall, but beside the picture.
    moved->scene.parts[1].mesh = block(Vec3(0.66, -0.4, 0.9), Vec3(0.70, 0.4, 1.0));
    moved->scene.parts[1].key = 9;
    b.r->show(moved);
    CHECK(b.r->samples_of(1) == 0);
}

TEST_CASE("Anything else that moves restarts every light, and so does another view") {
    const Bench b;
    auto s = b.two_lights();
    b.show(s);
    converge(*b.r, 4);
    auto moved = copy_of(s);
    moved->scene.parts[0].mesh = quad(Vec3(0, 0, -0.1), Vec3(2, 0, 0), Vec3(0, 2, 0));
    moved->scene.parts[0].key = 3;
    b.r->show(moved);
    CHECK(b.r->samples() == 0);
    converge(*b.r, 4);
    CHECK(b.r->samples() == 4);
    b.r->look(bench::view(Vec3(0, 0.1, 2.5), Vec3(0), 0.3, px, px), px, px);
    CHECK(b.r->samples() == 0);
}

TEST_CASE("The same set gives the same bytes") {
    std::vector<LinearImage> pictures;
    for (int run = 0; run < 2; ++run) {
        const Bench b;
        auto s = b.two_lights();
        s->scene.parts.push_back(part("ball", "ball", ball(Vec3(0, 0, 0.4), 0.2), 0.4F, true));
        b.show(s);
        converge(*b.r, 9);
        pictures.push_back(b.r->read_linear());
    }
    CHECK(pictures[0].pixels == pictures[1].pixels);
}

TEST_CASE("Four samples in a pass are the four samples one by one") {
    std::vector<LinearImage> pictures;
    for (const int per_light : {1, 4}) {
        const Bench b;
        auto s = b.two_lights();
        s->scene.parts.push_back(part("ball", "ball", ball(Vec3(0, 0, 0.4), 0.2), 0.4F, true));
        b.show(s);
        while (b.r->refine(12, per_light)) {
        }
        pictures.push_back(b.r->read_linear());
    }
    double worst = 0.0;
    for (std::size_t i = 0; i < pictures[0].pixels.size(); ++i)
        worst = std::max(worst, static_cast<double>(std::abs(
                                    pictures[0].pixels[i].g / pictures[1].pixels[i].g - 1.0F)));
    INFO("largest relative difference " << worst);
    CHECK(worst < 1e-5);
}
