// Whites of the face, fall-off down the body, softness of the nose's shadow.
#include "tests/sim/review/bench_sets.h"

#include "sim/light/reflection_text.h"
#include "support/helpers/checks.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace bench;

namespace {

/// One light so far out in front of the face and so far above it.
Set lit_from(double out_m, double up_m, const Vec3& target_m, ModifierShape shape, double size_m) {
    Set set = plain_set();
    set.background.kind = BackgroundKind::none;
    // Beside the stand, which would hide the face.
    set.camera.position_m = {0.8, 1.58, 2.3};
    const Vec3 face = studio_of(set)->subject->landmarks.face;
    const Vec3 centre = face + Vec3(0.0, up_m, out_m);
    const Vec3 target = target_m == Vec3(0.0) ? face : target_m;
    Light key =
        light_at("key", shape == ModifierShape::bare ? "bare" : "reflector-18", centre, target);
    key.modifier.shape = shape;
    key.modifier.beam_exponent = 1.0;
    if (shape != ModifierShape::bare) { // a bare tube keeps its size and stands clear of its head
        key.modifier.width_m = key.modifier.height_m = size_m;
        key.modifier.lip_m = key.modifier.depth_m = 0.0;
    }
    // The face is where it was asked for whatever the depth.
    const Vec3 bracket = centre - face_ahead_m(key) * glm::normalize(target - centre);
    key.support.base.position_m = {bracket.x, bracket.z};
    key.support.column.height_m = bracket.y;
    set.lights = {key};
    return set;
}

/// Stops of the key at the feet, the sitter made so tall that the face is metered at 1.65 m.
double at_feet(Set set, double aim_m) {
    set.lights[0].aim.kind = AimKind::point;
    set.lights[0].aim.point_m = Vec3(0.0, aim_m, studio_of(set)->subject->landmarks.face.z);
    const Review review = quick_review(set);
    REQUIRE(review.exposure.body.size() == 4);
    CHECK(review.exposure.body[0].place == "head");
    CHECK(review.exposure.body[0].key_stops == 0.0);
    CHECK(review.exposure.body[3].place == "feet");
    REQUIRE(review.exposure.body[3].key_stops);
    return *review.exposure.body[3].key_stops;
}

} // namespace

TEST_CASE("Gloss at a grazing angle is two stops and a half over gloss at 45 degrees",
          "[review][tones]") {
    // Case E5.
    const auto mirrored = [](double angle_deg) {
        return 0.04 + 0.96 * reflection::grazing(std::cos(radians(angle_deg)));
    };
    CHECK_ROW(325, 100.0 * mirrored(45));
    CHECK_ROW(326, 100.0 * mirrored(75));
    CHECK_ROW(327, std::log2(mirrored(75) / mirrored(45)));
}

TEST_CASE("The light falls off from head to feet as distance and aim say", "[review][tones]") {
    // Case G3: light 2.2 m high, 1.2 m out.
    const auto lit = [](ModifierShape shape) {
        Set set = lit_from(1.2, 0.55, Vec3(0.0), shape, 0.05);
        const double face_m = studio_of(set)->subject->landmarks.face.y;
        set.subject.stature_m += 1.65 - face_m;
        CHECK(studio_of(set)->subject->landmarks.face.y == Approx(1.65).margin(0.02));
        set.lights[0].support.column.height_m += 1.65 - face_m;
        return set;
    };
    CHECK_ROW(329, at_feet(lit(ModifierShape::disc), 1.65));
    CHECK_ROW(330, at_feet(lit(ModifierShape::disc), 0.5));
    CHECK_ROW(328, at_feet(lit(ModifierShape::bare), 1.65));
}

TEST_CASE("The edge of the nose's shadow grows with the lamp and shrinks with its distance",
          "[review][tones]") {
    // Case H5, for a nose 25 mm proud: this sitter's own is scaled to it.
    const auto edge_mm = [](double size_m, double out_m) {
        Set set = lit_from(out_m, 0.0, Vec3(0.0), ModifierShape::rectangle, size_m);
        const Landmarks marks = studio_of(set)->subject->landmarks;
        const double proud_mm = 1000.0 * glm::dot(marks.pronasale - marks.subnasale,
                                                  studio_of(set)->subject->head_axes[2]);
        return quick_review(set).lights[0].penumbra_mm * 25.0 / proud_mm;
    };
    CHECK_ROW(331, edge_mm(0.9, 1.52));
    CHECK_ROW(332, edge_mm(0.9, 3.02));
    CHECK_ROW(333, edge_mm(0.18, 1.52));
}

TEST_CASE("A matt 18 % face in light that reads as the camera is set lies 2.5 stops under white",
          "[review][tones]") {
    // Source: log2 0.18 = -2.47; the brightest places face the lamp.
    Set set = lit_from(2.0, 0.5, Vec3(0.0), ModifierShape::rectangle, 0.6);
    set.subject.grey_card = true;
    const Review first = quick_review(set);
    make_read(set.lights[0], light_of(first, "key"), exact_f_number(set.camera.f_number));
    const Review review = quick_review(set);
    REQUIRE(review.exposure.clipped);
    CHECK(review.exposure.clipped->percent == 0.0);
    CHECK(review.exposure.clipped->brightest_stops == Approx(std::log2(0.18)).margin(0.15));
    CHECK_FALSE(finding(review, "skin-clips"));
}

TEST_CASE("A bleached face is a finding, and gone with the stops that it names",
          "[review][tones]") {
    Set set = lit_from(1.5, 0.5, Vec3(0.0), ModifierShape::rectangle, 0.6);
    const Review first = quick_review(set);
    make_read(set.lights[0], light_of(first, "key"), exact_f_number(set.camera.f_number));
    const Review right = quick_review(set);
    REQUIRE(right.exposure.clipped);
    INFO(right.exposure.clipped->percent << " % white as metered");
    CHECK(right.exposure.clipped->percent < 5.0);
    set.lights[0].head.power_stops_below -= 2.0;
    const Review hot = quick_review(set);
    const Finding* found = finding(hot, "skin-clips", "key");
    REQUIRE(found);
    CHECK(found->level == Level::warning);
    REQUIRE(hot.exposure.clipped->stops_less);
    REQUIRE_FALSE(found->mend.edits.empty());
    CHECK_FALSE(finding(quick_review(mended(set, *found)), "skin-clips"));
    CHECK(parse_json(review_json(hot)).value()["exposure"]["clipped_percent"].get<double>() > 5.0);
    CHECK(review_text(hot).find("pure white") != std::string::npos);
}

TEST_CASE("Oily skin glints where dry skin does not, and a bigger face of light glints less",
          "[review][tones]") {
    // Source: a mirror shows the source's own luminance, which falls with its area for one reading.
    const auto brightest = [](double oil, double size_m) {
        Set set = lit_from(1.5, 0.5, Vec3(0.0), ModifierShape::rectangle, size_m);
        set.subject.skin_oil = oil;
        const Review first = quick_review(set);
        make_read(set.lights[0], light_of(first, "key"), exact_f_number(set.camera.f_number));
        return quick_review(set).exposure.clipped->brightest_stops;
    };
    CHECK(brightest(1.0, 0.3) > brightest(0.0, 0.3) + 0.2);
    CHECK(brightest(1.0, 0.3) > brightest(1.0, 1.2) + 0.2);
}
