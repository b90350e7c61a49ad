// What glasses mirror: the cone of a lens against the law of reflection, and findings about it.
#include "tests/sim/review/bench_sets.h"

#include "sim/portrait/lens_mirror.h"
#include "sim/review/glasses_ways.h"
#include "support/helpers/checks.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace bench;

namespace {

const Vec3 far_camera(0.0, 1.6, 1000.0);

/// A lens of 50 x 37 mm at eye height whose normal points 8 degrees down.
LensSurface lens_of(double radius_m) {
    LensSurface lens;
    lens.middle_m = {0.0, 1.6, 0.1};
    lens.axes = upright_frame(direction_from({0.0, -8.0}));
    lens.radius_m = radius_m;
    lens.half_width_m = 0.025;
    lens.half_height_m = 0.0184;
    lens.sphere_centre_m = lens.middle_m - radius_m * lens.axes[2];
    return lens;
}

/// A square of 0.9 m that looks at the lens from straight ahead and so far up.
Emitter box_at(double elevation_deg) {
    const Vec3 way = direction_from({0.0, elevation_deg});
    Emitter box;
    box.light = "key";
    box.shape = ModifierShape::rectangle;
    box.centre_m = Vec3(0.0, 1.6, 0.1) + 1.5 * way;
    box.axes = upright_frame(-way);
    box.width_m = box.height_m = 0.9;
    box.area_m2 = 0.81;
    box.exitance = 1.0;
    return box;
}

const Vec3 left(1.0, 0.0, 0.0), across(-1.0, 0.0, 0.0);

Set with_glasses(double key_elevation_deg) {
    Set set = plain_set();
    set.background.kind = BackgroundKind::none;
    set.subject.head_nod_deg = set.subject.head_roll_deg = 0.0;
    set.subject.glasses = Glasses{};
    set.subject.glasses->wrap_deg = 0.0;
    set.subject.glasses->lens_height_mm = 36.8;
    set.camera.position_m = {0.0, 1.59, 2.4};
    set.camera.aim_m = {0.0, 1.55, 0.0};
    const Vec3 eye(0, 1.59, 0.09);
    set.lights.push_back(light_at("key", "softbox-60x90",
                                  eye + 1.5 * direction_from({15.0, key_elevation_deg}), eye));
    return set;
}

} // namespace

TEST_CASE("A lens tilted 8 degrees mirrors what lies 16 below, and curvature widens it",
          "[review][glasses]") {
    // Case C8. Source: law of reflection, twice the angle between normals, by hand: radius 132 mm
    // 22 degrees across and 16 up, 88 mm 33 and 24.
    const LensSpread weak = lens_spread(lens_of(0.132), far_camera);
    CHECK(angles_of(weak.middle).elevation_deg == Approx(-16.0).margin(0.1));
    CHECK_ROW(321, weak.half_across_deg);
    CHECK_ROW(322, weak.half_up_deg);
    const LensSpread strong = lens_spread(lens_of(0.088), far_camera);
    CHECK_ROW(323, strong.half_across_deg);
    CHECK_ROW(324, strong.half_up_deg);
}

TEST_CASE("A 90 cm box at 1.5 m is out of the lens above 16 degrees, of a strong one above 24",
          "[review][glasses]") {
    // Case C8: the lens mirrors up to 16 - 16 = 0 degrees (24 - 16 = 8), the box reaches 16.7
    // below its middle.
    const auto in_lens = [](double radius_m, double elevation_deg) {
        return shows(lens_rays(lens_of(radius_m), far_camera), box_at(elevation_deg));
    };
    CHECK(in_lens(0.132, 15.0));
    CHECK_FALSE(in_lens(0.132, 18.0));
    CHECK(in_lens(0.088, 23.0));
    CHECK_FALSE(in_lens(0.088, 26.0));
    const auto rays = lens_rays(lens_of(0.132), far_camera);
    const LensSurface lens = lens_of(0.132);
    CHECK(clear_angle_deg(rays, box_at(5.0), lens.middle_m, across) == Approx(11.7).margin(1.0));
    CHECK(clear_angle_deg(rays, box_at(30.0), lens.middle_m, across) == 0.0);
    // Down is far: the box's top must pass below 32 degrees under the lens.
    CHECK(clear_angle_deg(rays, box_at(5.0), lens.middle_m, left) == Approx(53.7).margin(1.5));
    // Tipping the frame by half of what the box would have to rise does the same.
    CHECK(shows(lens_rays(tipped(lens, left, 5.0), far_camera), box_at(5.0)));
    CHECK_FALSE(shows(lens_rays(tipped(lens, left, 6.8), far_camera), box_at(5.0)));
}

TEST_CASE("A key that shows in the glasses is named, and goes when its column is raised",
          "[review][glasses]") {
    Set set = with_glasses(8.0);
    const Review low = quick_review(set);
    REQUIRE_FALSE(low.portrait.glasses.glare.empty());
    CHECK(low.portrait.glasses.lenses.size() == 2);
    CHECK(low.portrait.glasses.glare[0].source == "key");
    const Finding* glare = finding(low, "glasses-glare", "key");
    REQUIRE(glare);
    CHECK(glare->remedy.find("Raise its column by") == 0);
    CHECK(glare->remedy.find("tip the frame") != std::string::npos);
    REQUIRE(glare->mend.edits.size() == 1);
    const Review mended_set = quick_review(mended(set, *glare));
    CHECK_FALSE(finding(mended_set, "glasses-glare"));
    // As tilting the frame does.
    REQUIRE(low.portrait.glasses.clear_by_tilt_deg);
    set.subject.glasses->tilt_deg += *low.portrait.glasses.clear_by_tilt_deg;
    CHECK_FALSE(finding(quick_review(set), "glasses-glare"));
    const Json json = parse_json(review_json(low)).value();
    CHECK(json["portrait"]["glasses"]["glare"][0]["light"] == "key");
    CHECK(review_text(low).find("lens mirrors what lies") != std::string::npos);
    set.subject.glasses.reset();
    CHECK(parse_json(review_json(quick_review(set))).value()["portrait"]["glasses"].is_null());
}

TEST_CASE("A white card below the chin shows in glasses that a high key leaves clear",
          "[review][glasses]") {
    // Case C8: the usual culprit.
    Set set = with_glasses(40.0);
    CHECK_FALSE(finding(quick_review(set), "glasses-glare"));
    Panel card;
    card.id = "card";
    card.kind = PanelKind::reflector;
    card.width_m = 0.9;
    card.height_m = 0.6;
    card.position_m = {0.0, 1.15, 0.7};
    card.turn_deg = 180.0;
    card.tilt_deg = 55.0;
    card.reflectance = {Vec3(0.85)};
    set.panels = {card};
    set.camera.f_number = 2.8;
    const Review lit = quick_review(set);
    const Finding* glare = finding(lit, "glasses-glare", "card");
    REQUIRE(glare);
    CHECK(lit.portrait.glasses.glare[0].panel);
}
