#include "engine/ui/label_place.h"
#include "engine/ui/triangulate.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

using namespace keystead::ui;

TEST_CASE("Labels of things close together do not cover each other") {
    LabelMemory memory;
    LabelPlacer labels({0, 0, 600, 400}, memory);
    std::vector<Rect> placed;
    for (int i = 0; i < 6; ++i) {
        const Rect about{280.0F + 12.0F * static_cast<float>(i), 200.0F, 10, 10};
        placed.push_back(labels.place("light " + std::to_string(i), about, 60, 20, 6, {1, 0}));
    }
    for (std::size_t i = 0; i < placed.size(); ++i)
        for (std::size_t k = i + 1; k < placed.size(); ++k) {
            INFO(i << " and " << k);
            CHECK_FALSE(overlap(placed[i], placed[k]));
        }
}

TEST_CASE("A label stays on its sheet") {
    const Rect sheet{0, 0, 300, 200};
    for (const Rect& about : {Rect{2, 2, 8, 8}, Rect{290, 190, 8, 8}, Rect{290, 2, 8, 8}}) {
        LabelMemory memory;
        LabelPlacer labels(sheet, memory);
        const Rect box = labels.place("tag", about, 80, 20, 6, {1, 0});
        CHECK(box.x >= sheet.x);
        CHECK(box.y >= sheet.y);
        CHECK(box.right() <= sheet.right());
        CHECK(box.bottom() <= sheet.bottom());
    }
}

TEST_CASE("A label keeps its place while nothing gets worse") {
    LabelMemory memory;
    const Rect sheet{0, 0, 600, 400};
    Rect first;
    {
        LabelPlacer labels(sheet, memory);
        first = labels.place("tag", {300, 200, 20, 20}, 40, 20, 6, {1, 0.1F});
    }
    LabelPlacer labels(sheet, memory);
    const Rect second = labels.place("tag", {300, 200, 20, 20}, 40, 20, 6, {1, -0.1F});
    CHECK(first.x == second.x);
    CHECK(first.y == second.y);
}

TEST_CASE("A line through the preferred place sends the label elsewhere") {
    LabelMemory memory;
    LabelPlacer labels({0, 0, 600, 400}, memory);
    labels.avoid_line({310, 210}, {600, 210});
    const Rect box = labels.place("tag", {300, 200, 20, 20}, 60, 16, 6, {1, 0});
    const bool crossed = box.y < 210 && box.bottom() > 210 && box.right() > 320;
    CHECK_FALSE(crossed);
}

TEST_CASE("The triangles of a concave outline add up to its area") {
    // A U: 3 by 3 less a notch of 1 by 2, area 7; both windings.
    std::vector<ImVec2> u{{0, 0}, {1, 0}, {1, 2}, {2, 2}, {2, 0}, {3, 0}, {3, 3}, {0, 3}};
    for (int pass = 0; pass < 2; ++pass) {
        float area = 0.0F;
        for (const Triangle& t : triangulate(u)) {
            const ImVec2 a = u[t[0]], b = u[t[1]], c = u[t[2]];
            area += 0.5F * std::abs((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));
        }
        CHECK(area == Approx(7.0F));
        std::reverse(u.begin(), u.end());
    }
}
