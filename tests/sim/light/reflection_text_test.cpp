// The shared text of how surfaces reflect, compiled as C++: against the lobe that sim uses for
// silver, against energy, and float against double.
#include "sim/base/ggx.h"
#include "sim/light/reflection_text.h"
#include "sim/shape/scene.h"

#include <catch2/catch.hpp>
#include <random>

using namespace keystead;

namespace {

static_assert(reflection::finish_skin == static_cast<int>(Finish::skin));
static_assert(reflection::finish_eye == static_cast<int>(Finish::eye));
static_assert(reflection::finish_hair == static_cast<int>(Finish::hair));
static_assert(reflection::finish_cloth == static_cast<int>(Finish::cloth));
static_assert(reflection::finish_paper == static_cast<int>(Finish::paper));
static_assert(reflection::finish_floor == static_cast<int>(Finish::floor));
static_assert(reflection::finish_grid == static_cast<int>(Finish::grid));

reflection::Surface flat_surface(const Vec3& albedo, double roughness, double f0, bool metal) {
    reflection::Surface s{};
    s.normal = s.geometric = Vec3(0, 0, 1);
    s.albedo = albedo;
    s.roughness = roughness;
    s.f0 = f0;
    s.metal = metal;
    return s;
}

/// Unit directions over the hemisphere, uniform by solid angle.
Vec3 upper_direction(std::mt19937& dice) {
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    const double z = unit(dice), turn = 2.0 * pi * unit(dice), r = std::sqrt(1.0 - z * z);
    return {r * std::cos(turn), r * std::sin(turn), z};
}

/// Share of light from `v` that the surface sends back (by reciprocity: the albedo toward v).
double sent_back(const reflection::Surface& s, const Vec3& v) {
    std::mt19937 dice(7);
    constexpr int count = 200000;
    double sum = 0.0;
    for (int i = 0; i < count; ++i)
        sum += reflection::reflection(s, v, upper_direction(dice), true, false, true).g;
    return 2.0 * pi * sum / count;
}

} // namespace

TEST_CASE("Metal in the shared text is the lobe that sim gives silver") {
    std::mt19937 dice(1);
    const reflection::Surface s = flat_surface(Vec3(0.8), 0.45, 0.04, true);
    for (int i = 0; i < 500; ++i) {
        const Vec3 v = upper_direction(dice), l = upper_direction(dice);
        if (v.z < 1e-2) continue;
        const double expected = ggx_metal(0.8, 0.45, s.normal, l, v) * l.z;
        CHECK(reflection::reflection(s, v, l, true, false, true).r ==
              Approx(expected).epsilon(1e-6).margin(1e-12));
    }
}

TEST_CASE("Without gloss a surface sends back its albedo whatever the direction") {
    const reflection::Surface s = flat_surface(Vec3(0.6), 0.8, 0.0, false);
    for (const double z : {1.0, 0.5, 0.1})
        CHECK(sent_back(s, {std::sqrt(1.0 - z * z), 0.0, z}) == Approx(0.6).epsilon(0.005));
}

TEST_CASE("The roughest metal sends back what its lobe integrates to") {
    // Roughness 1: D = 1/pi and the masking term is 1/(2 (n.l + n.v)), so the albedo toward
    // cosine m is the integral of x/(x + m) over 0..1 = 1 - m ln((1 + m)/m), single scattering.
    for (const double m : {0.8, 0.3})
        CHECK(sent_back(flat_surface(Vec3(1.0), 1.0, 0.04, true), {std::sqrt(1 - m * m), 0.0, m}) ==
              Approx(1.0 - m * std::log((1.0 + m) / m)).epsilon(0.01));
}

TEST_CASE("Hair without a grain is matt; with one it shines across it") {
    reflection::Surface s = flat_surface(Vec3(0.03), 0.45, 0.04, false);
    s.finish = reflection::finish_hair;
    const Vec3 v = glm::normalize(Vec3(0.3, 0, 1)), l = glm::normalize(Vec3(-0.3, 0, 1));
    const double matt = reflection::reflection(s, v, l, true, false, true).g;
    CHECK(matt == Approx(0.03 / pi * l.z));
    s.tangent = Vec3(0, 1, 0);
    CHECK(reflection::reflection(s, v, l, true, false, true).g > matt);
}

TEST_CASE("Even light is sent on as the whole reflection adds up to") {
    // The text's polynomial against sums over the hemisphere, n·l weighed in the reflection.
    for (const bool metal : {false, true})
        for (const double roughness : {0.3, 0.46, 0.85})
            for (const double m : {1.0, 0.6, 0.25}) {
                const reflection::Surface s =
                    flat_surface(Vec3(metal ? 0.8 : 0.3), roughness, 0.04, metal);
                const Vec3 v(std::sqrt(1 - m * m), 0.0, m);
                INFO("roughness " << roughness << ", cosine " << m << (metal ? ", metal" : ""));
                CHECK(reflection::even_reflectance(s, v, true).g ==
                      Approx(sent_back(s, v)).margin(metal ? 0.05 : 0.01));
                CHECK(reflection::even_reflectance(s, v, false).g == Approx(metal ? 0.0 : 0.3));
            }
}

TEST_CASE("The text in float is the text in double") {
    std::mt19937 dice(3);
    for (int finish = 0; finish < 8; ++finish)
        for (int i = 0; i < 100; ++i) {
            const Vec3 v = upper_direction(dice), l = upper_direction(dice);
            reflection::Surface s = flat_surface({0.5, 0.3, 0.2}, 0.46, 0.04, i % 5 == 0);
            s.tangent = Vec3(1, 0, 0);
            s.finish = finish;
            reflection_float::Surface f{};
            f.normal = f.geometric = glm::vec3(0, 0, 1);
            f.albedo = glm::vec3(s.albedo);
            f.tangent = glm::vec3(s.tangent);
            f.roughness = 0.46F;
            f.f0 = 0.04F;
            f.metal = s.metal;
            f.finish = finish;
            const Vec3 exact = reflection::reflection(s, v, l, true, false, true);
            const Vec3 quick(
                reflection_float::reflection(f, glm::vec3(v), glm::vec3(l), true, false, true));
            CHECK(glm::length(quick - exact) < 1e-4 * (glm::length(exact) + 0.01));
        }
}

namespace {

using Inputs = std::array<reflection_float::Surface, lanes::lane_count>;

KEYSTEAD_SIMD void answer_lanes(const Inputs& from, const glm::vec3* v, const glm::vec3* l,
                                glm::vec3* answers) {
    reflection_lanes::Surface s;
    lanes::V16 to_eye, to_light;
    for (std::size_t i = 0; i < lanes::lane_count; ++i) {
        s.normal.set(i, from[i].normal);
        s.tangent.set(i, from[i].tangent);
        s.albedo.set(i, from[i].albedo);
        s.roughness.set(i, from[i].roughness);
        s.f0.set(i, from[i].f0);
        s.metal.set(i, from[i].metal);
        s.finish.set(i, from[i].finish);
        to_eye.set(i, v[i]);
        to_light.set(i, l[i]);
    }
    const lanes::V16 sent = reflection_lanes::reflection(s, to_eye, to_light, true, false, true);
    for (std::size_t i = 0; i < lanes::lane_count; ++i) answers[i] = sent[i];
}

} // namespace

TEST_CASE("Sixteen surfaces at a time answer as one does") {
    std::mt19937 dice(5);
    Inputs surfaces{};
    std::array<glm::vec3, lanes::lane_count> v, l, answers;
    for (std::size_t i = 0; i < lanes::lane_count; ++i) {
        v[i] = glm::vec3(upper_direction(dice));
        l[i] = glm::vec3(upper_direction(dice));
        surfaces[i].normal = glm::vec3(0, 0, 1);
        surfaces[i].tangent = glm::vec3(i % 3 == 0 ? 0.0F : 1.0F, 0, 0);
        surfaces[i].albedo = glm::vec3(0.5F, 0.3F, 0.2F);
        surfaces[i].roughness = 0.2F + 0.04F * static_cast<float>(i);
        surfaces[i].f0 = i % 4 == 0 ? 0.0F : 0.04F;
        surfaces[i].metal = i == 7;
        surfaces[i].finish = static_cast<int>(i % 8);
    }
    answer_lanes(surfaces, v.data(), l.data(), answers.data());
    for (std::size_t i = 0; i < lanes::lane_count; ++i) {
        const glm::vec3 one =
            reflection_float::reflection(surfaces[i], v[i], l[i], true, false, true);
        CHECK(glm::length(answers[i] - one) < 2e-5F * glm::length(one) + 1e-8F);
    }
}
