// The key in the eye: where its mirror image lies on the cornea and how wide it is.
#include "sim/set/set_io.h"
#include "tests/engine/render/bench.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace bench;

namespace {

constexpr int side_px = 200;
constexpr double away_m = 1.5; ///< lamp and eye, from the middle of the cornea's sphere
/// The cornea as modelled (sim/subject/eyes.cpp) and as handbooks give it: 7.7 to 7.9 mm.
constexpr double cornea_radius_m = 7.9e-3, cornea_ahead_m = 4.9e-3;

const std::shared_ptr<const Studio>& sitter() {
    static const std::shared_ptr<const Studio> studio = [] {
        const auto loaded = load_set(KEYSTEAD_SOURCE_DIR "/assets/sets/lantern-maker.json");
        REQUIRE(loaded.ok());
        Set set = loaded.value().set;
        set.lights.clear();
        set.panels.clear();
        set.camera.position_m = Vec3(1.5, 0.3, 2.0); // its body out of the way
        Subject& subject = set.subject;
        subject.head_turn_deg = subject.head_roll_deg = subject.head_nod_deg = 0.0;
        subject.hair_style = HairStyle::none;
        return make_studio(set);
    }();
    return studio;
}

Vec3 cornea_centre() {
    const Landmarks& l = sitter()->subject->landmarks;
    return l.eye_left + cornea_ahead_m * glm::normalize(l.pupil_left - l.eye_left);
}

std::shared_ptr<Studio> keyed(const Angles& lamp, double radius_m) {
    auto made = std::make_shared<Studio>(*sitter());
    const Vec3 toward = direction_from(lamp);
    made->emitters = {disc(cornea_centre() + away_m * toward, -toward, radius_m)};
    made->emitters[0].light = "key";
    made->light_keys = {0};
    return made;
}

struct Catchlight {
    Vec2 middle_mm{0.0}; ///< from the cornea's middle, to the right and up in the picture
    double width_mm = 0.0;
};

LinearImage seen(const std::shared_ptr<Studio>& studio, bool specular) {
    auto r = renderer(specular);
    r->show(studio);
    const Vec3 eye = cornea_centre() + Vec3(0.0, 0.0, away_m);
    r->look(bench::view(eye, cornea_centre(), 0.008 / away_m, side_px, side_px), side_px, side_px);
    converge(*r, 32);
    return r->read_linear();
}

/// What highlights add to the picture of the left eye, within the cornea.
Catchlight catchlight(const Angles& lamp, double radius_m) {
    const auto studio = keyed(lamp, radius_m);
    const LinearImage with = seen(studio, true), without = seen(studio, false);
    constexpr double mm_a_pixel = 16.0 / side_px;
    double sum = 0.0, most = 0.0;
    Vec2 middle(0.0);
    std::vector<double> added;
    std::vector<Vec2> places;
    for (int i = 0; i < side_px * side_px; ++i) {
        const auto k = static_cast<std::size_t>(i);
        const Vec2 at = mm_a_pixel * Vec2(i % side_px + 0.5 - side_px / 2.0,
                                          side_px / 2.0 - (i / side_px + 0.5));
        added.push_back(glm::length(at) < 5.0
                            ? static_cast<double>(with.pixels[k].g - without.pixels[k].g)
                            : 0.0);
        places.push_back(at);
        most = std::max(most, added.back());
    }
    REQUIRE(most > 0.0);
    // Lids and cheek are mirrored, too, but faintly.
    for (std::size_t k = 0; k < added.size(); ++k)
        if (added[k] > 0.5 * most) {
            sum += added[k];
            middle += added[k] * places[k];
        }
    const auto lit =
        std::count_if(added.begin(), added.end(), [&](double value) { return value > 0.5 * most; });
    return {middle / sum, std::sqrt(4.0 / pi * static_cast<double>(lit)) * mm_a_pixel};
}

} // namespace

TEST_CASE("The catchlight lies on the cornea where its normal halves the angle of eye and lamp") {
    // Source: law of reflection. Eye and lamp are as far from the middle of the cornea's sphere, so
    // the normal there lies halfway between their directions.
    for (const Angles& lamp : {Angles{30.0, 15.0}, Angles{-25.0, 10.0}, Angles{0.0, 35.0}}) {
        const Vec3 half = glm::normalize(Vec3(0, 0, 1) + direction_from(lamp));
        const Vec2 expected = 1e3 * cornea_radius_m * Vec2(half);
        const Catchlight found = catchlight(lamp, 0.10);
        INFO("lamp at " << lamp.azimuth_deg << ", " << lamp.elevation_deg << ": catchlight at "
                        << found.middle_mm.x << ", " << found.middle_mm.y << " mm, expected "
                        << expected.x << ", " << expected.y);
        CHECK(glm::distance(found.middle_mm, expected) < 0.2);
    }
}

TEST_CASE("A key 0.9 m wide at 1.5 m shows 2.3 mm wide in the eye") {
    // A ball of radius r mirrors as a lens of focal length r/2 does: 0.9 x 3.95 / (1500 + 3.95).
    CHECK(catchlight({12.0, 8.0}, 0.45).width_mm == Approx(2.36).epsilon(0.06));
}
