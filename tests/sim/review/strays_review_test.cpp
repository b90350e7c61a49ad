// Rims against the lens, spill on the nose, the head's shadow, and paper lit evenly.
#include "tests/sim/review/bench_sets.h"

#include "sim/meter/meter_point.h"
#include "support/helpers/checks.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace bench;

namespace {

const LensAim* aim_of(const Review& review, const std::string& light) {
    for (const LensAim& aim : review.lens_aims)
        if (aim.light == light) return &aim;
    return nullptr;
}

const BackgroundShadow* shadow_of(const Review& review, const std::string& light) {
    for (const BackgroundShadow& shadow : review.background.shadows)
        if (shadow.light == light) return &shadow;
    return nullptr;
}

Set key_and_rim() {
    Set set = plain_set();
    set.camera.position_m = {0.0, 1.6, 3.0};
    set.camera.aim_m = {0.0, 1.6, 0.0};
    set.lights.push_back(light_at("key", "octa-90", {0.9, 2.2, 1.0}, {0, 1.59, 0.08}));
    set.lights.push_back(light_at("rim", "reflector-18", {1.2, 2.2, -1.5}, {0, 1.65, 0}));
    return set;
}

/// Spread in stops over the middle 2.7 m of a paper lit by two small cosine lamps so far to either
/// side and so far off it, each aimed so far beyond the paper's middle (- : toward its own side).
double uneven_stops(double aside_m, double off_m, double beyond_m, bool both = true) {
    double low = 1e9, high = 0.0;
    for (double x = -1.35; x <= 1.351; x += 0.05) {
        double sum = 0.0;
        for (const double side :
             both ? std::vector<double>{-1.0, 1.0} : std::vector<double>{-1.0}) {
            Emitter lamp;
            lamp.shape = ModifierShape::disc;
            lamp.centre_m = {side * aside_m, 1.5, off_m};
            lamp.axes =
                upright_frame(glm::normalize(Vec3(-side * beyond_m, 1.5, 0.0) - lamp.centre_m));
            lamp.width_m = lamp.height_m = 0.02;
            lamp.area_m2 = pi * 1e-4;
            lamp.exitance = 1.0;
            sum += exposure_at(lamp, {Vec3(x, 1.5, 0.0), Vec3(0.0, 0.0, 1.0)}, nullptr, 34);
        }
        low = std::min(low, sum);
        high = std::max(high, sum);
    }
    return std::log2(high / low);
}

/// A small key that far round and up, 3 m away, wall 1.2 m behind, 85 mm from 2 m.
Set before_wall(double azimuth_deg) {
    Set set = plain_set();
    set.background.kind = BackgroundKind::paper;
    set.background.distance_m = 1.2;
    set.background.sweep_m = 0.0;
    set.background.width_m = 3.5;
    set.camera.position_m = {0.0, 1.6, 2.0};
    set.camera.aim_m = {0.0, 1.5, 0.0};
    set.camera.focal_length_mm = 85.0;
    const Landmarks marks = studio_of(set)->subject->landmarks;
    const Vec3 head = 0.5 * (marks.vertex + marks.menton);
    set.lights.push_back(
        light_at("key", "reflector-18", head + 2.5 * direction_from({azimuth_deg, 35.0}), head));
    return set;
}

} // namespace

TEST_CASE("The report says by how much a rim's grid misses the lens", "[review][strays]") {
    // Case E1: 24.8 degrees between the rim's beam and the lens; cut at 20 it misses by 4.8, at 25
    // it just hits.
    Set set = key_and_rim();
    const auto cut_at = [&](double cut_deg) {
        Modifier& rim = set.lights[1].modifier;
        rim.grid = Grid{};
        rim.grid->wall_reflection = 0.0;
        rim.grid->cell_depth_m = 0.020;
        rim.grid->cell_width_m = 0.020 * std::tan(radians(cut_deg));
        return quick_review(set);
    };
    const Review narrow = cut_at(20.0);
    REQUIRE(aim_of(narrow, "rim"));
    CHECK_ROW(334, aim_of(narrow, "rim")->off_beam_deg);
    REQUIRE(aim_of(narrow, "rim")->misses_by_deg);
    CHECK(*aim_of(narrow, "rim")->misses_by_deg == Approx(4.8).margin(0.4));
    CHECK_FALSE(aim_of(narrow, "rim")->hits);
    const Review wide = cut_at(27.0);
    CHECK(*aim_of(wide, "rim")->misses_by_deg < 0.0);
    CHECK(aim_of(wide, "rim")->hits);
    CHECK_FALSE(aim_of(wide, "key")); // in front
    CHECK(review_text(narrow).find("outside what it lights") != std::string::npos);
    CHECK(parse_json(review_json(narrow)).value()["lens_aims"][0]["light"] == "rim");
}

TEST_CASE("A light just behind the ears draws the nose until it goes further round",
          "[review][strays]") {
    Set set = plain_set();
    const Vec3 face = studio_of(set)->subject->landmarks.face;
    set.lights.push_back(light_at("key", "octa-90", {-0.9, 2.2, 1.0}, {0, 1.59, 0.08}));
    const auto with_rim = [&](double azimuth_deg) {
        set.lights.resize(1);
        set.lights.push_back(
            light_at("rim", "reflector-18", face + 1.8 * direction_from({azimuth_deg, 5.0}), face));
        return quick_review(set);
    };
    const Review near = with_rim(96.0);
    const Finding* nose = finding(near, "spill-on-nose", "rim");
    REQUIRE(nose);
    CHECK(nose->remedy.find("further round to the back") != std::string::npos);
    CHECK_FALSE(finding(with_rim(150.0), "spill-on-nose"));
}

TEST_CASE("The head's shadow falls where the key's height and side put it", "[review][strays]") {
    // Case B8: key 40 degrees round and 35 up, wall 1.2 m behind: 1.2 tan 40 aside and
    // 1.2 tan 35 / cos 40 down, out of the picture; at 15 degrees 0.32 m aside, in it.
    const Review wide = quick_review(before_wall(40.0));
    const BackgroundShadow* out = shadow_of(wide, "key");
    REQUIRE(out);
    const Landmarks marks = studio_of(before_wall(40.0))->subject->landmarks;
    const double scale = 1.2 / (1.2 + 0.5 * (marks.vertex.z + marks.menton.z));
    CHECK_ROW(335, std::abs(out->aside_m) * scale);
    CHECK_ROW(336, out->down_m * scale);
    CHECK_FALSE(out->in_frame);
    CHECK_FALSE(finding(wide, "head-shadow"));
    const Review close = quick_review(before_wall(15.0));
    const BackgroundShadow* in = shadow_of(close, "key");
    REQUIRE(in);
    CHECK_ROW(337, std::abs(in->aside_m) * scale);
}

TEST_CASE("A low key near the lens axis throws a shadow in the picture", "[review][strays]") {
    Set set = before_wall(12.0);
    const Landmarks marks = studio_of(set)->subject->landmarks;
    const Vec3 head = 0.5 * (marks.vertex + marks.menton);
    set.lights = {light_at("key", "reflector-18", head + 2.8 * direction_from({16.0, 2.0}), head)};
    const Review review = quick_review(set);
    REQUIRE(shadow_of(review, "key"));
    CHECK(shadow_of(review, "key")->in_frame);
    CHECK(shadow_of(review, "key")->depth_stops > 1.0);
    const Finding* shadow = finding(review, "head-shadow", "key");
    REQUIRE(shadow);
    CHECK(shadow->remedy.find("round from the line") != std::string::npos);
    // What the finding advises: further round.
    set.lights = {light_at("key", "reflector-18", head + 2.8 * direction_from({42.0, 2.0}), head)};
    CHECK_FALSE(finding(quick_review(set), "head-shadow"));
}

TEST_CASE("Two lamps light a paper as evenly as their places and aims allow", "[review][strays]") {
    // Case F6.
    CHECK_ROW(338, uneven_stops(1.6, 1.2, 0.0));
    CHECK_ROW(339, uneven_stops(1.6, 1.2, 1.0));
    CHECK_ROW(340, uneven_stops(1.8, 1.8, 0.45));
    CHECK_ROW(341, uneven_stops(1.6, 1.2, -0.9));
    CHECK_ROW(342, uneven_stops(1.6, 1.2, 0.0, false));
}
