// The plate of ten patterns: what the sets make is read by the simulation, nothing is drawn.
#include "engine/plate/pattern_label.h"
#include "engine/plate/plate_sets.h"
#include "sim/review/review.h"

#include <catch2/catch.hpp>
#include <set>

using namespace keystead;

namespace {

Review quick(const Studio& studio) {
    ReviewOptions options;
    options.margins = options.bounce = false;
    return review_set(studio, options);
}

void check_gear(const Studio& studio, const Review& review) {
    for (const SupportReview& support : review.supports) {
        INFO(support.id);
        CHECK(support.stability.verdict != Verdict::unstable);
    }
    for (const Light& light : studio.set.lights)
        for (const FrameReview& seen : review.frame) {
            INFO(seen.id << ", " << seen.part);
            CHECK((seen.id != light.id || seen.in_frame_percent == 0.0));
        }
    for (const Finding& finding : review.findings) {
        INFO(finding.code << ": " << finding.message);
        CHECK(finding.level != Level::danger);
    }
}

} // namespace

TEST_CASE("Ten patterns on three poses of a head are named as meant, under lights that hang and "
          "stay out of the picture",
          "[plate]") {
    // Directions are the trade's (tests/data/patterns.csv, crossed.csv); the ranges are wider.
    const Plate plate = make_plate(PlateKind::ten_patterns, false);
    REQUIRE(plate.columns.size() == 10);
    REQUIRE(plate.rows.size() == 3);
    REQUIRE(plate.cells.size() == 30);
    std::set<Pattern> patterns;
    std::shared_ptr<const Studio> studio;
    for (std::size_t i = 0; i < plate.cells.size(); ++i) {
        const PlateCell& cell = plate.cells[i];
        studio = lit_studio(cell, studio);
        const Review review = quick(*studio);
        INFO(plate.rows[i / 10] << ", " << plate.groups[i % 10] << ": " << review.portrait.note);
        REQUIRE(cell.meant);
        CHECK(std::string(name_of(review.portrait.pattern)) == name_of(*cell.meant));
        CHECK(plate.groups[i % 10] == name_of(*cell.meant));
        CHECK(pattern_label(cell, review).as_meant);
        // Carried with the head: the face sees its key where the frontal one does.
        CHECK(review.lights[0].face_angles.elevation_deg ==
              Approx(cell.key.elevation_deg).margin(0.5));
        CHECK(review.lights[0].distance_to_face_m == Approx(cell.key_distance_m).margin(0.02));
        check_gear(*studio, review);
        patterns.insert(review.portrait.pattern);
    }
    CHECK(patterns.size() == 10);
}

TEST_CASE("The camera of the ten patterns stands still while the head moves", "[plate]") {
    const Plate plate = make_plate(PlateKind::ten_patterns, false);
    const auto frontal = lit_studio(plate.cells[1]), turned = lit_studio(plate.cells[11], frontal);
    CHECK(turned->set.camera.position_m == frontal->set.camera.position_m);
    CHECK(turned->set.camera.focal_length_mm == frontal->set.camera.focal_length_mm);
    CHECK(turned->set.subject.head_turn_deg == 30.0);
    CHECK(lit_studio(plate.cells[21], turned)->set.subject.head_nod_deg == -15.0);
    // The key goes round with the head, on a stand of its own in another place.
    CHECK(glm::distance(turned->emitters[0].centre_m, frontal->emitters[0].centre_m) > 0.5);
}

TEST_CASE("A picture whose lights make another pattern than meant says both names", "[plate]") {
    PlateCell cell = make_plate(PlateKind::ten_patterns, false).cells[1];
    cell.key = {90.0, 5.0};
    const PatternLabel label = pattern_label(cell, quick(*lit_studio(cell)));
    CHECK_FALSE(label.as_meant);
    CHECK(label.text == "split, not loop");
}

TEST_CASE("A split key at the line of the ears or a little behind stays the key under a fill",
          "[plate]") {
    // Common practice: fill opens the dark half and leaves the line down the nose.
    PlateCell cell = make_plate(PlateKind::ten_patterns, false).cells[3];
    REQUIRE(cell.meant == Pattern::split);
    for (const double azimuth_deg : {85.0, 90.0, 96.0}) {
        cell.key.azimuth_deg = azimuth_deg;
        cell.fill_below_stops = 2.5;
        INFO(azimuth_deg << "°");
        const Review review = quick(*lit_studio(cell));
        CHECK(review.portrait.key == "key");
        CHECK(pattern_label(cell, review).as_meant);
    }
}

TEST_CASE("Short and broad are written under a turned head's pictures", "[plate]") {
    // The nose points to camera right: a key on that side lights the far cheek (common practice).
    PlateCell cell = make_plate(PlateKind::ten_patterns, false).cells[11];
    REQUIRE(cell.turn_deg > 0.0);
    cell.key.azimuth_deg = std::abs(cell.key.azimuth_deg);
    CHECK(pattern_label(cell, quick(*lit_studio(cell))).text == "loop, short");
    cell.key.azimuth_deg = -cell.key.azimuth_deg;
    CHECK(pattern_label(cell, quick(*lit_studio(cell))).text == "loop, broad");
    cell.turn_deg = 0.0;
    CHECK(pattern_label(cell, quick(*lit_studio(cell))).text == "loop");
}
