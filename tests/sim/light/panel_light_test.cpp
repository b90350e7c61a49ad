// Light off boards, off silver cloth and through scrims, against configuration factors, the
// cosine law and the image of a source in a mirror.
#include "sim/base/frames.h"
#include "sim/light/configuration_factor.h"
#include "sim/light/panel_light.h"
#include "sim/light/stops.h"
#include "support/helpers/checks.h"
#include "support/helpers/emitters.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;

namespace {

/// One leaf about the origin, its working side toward +Z.
PanelPose board(double width_m, double height_m) {
    PanelPose pose;
    pose.leaves = {{Vec3(0.0), Mat3(1.0), width_m, height_m}};
    return pose;
}

/// A lamp far away along +Z: even light on the board.
Emitter sun() {
    Emitter lamp = emitters::face(ModifierShape::disc, 1.0, 1.0, 1.0e6);
    lamp.centre_m = Vec3(0, 0, 500);
    lamp.axes = Mat3(Vec3(-1, 0, 0), Vec3(0, 1, 0), Vec3(0, 0, -1));
    return lamp;
}

double on_board(const Emitter& lamp) {
    return exposure_at(lamp, {Vec3(0), Vec3(0, 0, 1), Receptor::flat, 0}, nullptr);
}

/// Flat receptor in front of the board, facing it.
Probe facing_board(double distance_m) {
    return {Vec3(0, 0, distance_m), Vec3(0, 0, -1), Receptor::flat, 0};
}

PanelSurface matt(double reflectance) {
    PanelSurface surface;
    surface.reflectance = reflectance;
    return surface;
}

} // namespace

TEST_CASE("A white board a stop under the key fills as its configuration factor says",
          "[panel-light]") {
    // 1 x 1 m, 85 %: E = rho E_board F (F of a parallel square, Siegel and Howell). The stops are
    // worked by hand from the same: -2.3 at 0.6 m, -3.3 at 1.0 m, -3.7 at 1.2 m.
    const Emitter lamp = sun();
    const PanelLight lit = light_on_panel(board(1, 1), matt(0.85), lamp, nullptr, {400, 34});
    for (const auto& [distance_m, by_hand] : {std::pair{0.6, -2.3}, {1.0, -3.3}, {1.2, -3.7}}) {
        const double fill = exposure_off_panel(lit, facing_board(distance_m), nullptr);
        INFO(distance_m << " m");
        CHECK(fill ==
              Approx(0.85 * on_board(lamp) * rectangle_parallel(1, 1, distance_m)).epsilon(0.003));
        // The board gets half of what the key gives the face.
        CHECK(std::log2(fill / (2.0 * on_board(lamp))) == Approx(by_hand).margin(0.06));
    }
}

TEST_CASE("A black flat takes the share of an even room's light that it covers", "[panel-light]") {
    // What it hides is what a white one lit as the room is would send. 1.2 x 2.4 m on the shadow
    // side, by hand from the configuration factor: 74 % at 0.5 m, 54 % at 0.8, 36 % at 1.2.
    const Emitter lamp = sun();
    const PanelLight lit = light_on_panel(board(1.2, 2.4), matt(1.0), lamp, nullptr, {900, 34});
    for (const auto& [distance_m, share] : {std::pair{0.5, 0.74}, {0.8, 0.54}, {1.2, 0.36}}) {
        INFO(distance_m << " m");
        CHECK(exposure_off_panel(lit, facing_board(distance_m), nullptr) / on_board(lamp) ==
              Approx(share).margin(0.01));
    }
}

TEST_CASE("A scrim sends its share on to the far side, and only there", "[panel-light]") {
    PanelSurface scrim;
    scrim.reflectance = 0.0;
    scrim.transmission = 0.4;
    scrim.thickness_m = cloth_thickness_m;
    const Emitter lamp = sun();
    const PanelLight lit = light_on_panel(board(2, 2), scrim, lamp, nullptr, {400, 34});
    const Probe behind{Vec3(0, 0, -1.0), Vec3(0, 0, 1), Receptor::flat, 0};
    CHECK(exposure_off_panel(lit, behind, nullptr) ==
          Approx(0.4 * on_board(lamp) * rectangle_parallel(2, 2, 1.0)).epsilon(0.01));
    CHECK(exposure_off_panel(lit, facing_board(1.0), nullptr) == 0.0);
}

TEST_CASE("A bare lamp close behind a scrim lights its edge by the cube of the cosine",
          "[panel-light]") {
    // Lamp 1 m behind a scrim 2 m wide: cos³ 45° = -1.5 stops at the edge; at 2 m -0.48.
    for (const auto& [behind_m, by_hand] : {std::pair{1.0, -1.5}, {2.0, -0.48}}) {
        Emitter lamp = emitters::face(ModifierShape::bare, 0.02, 0.02, 1000);
        lamp.centre_m = Vec3(0, 0, -behind_m);
        PanelSurface scrim;
        scrim.reflectance = 0.0;
        scrim.transmission = 0.5;
        const PanelLight lit = light_on_panel(board(2, 2), scrim, lamp, nullptr, {4096, 55});
        double centre = 0.0, edge = 0.0, nearest_centre = 9.0, nearest_edge = 9.0;
        for (const PanelPatch& patch : lit.patches) {
            if (patch.normal.z < 0.0) continue; // the side the lamp does not see
            const double to_centre = glm::length(patch.position_m);
            const double to_edge = glm::length(patch.position_m - Vec3(1, 0, 0));
            if (to_centre < nearest_centre) nearest_centre = to_centre, centre = patch.diffuse;
            if (to_edge < nearest_edge) nearest_edge = to_edge, edge = patch.diffuse;
        }
        INFO(behind_m << " m");
        CHECK(std::log2(edge / centre) == Approx(by_hand).margin(0.05));
    }
}

TEST_CASE("A smooth silver panel shows the lamp's image: distance by way of the mirror",
          "[panel-light]") {
    // A lamp of 0.3 m at 2 m before a mirror in the plane z = 0, a receptor beside it, facing the
    // image. Image-source geometry: the light comes from (x, y, -z) through the mirror, so
    // E = rho M A cos / (pi d²) with d from the image.
    Emitter lamp = emitters::face(ModifierShape::disc, 0.3, 0.3, 500);
    lamp.centre_m = Vec3(-0.8, 0, 2.0);
    const Vec3 image(-0.8, 0, -2.0);
    const Vec3 receptor(0.8, 0, 1.5);
    // Turned so that its beam leaves toward the mirror's middle of the path.
    const Vec3 way = receptor - image;
    const Vec3 hit = image + way * (2.0 / way.z);
    const Vec3 beam = glm::normalize(hit - lamp.centre_m);
    lamp.axes = Mat3(glm::normalize(glm::cross(Vec3(0, 1, 0), beam)), Vec3(0, 1, 0), beam);
    PanelSurface mirror;
    mirror.reflectance = 0.9;
    mirror.silver = true;
    mirror.roughness = 0.20; // alpha 0.04: a lobe of two degrees
    PanelPose pose = board(2.4, 2.4);
    const PanelLight lit = light_on_panel(pose, mirror, lamp, nullptr, {60000, 89});
    const Probe probe{receptor, -glm::normalize(way), Receptor::flat, 0};
    const double d = glm::length(way);
    const double area = pi * 0.15 * 0.15;
    const double expected = 0.9 * (500.0 / pi) * area / (d * d);
    CHECK(exposure_off_panel(lit, probe, nullptr) == Approx(expected).epsilon(0.06));
    // Where the image is not seen in the mirror there is no light worth a tenth of that.
    const Probe elsewhere{Vec3(0.8, 2.6, 1.5), Vec3(0, 0, -1), Receptor::flat, 0};
    CHECK(exposure_off_panel(lit, elsewhere, nullptr) < 0.1 * expected);
}

TEST_CASE("Silver cloth sends on no more than it gets", "[panel-light]") {
    // Flux through a hemisphere about a small panel, by integration over directions.
    PanelSurface silver;
    silver.reflectance = 0.9;
    silver.silver = true;
    silver.roughness = silver_roughness;
    const Emitter lamp = sun();
    const PanelLight lit = light_on_panel(board(0.1, 0.1), silver, lamp, nullptr, {1, 34});
    double flux = 0.0;
    constexpr int rings = 60, turns = 60;
    for (int i = 0; i < rings; ++i)
        for (int j = 0; j < turns; ++j) {
            const double cosine = (i + 0.5) / rings, turn = 2.0 * pi * (j + 0.5) / turns;
            const double sine = std::sqrt(1.0 - cosine * cosine);
            const Vec3 out(sine * std::cos(turn), sine * std::sin(turn), cosine);
            const double there =
                exposure_off_panel(lit, {100.0 * out, -out, Receptor::flat, 0}, nullptr);
            flux += there * 100.0 * 100.0 * 2.0 * pi / (rings * turns);
        }
    const double got = on_board(lamp) * 0.01;
    CHECK(flux < 0.9 * got * 1.01);
    CHECK(flux > 0.8 * got); // a single bounce between facets loses a little
}

TEST_CASE("A panel's middle hangs at its support's tip, whatever its roll", "[panel-light]") {
    Panel panel;
    panel.kind = PanelKind::flag;
    panel.width_m = 0.6;
    panel.height_m = 0.9;
    panel.mass_kg = 0.8;
    panel.turn_deg = 30.0;
    panel.tilt_deg = -20.0;
    panel.roll_deg = 40.0;
    panel.support = Support{};
    panel.support->column.height_m = 1.9;
    const PanelPose pose = pose_panel(panel);
    REQUIRE(pose.support.has_value());
    REQUIRE(pose.leaves.size() == 1);
    CHECK(glm::length(pose.leaves[0].centre_m - pose.support->tip_m) < 1e-9);
    CHECK(glm::length(pose.leaves[0].centre_m - Vec3(0, 1.9, 0)) < 1e-9);
    double kg = 0.0;
    for (const MassPoint& mass : pose.support->masses)
        if (mass.part == "panel") kg += mass.mass_kg;
    CHECK(kg == Approx(0.8));
    CHECK(glm::length(pose.leaves[0].axes[2] - direction_from({30.0, -20.0})) < 1e-9);
}
