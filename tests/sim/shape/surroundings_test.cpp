#include "sim/base/frames.h"
#include "sim/shape/mesh_checks.h"
#include "sim/shape/scene.h"
#include "sim/transport/ray_scene.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;
using mesh_checks::Box;
using mesh_checks::box_of;

namespace {

const ScenePart& named(const std::vector<ScenePart>& parts, const std::string& name) {
    for (const ScenePart& part : parts)
        if (part.part == name) return part;
    FAIL("no part " << name);
    return parts.front();
}

void check_sound(const std::vector<ScenePart>& parts, bool closed) {
    for (const ScenePart& part : parts) {
        INFO(part.owner << " " << part.part);
        CHECK(mesh_checks::unsound(*part.mesh) == "");
        if (closed) CHECK(mesh_checks::not_closed(*part.mesh) == "");
        CHECK(box_of(*part.mesh).low.y > -1e-6);
    }
}

} // namespace

TEST_CASE("The room is the document's box, seen from inside, and casts nothing", "[shape]") {
    Room room;
    const std::vector<ScenePart> parts = room_parts(room);
    check_sound(parts, false);
    const Box floor = box_of(parts, "floor");
    CHECK(floor.low.x == Approx(-room.left_of_subject_m));
    CHECK(floor.high.x == Approx(room.width_m - room.left_of_subject_m));
    CHECK(floor.low.z == Approx(-room.behind_subject_m));
    CHECK(floor.high.z == Approx(room.depth_m - room.behind_subject_m));
    CHECK(box_of(parts, "ceiling").high.y == Approx(room.ceiling_m));
    // Floor, ceiling and walls together are closed, inside out: they face the subject.
    Mesh shell;
    for (const char* part : {"floor", "ceiling", "walls"}) append(shell, *named(parts, part).mesh);
    for (const glm::uvec3& t : shell.triangles) {
        const Vec3 a(shell.positions_m[t.x]), b(shell.positions_m[t.y]), c(shell.positions_m[t.z]);
        CHECK(glm::dot(glm::cross(b - a, c - a), Vec3(0, 1.3, 0) - a) > 0.0);
    }
    CHECK(
        mesh_checks::area_m2(shell) ==
        Approx(2.0 * (room.width_m * room.depth_m + room.ceiling_m * (room.width_m + room.depth_m)))
            .epsilon(1e-5));
    for (const ScenePart& part : parts) CHECK_FALSE(part.casts);
}

TEST_CASE("Paper hangs at its distance, sweeps to its edge and lies just above the floor",
          "[shape]") {
    Background background;
    background.distance_m = 2.15;
    background.height_m = 2.55;
    background.sweep_m = 3.5;
    background.offset_m = 0.2;
    const std::vector<ScenePart> parts = background_parts(background);
    check_sound(parts, true);
    const Box paper = box_of(parts, "paper");
    CHECK(paper.size().x == Approx(2.72));
    CHECK(0.5 * (paper.low.x + paper.high.x) == Approx(0.2));
    CHECK(paper.low.z == Approx(-2.15).margin(0.002));
    CHECK(paper.high.z == Approx(1.35).margin(0.002));
    CHECK(paper.high.y == Approx(2.55));
    CHECK(paper.low.y > 0.0);
    CHECK(paper.low.y < 0.003);
    // The face of the hanging part is exactly in the document's plane.
    const Mesh& mesh = *named(parts, "paper").mesh;
    int in_plane = 0;
    for (const glm::vec3& point : mesh.positions_m)
        in_plane += point.y > 1.0F && std::abs(point.z + 2.15F) < 1e-6F;
    CHECK(in_plane > 20);
    CHECK(named(parts, "paper").mask == ray_mask::background);
    CHECK(std::abs(box_of(parts, "legs").low.y) < 1e-6);
}

TEST_CASE("The cut edge of the paper curls up and its middle does not", "[shape]") {
    const std::vector<ScenePart> parts = background_parts(Background{});
    const Mesh& mesh = *named(parts, "paper").mesh;
    const Box paper = box_of(mesh);
    double edge = 0.0, middle = 0.0;
    for (const glm::vec3& point : mesh.positions_m) {
        if (point.z > paper.high.z - 0.01) edge = std::max(edge, static_cast<double>(point.y));
        if (std::abs(point.z - (paper.high.z - 0.5)) < 0.2)
            middle = std::max(middle, static_cast<double>(point.y));
    }
    CHECK(edge > 0.015);
    CHECK(middle < 0.003);
}

TEST_CASE("Paper without a sweep hangs only, and none is nothing", "[shape]") {
    Background background;
    background.sweep_m = 0.0;
    const Box paper = box_of(background_parts(background), "paper");
    CHECK(paper.size().z < 0.01);
    background.kind = BackgroundKind::none;
    CHECK(background_parts(background).empty());
}

TEST_CASE("Cloth hangs in folds in front of its plane", "[shape]") {
    Background background;
    background.kind = BackgroundKind::cloth;
    background.sweep_m = 0.3;
    const std::vector<ScenePart> parts = background_parts(background);
    check_sound(parts, true);
    double nearest = -1e9, furthest = 1e9;
    for (const glm::vec3& point : named(parts, "cloth").mesh->positions_m)
        if (point.y > 1.0F && point.y < 1.6F) {
            nearest = std::max(nearest, static_cast<double>(point.z));
            furthest = std::min(furthest, static_cast<double>(point.z));
        }
    CHECK(nearest - furthest > 0.02);
    CHECK(nearest - furthest < 0.05);
}

TEST_CASE("A V-flat stands on its feet, its leaves folded back from the working side", "[shape]") {
    Panel panel;
    panel.id = "flat";
    panel.position_m = {1.06, 0, 0.3};
    panel.turn_deg = 0.0;
    panel.width_m = 1.0;
    panel.height_m = 2.35;
    panel.fold_deg = 60.0;
    const std::vector<ScenePart> parts = panel_parts(panel);
    check_sound(parts, true);
    const Box board = box_of(parts, "board");
    CHECK(board.high.y == Approx(2.35));
    CHECK(std::abs(box_of(parts, "foot").low.y) < 1e-6);
    // 60 degrees back: each leaf spans half its width sideways.
    CHECK(board.high.x == Approx(1.06 + 0.5).margin(0.03));
    CHECK(board.low.x == Approx(1.06 - 0.5).margin(0.03));
    CHECK(board.low.z == Approx(0.3 - std::sqrt(0.75)).margin(0.03));
    CHECK(board.high.z == Approx(0.3).margin(0.02));
    for (const ScenePart& part : parts) CHECK(part.mask == ray_mask::panel);
}

TEST_CASE("Flat panels of every kind are closed, lean as told and stand on the floor", "[shape]") {
    for (const PanelKind kind : {PanelKind::reflector, PanelKind::flag, PanelKind::scrim})
        for (const double tilt : {-30.0, 0.0, 45.0})
            for (const double height : {0.0, 0.6}) {
                Panel panel;
                panel.id = "panel";
                panel.kind = kind;
                panel.position_m = {0.5, height, 0.8};
                panel.turn_deg = -150.0;
                panel.tilt_deg = tilt;
                panel.height_m = 1.0;
                INFO("tilt " << tilt << ", height " << height);
                const std::vector<ScenePart> parts = panel_parts(panel);
                check_sound(parts, true);
                CHECK(std::abs(box_of(parts, "stand").low.y) < 1e-6);
                // The working side looks where it is told.
                const Mesh& cloth = *named(parts, "cloth").mesh;
                const Vec3 facing = direction_from({-150.0, tilt});
                double best = -1.0;
                for (const glm::vec3& normal : cloth.normals)
                    best = std::max(best, glm::dot(Vec3(normal), facing));
                CHECK(best == Approx(1.0).epsilon(1e-5));
            }
}

TEST_CASE("The camera stays behind its entrance pupil and its tripod stands on the floor",
          "[shape]") {
    for (const Orientation orientation : {Orientation::landscape, Orientation::upright})
        for (const double height : {0.4, 1.2, 1.8}) {
            Camera camera;
            camera.position_m = {0.3, height, 1.9};
            camera.aim_m = {0, 1.1, 0};
            camera.orientation = orientation;
            INFO("height " << height);
            const std::vector<ScenePart> parts = camera_parts(camera);
            check_sound(parts, true);
            CHECK(std::abs(box_of(parts, "tripod").low.y) < 1e-6);
            const Vec3 ahead = glm::normalize(camera.aim_m - camera.position_m);
            for (const ScenePart& part : parts)
                if (part.part == "camera")
                    for (const glm::vec3& point : part.mesh->positions_m)
                        CHECK(glm::dot(Vec3(point) - camera.position_m, ahead) < 1e-5);
        }
}

TEST_CASE("A seated sitter has a stool of the seat's height, a standing one has none", "[shape]") {
    Subject subject;
    CHECK(seat_parts(subject).empty());
    subject.posture = Posture::seated;
    subject.seat_height_m = 0.62;
    const std::vector<ScenePart> parts = seat_parts(subject);
    check_sound(parts, true);
    CHECK(box_of(parts, "stool").high.y == Approx(0.62));
    CHECK(std::abs(box_of(parts, "stool").low.y) < 1e-6);
}
