// Dark to light skin under one incident-metered key: the picture's cheek has the skin's
// reflectance.
#include "sim/light/meter.h"
#include "sim/set/set_io.h"
#include "sim/subject/skin_scale.h"
#include "tests/engine/render/bench.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace bench;

namespace {

constexpr int side_px = 64;
constexpr double patch_m = 0.014;

double luminous(const glm::vec3& rgb) {
    return Reflectance{Vec3(rgb)}.luminous();
}

Set sitter_alone() {
    const auto loaded = load_set(KEYSTEAD_SOURCE_DIR "/assets/sets/lantern-maker.json");
    INFO((loaded.ok() ? "" : loaded.problem().message()));
    REQUIRE(loaded.ok());
    Set set = loaded.value().set;
    set.lights.clear();
    set.panels.clear();
    return set;
}

/// Which way the left cheek faces: mean of the skin's normals about its landmark.
Vec3 cheek_normal(const PosedSubject& subject) {
    Vec3 sum(0.0);
    for (std::size_t i = 0; i < subject.skin->positions_m.size(); ++i)
        if (glm::distance(Vec3(subject.skin->positions_m[i]), subject.landmarks.cheek_left) <
            patch_m)
            sum += Vec3(subject.skin->normals[i]);
    return glm::normalize(sum);
}

/// One key square to the left cheek; a flat meter held there toward the lamp reads f/8.
std::shared_ptr<const Studio> metered(const Set& set,
                                      const std::shared_ptr<const Studio>& previous) {
    auto made = std::make_shared<Studio>(*make_studio(set, previous));
    const Vec3 cheek = made->subject->landmarks.cheek_left, normal = cheek_normal(*made->subject);
    made->emitters = {disc(cheek + 1.5 * normal, -normal, 0.40)};
    made->emitters[0].light = "key";
    made->light_keys = {0};
    Probe probe;
    probe.position_m = cheek;
    probe.facing = normal;
    // Turned up until the meter reads the camera's own aperture.
    made->set.camera.f_number = 8.0;
    const double wanted =
        exposure_of_f_number(8.0, made->set.camera.iso, made->set.meter.flat_c_lx_s);
    made->emitters[0].exitance *= wanted / exposure_at(made->emitters[0], probe, nullptr, 1024);
    return made;
}

/// Stops by which the mean of the cheek's pixels is over the reflectance it should have.
double stops_off(Renderer& r, const Studio& studio) {
    const Vec3 cheek = studio.subject->landmarks.cheek_left;
    const Vec3 eye = cheek + 0.8 * cheek_normal(*studio.subject);
    r.look(bench::view(eye, cheek, 0.02 / 0.8, side_px, side_px), side_px, side_px);
    converge(r, 32);
    const LinearImage picture = r.read_linear();
    const std::vector<glm::vec4> places = r.read_positions();
    const double exposure = display_exposure(studio.set.camera, studio.set.meter);
    double sum = 0.0;
    int count = 0;
    for (std::size_t i = 0; i < places.size(); ++i)
        if (places[i].w > 0.0F && glm::distance(Vec3(places[i]), cheek) < patch_m) {
            sum += exposure * luminous(picture.pixels[i]);
            ++count;
        }
    REQUIRE(count > 500);
    const Subject& subject = studio.set.subject;
    const double expected = subject.grey_card ? 0.18 : subject.skin.luminous();
    return std::log2(sum / count / expected);
}

} // namespace

TEST_CASE("Under an incident-metered key the lit cheek is as light as its skin, dark to light") {
    // Source: the meter's definition, a surface of reflectance r comes out at r (18 % at 0.18).
    // Direct light and diffuse reflection alone: a highlight is not part of the reflectance.
    auto r = renderer(false);
    std::shared_ptr<const Studio> studio;
    Set set = sitter_alone();
    for (const double luminance : {0.05, 0.1005, 0.219, 0.377, 0.465}) {
        set.subject.skin.rgb = skin_of_luminance(luminance);
        studio = metered(set, studio);
        r->show(studio);
        const double stops = stops_off(*r, *studio);
        INFO("skin of " << luminance << ": " << stops << " stops off");
        CHECK(std::abs(stops) < 0.1);
    }
}

TEST_CASE("A grey-card head comes out at 18 %, with or without highlights") {
    Set set = sitter_alone();
    set.subject.grey_card = true;
    const auto studio = metered(set, nullptr);
    for (const bool specular : {false, true}) {
        auto r = renderer(specular);
        r->show(studio);
        const double stops = stops_off(*r, *studio);
        INFO((specular ? "with" : "without") << " highlights: " << stops << " stops off");
        CHECK(std::abs(stops) < 0.05);
    }
}

TEST_CASE("A highlight adds most to dark skin, and more where skin is oily") {
    // The surface's reflection does not know what lies below (Fresnel: it is of the
    // index alone), so in stops it weighs more on dark skin.
    Set set = sitter_alone();
    std::shared_ptr<const Studio> studio;
    auto r = renderer(true);
    const auto off = [&](double luminance, double oil) {
        set.subject.skin.rgb = skin_of_luminance(luminance);
        set.subject.skin_oil = oil;
        studio = metered(set, studio);
        r->show(studio);
        return stops_off(*r, *studio);
    };
    const double dark = off(0.05, 0.0), light = off(0.377, 0.0), oily = off(0.05, 1.0);
    INFO("dark " << dark << ", light " << light << ", dark and oily " << oily);
    CHECK(dark > light);
    CHECK(oily > dark);
}
