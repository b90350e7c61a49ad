// One edit of a support moves the shadow: the pattern of a light that hangs on a real stand.
#include "heads.h"
#include "sim/support/pose.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;

namespace {

/// A head turned to camera left; a main light on its far side is short.
const PosedSubject& sitter() {
    static const PosedSubject posed = [] {
        Subject subject;
        subject.head_turn_deg = -30.0;
        return pose_subject(heads::mean_male().form, subject);
    }();
    return posed;
}

Light main_light() {
    Light light;
    light.id = "main";
    light.modifier.shape = ModifierShape::disc;
    light.modifier.width_m = light.modifier.height_m = 0.55;
    light.modifier.depth_m = 0.2;
    light.support.column.height_m = 2.45;
    return light;
}

struct Seen {
    PatternReading reading;
    Side side = Side::front;
};

Seen look(const Light& light) {
    const PosedSubject& posed = sitter();
    AimTarget target;
    target.point_m = posed.landmarks.face;
    const Emitter emitter = make_emitter(light, pose_support(light, target), MeterSettings{});
    const Vec3 camera(0.0, 1.55, 2.5);
    return {read_pattern(*heads::mean_male().chart, emitter, posed.head_axes, posed.head_origin_m),
            lit_side(emitter.centre_m - posed.landmarks.face, camera - posed.landmarks.face,
                     posed.head_axes)};
}

/// The base 1.25 m from the subject on the floor, at that azimuth from the camera's axis.
Vec2 floor_place(double azimuth_deg) {
    return 1.25 * Vec2(std::sin(radians(azimuth_deg)), std::cos(radians(azimuth_deg)));
}

} // namespace

TEST_CASE("Rolling only the base of the main light leads from the short-side triangle through loop "
          "to butterfly",
          "[portrait]") {
    Light light = main_light();
    std::vector<std::string> names;
    for (double azimuth = -80; azimuth <= -30; azimuth += 5) {
        light.support.base.position_m = floor_place(azimuth); // no other value is touched
        const Seen seen = look(light);
        const std::string name = name_of(seen.reading.pattern);
        INFO("base at " << azimuth << ": " << seen.reading.note);
        if (names.empty() || names.back() != name) names.push_back(name);
        if (name == "rembrandt") CHECK(seen.side == Side::short_side);
    }
    CHECK(names == std::vector<std::string>{"rembrandt", "loop", "butterfly"});
}

TEST_CASE("Raising only the column leads from a flat face to butterfly", "[portrait]") {
    Light light = main_light();
    light.support.base.position_m = floor_place(-30);
    light.support.column.height_m = 1.7;
    CHECK(look(light).reading.pattern == Pattern::flat);
    light.support.column.height_m = 2.6;
    CHECK(look(light).reading.pattern == Pattern::butterfly);
}
