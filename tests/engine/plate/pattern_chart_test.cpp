// The drawn chart: its lines, its letters' places and its tints, on maps made by hand.
#include "engine/plate/area_label.h"
#include "engine/plate/chart_paint.h"
#include "engine/plate/pattern_chart.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

using namespace keystead;

namespace {

/// Rembrandt within 40 degrees of the nose's azimuth, split beyond; the left eye sees all of the
/// lamp within 60 degrees, the right one nothing.
PatternMap two_areas() {
    PatternMap map;
    map.distance_m = 1.3;
    map.columns = 361;
    map.rows = 146;
    map.low_deg = -60.0;
    map.key = {20.0, 30.0};
    for (int row = 0; row < map.rows; ++row)
        for (int column = 0; column < map.columns; ++column) {
            const double away = std::abs(map.angles_at(column, row).azimuth_deg);
            const bool inner = away <= 40.0;
            map.names.push_back(inner ? Pattern::rembrandt : Pattern::split);
            map.beyond.push_back(inner ? Pattern::split : Pattern::rembrandt);
            map.margin_deg.push_back(static_cast<float>(std::abs(away - 40.0)));
            map.eye_seen[0].push_back(away < 60.0 ? 1.0F : 0.0F);
            map.eye_seen[1].push_back(0.0F);
        }
    return map;
}

double luminance(const glm::u8vec3& c) {
    return 0.2126 * c.r + 0.7152 * c.g + 0.0722 * c.b;
}

glm::u8vec3 pixel(const RgbaImage& picture, float x, float y) {
    const std::size_t at = 4 * (static_cast<std::size_t>(y) * std::size_t(picture.width) +
                                static_cast<std::size_t>(x));
    return {picture.pixels[at], picture.pixels[at + 1], picture.pixels[at + 2]};
}

} // namespace

TEST_CASE("A level's line runs where the field has that value", "[plate][chart]") {
    // Distance from the middle: the level's line is a circle, and as long as one.
    constexpr int side = 41;
    std::vector<float> field;
    for (int row = 0; row < side; ++row)
        for (int column = 0; column < side; ++column)
            field.push_back(std::hypot(float(column - 20), float(row - 20)));
    const auto lines = level_lines(field, side, side, 12.3F);
    REQUIRE(lines.size() == 1);
    float length = 0.0F;
    for (std::size_t i = 0; i < lines[0].size(); ++i) {
        CHECK(glm::distance(lines[0][i], glm::vec2(20.0F)) == Approx(12.3).margin(0.03));
        if (i > 0) length += glm::distance(lines[0][i - 1], lines[0][i]);
    }
    CHECK(length == Approx(2.0 * 3.14159265 * 12.3).epsilon(0.01));
    CHECK(glm::distance(lines[0].front(), lines[0].back()) < 1e-4F); // closed
}

TEST_CASE("A line that leaves the grid is followed from one end to the other", "[plate][chart]") {
    std::vector<float> field;
    for (int row = 0; row < 10; ++row)
        for (int column = 0; column < 10; ++column) field.push_back(float(column));
    const auto lines = level_lines(field, 10, 10, 4.25F);
    REQUIRE(lines.size() == 1);
    REQUIRE(lines[0].size() == 10);
    for (const glm::vec2& point : lines[0]) CHECK(point.x == Approx(4.25));
    CHECK(std::abs(lines[0].front().y - lines[0].back().y) == Approx(9.0));
}

TEST_CASE("A name is put where its box lies wholly in its area", "[plate][chart]") {
    const PatternMap map = two_areas();
    for (const NamedArea& area : areas_of(map)) {
        const auto place = room_for(map, area, 20, 4);
        REQUIRE(place);
        for (int dx = -20; dx <= 20; ++dx)
            for (int dy = -4; dy <= 4; ++dy)
                CHECK(map.names[map.place_at(place->x + dx, place->y + dy)] == area.name);
    }
    const std::vector<NamedArea> areas = areas_of(map);
    for (const NamedArea& area : areas)
        if (area.name == Pattern::rembrandt) CHECK_FALSE(room_for(map, area, 41, 4));
}

TEST_CASE("The tints keep their order without colour", "[plate][chart]") {
    // From the flattest light to the most of the face in shadow, with a step that the eye sees in
    // print: at least a twentieth of white.
    const Pattern order[] = {Pattern::flat, Pattern::butterfly, Pattern::loop, Pattern::rembrandt,
                             Pattern::split};
    for (std::size_t i = 1; i < std::size(order); ++i)
        CHECK(luminance(tint_of(order[i - 1])) - luminance(tint_of(order[i])) > 255.0 / 20.0);
    // Letters on the darkest: at least 4.5 to 1 (WCAG 2, contrast minimum).
    const auto linear = [](double code) { return std::pow(code / 255.0, 2.2); };
    CHECK((linear(luminance(tint_of(Pattern::split))) + 0.05) /
              (linear(luminance(chart_colour::ink)) + 0.05) >
          4.5);
}

TEST_CASE("The chart paints each area in its tint, and the key where it stands", "[plate][chart]") {
    const PatternMap map = two_areas();
    FineCanvas canvas(800, 500, chart_colour::paper);
    const ChartFrame frame{map, 40, 20, 760, 460};
    paint_areas(canvas, frame, 1.0F);
    paint_key(canvas, key_place(frame), 1.0F);
    const RgbaImage picture = canvas.averaged();
    REQUIRE(picture.width == 800);
    REQUIRE(picture.height == 500);
    CHECK(pixel(picture, frame.x(0), frame.y(0)) == tint_of(Pattern::rembrandt));
    CHECK(pixel(picture, frame.x(50), frame.y(0)) == tint_of(Pattern::split));
    CHECK(pixel(picture, frame.x(20), frame.y(30)) == chart_colour::ink);
    CHECK(luminance(pixel(picture, frame.x(40.5), frame.y(0))) < 120.0); // the border
    CHECK(pixel(picture, 10, 10) == chart_colour::paper);
    // Hatched where both eyes are dark.
    int darker = 0;
    for (float x = frame.x(100); x < frame.x(140); x += 1.0F)
        darker +=
            luminance(pixel(picture, x, frame.y(0))) < luminance(tint_of(Pattern::split)) - 3.0 ? 1
                                                                                                : 0;
    CHECK(darker >= 5);
}

TEST_CASE("The plate is as large as asked for and says what it shows", "[plate][chart]") {
    PatternChart chart{two_areas(), "Title", "subtitle"};
    const RgbaImage picture = draw_pattern_chart(chart, 900, 560);
    CHECK(picture.width == 900);
    CHECK(picture.height == 560);
    const auto ink_in = [&](int left, int top, int right, int bottom) {
        int count = 0;
        for (int y = top; y < bottom; ++y)
            for (int x = left; x < right; ++x)
                count += luminance(pixel(picture, float(x), float(y))) < 128.0 ? 1 : 0;
        return count;
    };
    CHECK(ink_in(0, 0, 900, 40) > 20);    // the title
    CHECK(ink_in(0, 535, 900, 560) > 20); // the legend
    // The same chart twice is the same picture.
    CHECK(draw_pattern_chart(chart, 900, 560).pixels == picture.pixels);
}
