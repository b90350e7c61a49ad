#include "engine/ui/layout.h"
#include "engine/ui/lights_strip.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <initializer_list>
#include <string>
#include <vector>

using namespace keystead::ui;

namespace {

bool overlaps(const Rect& a, const Rect& b) {
    return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom();
}

std::vector<Rect> parts(const Layout& l) {
    return {l.menu, l.lens, l.plan, l.elevation, l.panel, l.strip, l.findings};
}

/// What is wrong with the tiling, or nothing.
std::string trouble_of(const LayoutInput& in) {
    const std::vector<Rect> all = parts(arrange(in));
    float area = 0.0F;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const std::string part = "part " + std::to_string(i);
        if (all[i].w < 0.0F || all[i].h < 0.0F) return part + " is negative";
        if (all[i].x < 0.0F || all[i].y < 0.0F || all[i].right() > in.width ||
            all[i].bottom() > in.height)
            return part + " leaves the window";
        area += all[i].w * all[i].h;
        for (std::size_t k = i + 1; k < all.size(); ++k)
            if (overlaps(all[i], all[k])) return part + " overlaps part " + std::to_string(k);
    }
    // No gaps either: the parts add up to the window.
    return std::abs(area - in.width * in.height) > 1e-3F * in.width * in.height ? "a gap" : "";
}

void check_tiling(const LayoutInput& in) {
    const std::string trouble = trouble_of(in);
    INFO("window " << in.width << " x " << in.height << " at " << in.scale);
    REQUIRE(trouble == "");
}

} // namespace

TEST_CASE("The window's parts tile it whatever its size, scale and dividers") {
    LayoutInput in;
    for (const float width :
         {1.0F, 200.0F, 641.0F, 800.0F, 1280.0F, 1366.0F, 1919.0F, 2560.0F, 5120.0F})
        for (const float height : {1.0F, 90.0F, 333.0F, 500.0F, 720.0F, 1080.0F, 2160.0F})
            for (const float scale : {1.0F, 1.25F, 1.5F, 2.0F, 3.0F})
                for (const Arrangement arrangement :
                     {Arrangement::upright, Arrangement::landscape, Arrangement::row})
                    for (const int rows : {0, 2, 5}) {
                        in.width = width, in.height = height, in.scale = scale;
                        in.arrangement = arrangement, in.findings_rows = rows;
                        in.frame_aspect = arrangement == Arrangement::upright ? 2.0F / 3.0F : 1.5F;
                        for (const auto& split :
                             {std::optional<float>(), std::optional<float>(0.0F),
                              std::optional<float>(0.97F)}) {
                            in.splits = {split, split};
                            check_tiling(in);
                        }
                    }
}

TEST_CASE("Every view keeps a usable size at 1280 by 720 and above") {
    LayoutInput in;
    for (const Arrangement arrangement :
         {Arrangement::upright, Arrangement::landscape, Arrangement::row})
        for (const auto& size : {std::pair{1280.0F, 720.0F}, std::pair{1920.0F, 1080.0F}}) {
            in.arrangement = arrangement, in.width = size.first, in.height = size.second;
            const Layout l = arrange(in);
            for (const Rect& view : {l.lens, l.plan, l.elevation}) {
                CHECK(view.w >= 240.0F);
                CHECK(view.h >= 180.0F);
            }
            CHECK(l.panel.w >= 312.0F);
        }
}

TEST_CASE("A divider dragged somewhere ends up there") {
    LayoutInput in;
    const Layout before = arrange(in);
    const float wanted = before.dividers[0].line.x + 30.0F;
    in.splits.main = dragged_fraction(before.dividers[0], wanted, 1.0F);
    CHECK(arrange(in).dividers[0].line.x == Approx(wanted));
    in.splits.main = dragged_fraction(before.dividers[0], -500.0F, 1.0F);
    CHECK(arrange(in).lens.w >= 120.0F);
}

TEST_CASE("The lights' cells fill the strip up to their greatest width") {
    CHECK(strip_cell_width(1280.0F, 4, 1.0F) == 320.0F);
    CHECK(strip_cell_width(1920.0F, 4, 1.0F) == 320.0F);
    CHECK(strip_cell_width(1280.0F, 8, 1.0F) == 160.0F);
    CHECK(strip_cell_width(1280.0F, 30, 1.0F) == 120.0F);
}
