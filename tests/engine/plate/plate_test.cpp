// Contact sheets: the sets behind them hold together, and the sheet shows them.
#include "engine/plate/plate.h"
#include "engine/ui/lettering.h"
#include "sim/light/stops.h"
#include "sim/review/review.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace keystead;
using ui::Lettering;

namespace {

Review quick(const Studio& studio) {
    ReviewOptions options;
    options.margins = false;
    return review_set(studio, options);
}

int inked(const RgbaImage& picture, int left, int top, int right, int bottom) {
    int count = 0;
    for (int y = top; y < bottom; ++y)
        for (int x = left; x < right; ++x)
            count +=
                picture.pixels[4 * static_cast<std::size_t>(y * picture.width + x)] > 0 ? 1 : 0;
    return count;
}

} // namespace

TEST_CASE("A man's row of the pattern plate bears the five names, from keys on stands that stand",
          "[plate]") {
    // The names are the trade's for these directions, as in the tests of the patterns themselves.
    const Plate plate = make_plate(PlateKind::patterns, false);
    const char* names[] = {"butterfly", "loop", "rembrandt", "split", "rim"};
    std::shared_ptr<const Studio> studio;
    for (std::size_t i = 0; i < 5; ++i) {
        const PlateCell& cell = plate.cells[i];
        studio = lit_studio(cell, studio);
        const Review review = quick(*studio);
        INFO(names[i]);
        CHECK(std::string(name_of(review.lights[0].pattern_if_alone)) == names[i]);
        CHECK(review.lights[0].face_angles.azimuth_deg == Approx(cell.key.azimuth_deg).margin(0.5));
        CHECK(review.lights[0].face_angles.elevation_deg ==
              Approx(cell.key.elevation_deg).margin(0.5));
        CHECK(review.lights[0].distance_to_face_m == Approx(1.4).margin(0.01));
        // The camera takes a little of the umbrella behind it away.
        CHECK(stops_between_f_numbers(*review.lights[1].f_number, *review.lights[0].f_number) ==
              Approx(*cell.fill_below_stops).margin(0.15));
        for (const SupportReview& support : review.supports)
            CHECK(support.stability.verdict != Verdict::unstable);
        for (const FrameReview& seen : review.frame)
            if (seen.id == "key" || seen.id == "fill") CHECK(seen.in_frame_percent == 0.0);
    }
}

TEST_CASE("A plate has one cell a row and column, and its sets are the kind's", "[plate]") {
    for (const PlateKind kind : {PlateKind::heads, PlateKind::patterns}) {
        const Plate plate = make_plate(kind, true);
        CHECK(plate.cells.size() == plate.rows.size() * plate.columns.size());
        CHECK(plate.rows.size() >= 2);
        for (const PlateCell& cell : plate.cells) CHECK(cell.hard);
    }
    CHECK(make_plate(PlateKind::heads, false).columns.size() == 12);
    CHECK_FALSE(make_plate(PlateKind::heads, false).cells[0].hard);
}

TEST_CASE("Turning the sitter leaves the plate's key where it stood", "[plate]") {
    Plate plate = make_plate(PlateKind::heads, false);
    const auto front = lit_studio(plate.cells[0]), profile = lit_studio(plate.cells[2], front);
    CHECK(plate.cells[2].turn_deg == 90.0);
    CHECK(profile->form == front->form);
    CHECK(glm::distance(profile->emitters[0].centre_m, front->emitters[0].centre_m) < 1e-9);
    CHECK(profile->emitters[0].exitance == Approx(front->emitters[0].exitance));
}

TEST_CASE("A sheet shows every cell and its words, and can be stopped", "[plate]") {
    Plate plate = make_plate(PlateKind::patterns, false);
    plate.rows.resize(1);
    plate.columns.resize(2);
    plate.cells.resize(2);
    PlateOptions options;
    options.cell_width_px = 24;
    options.cell_height_px = 30;
    options.samples = 1;
    options.bounce_paths = 1;
    const Result<RgbaImage> drawn = draw_plate(plate, options);
    INFO((drawn ? std::string() : drawn.problem().message()));
    REQUIRE(drawn);
    CHECK(drawn.value().width > 2 * 24);
    CHECK(drawn.value().height > 30);
    int bright = 0;
    for (std::size_t i = 0; i < drawn.value().pixels.size(); i += 4)
        bright += drawn.value().pixels[i] > 60 ? 1 : 0;
    CHECK(bright > 300);
    options.progress = [](double) { return false; };
    CHECK_FALSE(draw_plate(plate, options));
}

TEST_CASE("Letters stay within their line, and nothing is written outside the picture", "[plate]") {
    const Lettering letters(1.0F);
    RgbaImage picture;
    picture.width = 200;
    picture.height = 40;
    picture.pixels.assign(4UL * 200 * 40, 0);
    const int width = letters.width_px("Rembrandt", Lettering::Face::body);
    const int line = letters.line_px(Lettering::Face::body);
    CHECK(width > 40);
    CHECK(letters.width_px("°", Lettering::Face::body) > 0);
    letters.write(picture, 20, 10, "Rembrandt", Lettering::Face::body, {255, 255, 255});
    CHECK(inked(picture, 0, 0, 200, 40) > 100);
    CHECK(inked(picture, 20, 10, 21 + width, 10 + line) == inked(picture, 0, 0, 200, 40));
    letters.write(picture, -30, -5, "outside", Lettering::Face::title, {255, 255, 255});
    letters.write(picture, 190, 35, "outside", Lettering::Face::title, {255, 255, 255});
}
