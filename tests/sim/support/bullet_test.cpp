// Tipping against the Bullet physics library: every random support must stand at 98 % of the tilt
// and of the push our closed forms give, and fall at 102 %.
#include "sim/support/bullet_judge.h"
#include "sim/support/random_support.h"
#include "sim/support/rig.h"

#include <catch2/catch.hpp>

using namespace keystead;

namespace {

struct Judged {
    SupportPose pose;
    Stability ours;
};

/// Supports that stand by themselves, at least a few degrees.
std::vector<Judged> standing_supports(std::size_t count) {
    std::mt19937 random(2026);
    std::vector<Judged> found;
    while (found.size() < count) {
        const rig::RandomLight rig = rig::random_light(random);
        Judged judged;
        judged.pose = pose_support(rig.light, rig::at(rig.target_m));
        judged.ours = assess(rig.light, judged.pose, {});
        if (judged.ours.tip_angle_deg > 3.0) found.push_back(std::move(judged));
    }
    return found;
}

const std::vector<Judged>& supports() {
    static const std::vector<Judged> all = standing_supports(32);
    return all;
}

bool falls_tilted(const Judged& judged, double share, double azimuth_deg) {
    judge::Load load;
    load.tilt_deg = share * judged.ours.tip_angle_deg;
    load.azimuth_deg = azimuth_deg;
    return judge::falls(judged.pose, load);
}

bool falls_pushed(const Judged& judged, double share, double azimuth_deg) {
    judge::Load load;
    load.push_n = share * judged.ours.push_to_tip_n;
    load.push_height_m = judged.ours.push_height_m;
    load.azimuth_deg = azimuth_deg;
    return judge::falls(judged.pose, load);
}

} // namespace

TEST_CASE("Bullet agrees with the tilt that tips, within two per cent", "[judge]") {
    for (const Judged& judged : supports()) {
        INFO("tips at " << judged.ours.tip_angle_deg << " deg, margin " << judged.ours.margin_m);
        CHECK_FALSE(falls_tilted(judged, 0.98, judged.ours.tip_direction_deg));
        CHECK(falls_tilted(judged, 1.02, judged.ours.tip_direction_deg));
    }
}

TEST_CASE("Bullet agrees with the push that tips, within two per cent", "[judge]") {
    for (const Judged& judged : supports()) {
        INFO("tips at " << judged.ours.push_to_tip_n << " N at " << judged.ours.push_height_m);
        CHECK_FALSE(falls_pushed(judged, 0.98, judged.ours.tip_direction_deg));
        CHECK(falls_pushed(judged, 1.02, judged.ours.tip_direction_deg));
    }
}

TEST_CASE("Bullet finds no direction that tips at less tilt or less push", "[judge]") {
    for (const Judged& judged : supports()) {
        INFO("tips at " << judged.ours.tip_angle_deg << " deg to "
                        << judged.ours.tip_direction_deg);
        for (const double aside_deg : {-110.0, 60.0}) {
            const double azimuth_deg = judged.ours.tip_direction_deg + aside_deg;
            CHECK_FALSE(falls_tilted(judged, 0.98, azimuth_deg));
            CHECK_FALSE(falls_pushed(judged, 0.98, azimuth_deg));
        }
    }
}

TEST_CASE("Bullet agrees which supports fall by themselves", "[judge]") {
    std::mt19937 random(2027);
    int fell = 0;
    for (int tried = 0; tried < 60; ++tried) {
        rig::RandomLight rig = rig::random_light(random);
        rig.light.support.bags.clear();
        if (rig.light.support.arm) rig.light.support.arm->reach_m += 0.5;
        const SupportPose pose = pose_support(rig.light, rig::at(rig.target_m));
        const Stability ours = assess(rig.light, pose, {});
        if (std::abs(ours.margin_m) < 0.005) continue;
        INFO("margin " << ours.margin_m);
        CHECK(judge::falls(pose, {}) == (ours.margin_m < 0.0));
        if (ours.margin_m < 0.0) ++fell;
    }
    CHECK(fell > 5);
}
