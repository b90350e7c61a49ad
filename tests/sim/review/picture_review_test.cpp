// Outline, background, gear in the frame, room, light into the lens.
#include "tests/sim/review/bench_sets.h"

#include "sim/review/tone.h"
#include "support/helpers/checks.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace bench;

namespace {

double spill_on(const Review& review, const std::string& light, const std::string& onto) {
    for (const SpillReview& spill : review.spill)
        if (spill.light == light && spill.onto == onto) return spill.stops_from_key;
    return -99.0;
}

const SeparationReview* at_place(const Review& review, const std::string& place) {
    for (const SeparationReview& s : review.separation)
        if (s.place == place) return &s;
    return nullptr;
}

} // namespace

TEST_CASE("A 90 % paper comes out lighter and darker stop by stop as the curve says",
          "[review][tone]") {
    // Case F1's ladder. Source: IEC 61966-2-1, closed form.
    const double codes[] = {243, 179, 130, 94, 67, 47};
    for (int stop = 0; stop < 6; ++stop)
        CHECK(code_8bit(0.90 * std::exp2(-stop)) == Approx(codes[stop]).margin(1.0));
    CHECK(code_8bit(0.18) == Approx(117.65).margin(0.05));
    CHECK_ROW(186, lightness(0.18));
    CHECK_ROW(187, lightness(0.36));
    CHECK_ROW(184, stops_from_card(0.85 * (1.2 * 1.2) / (3.2 * 3.2)));
    CHECK(stops_from_card(0.0) == -12.0);
}

TEST_CASE("A stop parts, a tenth merges, and in the deepest black a stop is not enough",
          "[review][tone]") {
    CHECK(edge_verdict(0.05, 0.10) == EdgeVerdict::parts);
    CHECK(edge_verdict(0.10, 0.107) == EdgeVerdict::merges);
    CHECK(edge_verdict(0.001, 0.0022) == EdgeVerdict::merges);
    CHECK(edge_verdict(0.10, 0.14) == EdgeVerdict::weak);
    CHECK(edge_verdict(0.14, 0.10) == EdgeVerdict::weak);
}

TEST_CASE("Paper lit by a bare lamp darkens with the square of its distance", "[review][picture]") {
    // Source: inverse square law and cosine, at the middle of the paper, where the camera looks
    // past the head: a small lamp on the camera's axis from high above, paper far behind.
    Set set = plain_set();
    set.room.behind_subject_m = 6.0;
    set.room.depth_m = 12.0;
    set.background.sweep_m = 0.0;
    set.background.width_m = 6.0;
    set.camera.f_number = 5.6;
    set.lights.push_back(light_at("key", "reflector-18", {0.0, 3.0, 1.2}, {0, 1.6, 0.05}));
    set.lights[0].modifier.beam_exponent = 1.0;
    for (const double behind : {2.0, 4.0}) {
        set.background.distance_m = behind;
        const Review review = quick_review(set);
        REQUIRE(review.background.stops_from_key);
        // Without gathering, the reflector radiates as a Lambertian disc: cosine at the lamp,
        // cosine at the paper.
        const Vec3 lamp = review.lights[0].position_m;
        const Vec3 face = studio_of(set)->subject->landmarks.face;
        const Vec3 beam = studio_of(set)->emitters[0].axes[2];
        const Vec3 to_face = face - lamp, to_paper = Vec3(0.0, 1.5, -behind) - lamp;
        const auto leaves = [&](const Vec3& way) { return glm::dot(glm::normalize(way), beam); };
        const double at_face = leaves(to_face) / glm::dot(to_face, to_face);
        const double at_paper =
            leaves(to_paper) * -glm::normalize(to_paper).z / glm::dot(to_paper, to_paper);
        INFO(behind << " m behind");
        CHECK(*review.background.stops_from_key ==
              Approx(std::log2(at_paper / at_face)).margin(0.25));
    }
}

TEST_CASE("A hair light in the top of the frame is found, and not once it is lifted out",
          "[review][picture]") {
    // Case E4: box 0.30 m tall at z -0.6, camera at 1.6 m height, 85 mm upright, 3 m away. The
    // frame's top is 1.6 + 3.6·18/85 = 2.36 m there. Source: similar triangles.
    Set set = plain_set();
    set.camera.position_m = {0.0, 1.6, 3.0};
    set.camera.aim_m = {0.0, 1.6, 0.0};
    for (const double centre : {2.35, 2.56}) {
        Light hair = light_at("hair", "strip-30x90", {0, centre, -0.6}, {0, centre, 1.0});
        hair.modifier.width_m = 0.90;
        hair.modifier.height_m = 0.30;
        // Boomed in from the side, level with the box.
        hair.support = find_entry(catalogue().supports, "boom-300")->value;
        hair.support.column.height_m = centre;
        hair.support.base.position_m = {-1.9, -0.6 - face_ahead_m(hair)};
        hair.support.base.turn_deg = 90.0;
        hair.support.arm->reach_m = 1.9;
        set.lights = {hair};
        const Review review = quick_review(set);
        INFO("centre at " << centre);
        // The lamp behind the box has its own story; the case is about the box.
        const bool shows =
            std::any_of(review.frame.begin(), review.frame.end(),
                        [](const FrameReview& f) { return f.part == "face" || f.part == "shell"; });
        CHECK(shows == (centre < 2.5));
    }
}

TEST_CASE("A rim that looks past the head is kept off the lens by a grid that cuts in time",
          "[review][picture]") {
    // Case E1: 24.8° between the rim's beam and the lens. Source: angle between two vectors.
    Set set = plain_set();
    set.camera.position_m = {0.0, 1.6, 3.0};
    set.camera.aim_m = {0.0, 1.6, 0.0};
    set.lights.push_back(light_at("key", "octa-90", {0.9, 2.2, 1.0}, {0, 1.59, 0.08}));
    set.lights.push_back(light_at("rim", "reflector-18", {1.2, 2.2, -1.5}, {0, 1.65, 0}));
    Modifier& rim = set.lights[1].modifier;
    const auto with_cut = [&](double cut_deg) {
        rim.grid = Grid{};
        rim.grid->wall_reflection = 0.0;
        rim.grid->cell_depth_m = 0.020;
        rim.grid->cell_width_m = 0.020 * std::tan(radians(cut_deg));
        return quick_review(set);
    };
    CHECK(spill_on(with_cut(20.0), "rim", "lens") == -99.0);
    CHECK(spill_on(with_cut(27.0), "rim", "lens") > -99.0);
    rim.grid.reset();
    const Review open = quick_review(set);
    CHECK(spill_on(open, "rim", "lens") > spill_on(with_cut(27.0), "rim", "lens"));
    const Finding* flare = finding(open, "light-into-lens", "rim");
    REQUIRE(flare);
    CHECK(flare->message.find("25°") != std::string::npos);
}

TEST_CASE("An octa at 45° over a standing sitter does not fit under 2.4 m", "[review][picture]") {
    // Case B1: eye 1.69 m, 0.9 m octa 1.2 m away at 45°: its upper rim is at
    // 1.69 + 1.2 sin 45 + 0.45 cos 45 = 2.86 m. Source: trigonometry.
    Set set = plain_set();
    set.room.ceiling_m = 2.4;
    const Vec3 eye(0, 1.69, 0.08);
    set.lights.push_back(light_at("key", "octa-90", eye + 1.2 * direction_from({0, 45}), eye));
    const Review review = quick_review(set);
    REQUIRE(finding(review, "through-ceiling", "key"));
    REQUIRE_FALSE(review.room.empty());
    CHECK(review.room[0].nearest == "ceiling");
    CHECK(review.room[0].clearance_m < 2.4 - 2.86 + 0.01);
    set.room.ceiling_m = 3.6;
    CHECK_FALSE(finding(quick_review(set), "through-ceiling"));
}

TEST_CASE(
    "A low gridded head behind the sitter lights the paper, shows nothing of itself and parts "
    "the outline",
    "[review][picture]") {
    // Case L7, common practice.
    Set set = plain_set();
    set.background.reflectance = {Vec3(0.36)};
    set.lights.push_back(light_at("key", "octa-90", {0.8, 2.2, 1.1}, {0, 1.59, 0.08}));
    set.lights[0].head.power_stops_below = 3.0;
    const Review before = quick_review(set);
    set.lights.push_back(
        light_at("glow", "reflector-18-grid-29", {0.0, 0.75, -0.75}, {0, 1.45, -2.0}, "low-90"));
    const Review wide = quick_review(set);
    CHECK_FALSE(finding(wide, "in-frame", "glow"));
    CHECK(*wide.background.value_8bit > *before.background.value_8bit + 10.0);
    REQUIRE(at_place(wide, "head_top"));
    for (const char* place : {"hair_left", "hair_right", "shoulder_left", "shoulder_right"})
        if (const SeparationReview* s = at_place(wide, place)) {
            INFO(place << " " << s->difference_stops << " stops");
            CHECK(s->verdict == "parts");
        }
    // A narrower grid makes a smaller glow: less light on the paper in all.
    set.lights[1].modifier = find_entry(catalogue().modifiers, "reflector-18-grid-17")->value;
    CHECK(spill_on(quick_review(set), "glow", "background") <
          spill_on(wide, "glow", "background") - 0.3);
}

TEST_CASE("Dark hair before black cloth merges until a light from behind edges it",
          "[review][picture]") {
    Set set = plain_set();
    set.background.kind = BackgroundKind::cloth;
    set.background.reflectance = {Vec3(0.012)};
    set.subject.hair = {Vec3(0.006)};
    set.lights.push_back(light_at("key", "octa-90", {0.6, 2.1, 1.3}, {0, 1.59, 0.08}));
    set.lights[0].head.power_stops_below = 3.0;
    const Review dark = quick_review(set);
    REQUIRE(at_place(dark, "head_top"));
    CHECK(at_place(dark, "head_top")->verdict != "parts");
    REQUIRE(finding(dark, "hair-merges"));
    CHECK(finding(dark, "hair-merges")->message.find("the cloth") != std::string::npos);
    set.lights.push_back(light_at("hair", "strip-30x90", {0.0, 2.6, -0.8}, {0, 1.75, 0.0}));
    const Review edged = quick_review(set);
    CHECK(at_place(edged, "head_top")->inside_stops >
          at_place(dark, "head_top")->inside_stops + 2.0);
}
