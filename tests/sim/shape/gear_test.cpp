#include "sim/set/catalogue.h"
#include "sim/shape/gear_lights.h"
#include "sim/shape/mesh_checks.h"
#include "sim/transport/ray_scene.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <set>

using namespace keystead;
using gear_lights::build;
using gear_lights::Built;
using gear_lights::made_of;
using mesh_checks::Box;
using mesh_checks::box_of;

namespace {

const ScenePart& face_of(const Built& built) {
    for (const ScenePart& part : built.parts)
        if (part.part == "face") return part;
    FAIL("no face");
    return built.parts.front();
}

/// Everything but the face is closed; nothing is below the floor.
void check_sound(const Built& built) {
    for (const ScenePart& part : built.parts) {
        INFO(built.light.support.from << " " << built.light.modifier.from << " " << part.part);
        CHECK(mesh_checks::unsound(*part.mesh) == "");
        if (part.part != "face") CHECK(mesh_checks::not_closed(*part.mesh) == "");
        CHECK(box_of(*part.mesh).low.y > -1e-6);
    }
}

} // namespace

TEST_CASE("Every support of the catalogue is made of closed solids that stand on the floor",
          "[shape]") {
    for (const auto& entry : catalogue().supports) {
        INFO(entry.id);
        Light light = made_of(entry.id, "octa-90");
        if (light.support.column.height_m < 0.25) {
            // Only a bare lamp looking ahead has room above a floor plate.
            light.modifier = made_of(entry.id, "bare").modifier;
            light.aim.kind = AimKind::angles;
        }
        const Built built = build(light);
        check_sound(built);
        CHECK(std::abs(box_of(built.parts, "legs").low.y) < 1e-6);
        // A bag that hangs shows air below it.
        CHECK(box_of(built.parts, "bag").low.y > 0.003);
    }
}

TEST_CASE("Every modifier of the catalogue is a closed shell behind its face", "[shape]") {
    for (const auto& entry : catalogue().modifiers) {
        INFO(entry.id);
        const Built built = build(made_of("standard-30", entry.id, 0.0));
        check_sound(built);
        CHECK_FALSE(box_of(built.parts, "shell").low.x > 1e8);
    }
}

TEST_CASE("The face has the emitter's area, place and direction", "[shape]") {
    for (const auto& entry : catalogue().modifiers) {
        INFO(entry.id);
        const Built built = build(made_of("standard-30", entry.id, 0.0));
        const ScenePart& face = face_of(built);
        // Facets of a cap or a ball differ a little more than flat outlines.
        const bool curved = built.emitter.shape == ModifierShape::umbrella ||
                            built.emitter.shape == ModifierShape::bare;
        CHECK(mesh_checks::area_m2(*face.mesh) ==
              Approx(built.emitter.area_m2).epsilon(curved ? 0.005 : 1e-4));
        CHECK(face.emitting_light == 3);
        CHECK(face.mask == ray_mask::emitter);
        CHECK_FALSE(face.casts);
        CHECK((face.material.finish == Finish::grid) == built.light.modifier.grid.has_value());
        if (built.emitter.shape == ModifierShape::bare) continue;
        Vec3 sum(0.0);
        for (const glm::uvec3& t : face.mesh->triangles)
            sum +=
                glm::cross(Vec3(face.mesh->positions_m[t.y]) - Vec3(face.mesh->positions_m[t.x]),
                           Vec3(face.mesh->positions_m[t.z]) - Vec3(face.mesh->positions_m[t.x]));
        CHECK(glm::dot(glm::normalize(sum), built.emitter.axes[2]) == Approx(1.0).epsilon(1e-5));
    }
}

TEST_CASE("The readings' points on the emitter lie on the drawn face", "[shape]") {
    for (const char* modifier :
         {"octa-135", "strip-30x120", "dish-55", "ring-30", "umbrella-100", "bare"}) {
        INFO(modifier);
        const Built built = build(made_of("standard-30", modifier, 0.0));
        RayScene rays;
        rays.add(face_of(built).mesh, ray_mask::emitter);
        rays.commit();
        int on_face = 0;
        const std::vector<EmitterPoint> points = emitter_points(built.emitter, 200);
        for (const EmitterPoint& point : points) {
            RayHit hit;
            // Chords of the canopy and the bulb stay within 4 mm of the sphere.
            const Vec3 start = point.position_m + 0.01 * point.normal;
            on_face += rays.first_hit(start, -point.normal, 0.0, 0.02, ray_mask::all, hit) &&
                       std::abs(hit.distance_m - 0.01) < 0.004;
        }
        CHECK(on_face >= static_cast<int>(0.98 * static_cast<double>(points.size())));
    }
}

TEST_CASE("A light's own gear does not stand in its own beam", "[shape]") {
    for (const auto& entry : catalogue().modifiers) {
        // The lamp of an umbrella does stand there, as the real one does.
        if (entry.value.shape == ModifierShape::umbrella) continue;
        INFO(entry.id);
        const Built built = build(made_of("standard-30", entry.id, 0.0));
        RayScene rays;
        for (const ScenePart& part : built.parts) rays.add(part.mesh, part.mask);
        rays.commit();
        for (const double off_axis : {-0.35, 0.0, 0.35}) {
            const Vec3 seen_from = built.emitter.centre_m + 2.5 * built.emitter.axes[2] +
                                   (2.5 * off_axis) * built.emitter.axes[0];
            int blocked = 0;
            for (const EmitterPoint& point : emitter_points(built.emitter, 200)) {
                if (glm::dot(point.normal, seen_from - point.position_m) <= 0.02) continue;
                blocked += rays.blocked(point.position_m, seen_from, ray_mask::casters);
            }
            // A lip of 40 mm may hide the edge of a narrow strip; nothing hides the middle.
            CHECK(blocked <= (off_axis == 0.0 ? 0 : 16));
        }
    }
}

TEST_CASE("The feet stand where the statics has them", "[shape]") {
    for (const char* support : {"low-90", "standard-24", "century-40", "roller-27", "boom-240"}) {
        INFO(support);
        const Built built = build(made_of(support, "octa-90", 0.0));
        const double reach = built.light.support.base.caster_offset_m + 0.055;
        std::set<std::size_t> met;
        for (const ScenePart& part : built.parts) {
            if (part.part != "legs") continue;
            for (const glm::vec3& point : part.mesh->positions_m)
                for (std::size_t foot = 0; foot < built.pose.feet_m.size(); ++foot)
                    if (point.y < 1e-6F &&
                        glm::distance(Vec3(point), built.pose.feet_m[foot]) < reach)
                        met.insert(foot);
        }
        CHECK(met.size() == built.pose.feet_m.size());
    }
}

TEST_CASE("A wheel touches the floor its caster offset away from the pivot", "[shape]") {
    const Built built = build(made_of("boom-240", "octa-90", 0.0));
    const double offset = built.light.support.base.caster_offset_m;
    REQUIRE(offset > 0.0);
    for (const Vec3& foot : built.pose.feet_m) {
        Vec3 sum(0.0);
        double count = 0.0;
        for (const ScenePart& part : built.parts)
            for (const glm::vec3& point : part.mesh->positions_m)
                if (part.part == "legs" && point.y < 1e-6F &&
                    glm::distance(Vec3(point), foot) < 0.1) {
                    sum += Vec3(point);
                    count += 1.0;
                }
        REQUIRE(count > 0.0);
        CHECK(glm::distance(sum / count, foot) == Approx(offset).margin(0.002));
    }
}

TEST_CASE("Tubes have the document's diameter and reach the posed height", "[shape]") {
    Light light = made_of("century-40", "reflector-18", 0.0);
    light.support.column.height_m = 2.4;
    const Built built = build(light);
    const Box column = box_of(built.parts, "column");
    // The lamp's yoke takes up the rest of the way to its axis.
    CHECK(column.high.y == Approx(2.4 - 0.5 * light.head.diameter_m).margin(0.07));
    double widest = 0.0;
    for (const ScenePart& part : built.parts)
        if (part.part == "column" && part.material.metal)
            for (const glm::vec3& point : part.mesh->positions_m)
                if (point.y < 1.0F)
                    widest = std::max(widest, std::hypot(point.x + 1.3, point.z - 1.1));
    CHECK(widest == Approx(0.5 * light.support.column.tube_diameter_m).epsilon(1e-4));
}

TEST_CASE("The arm runs from its tail to the lamp and the weight hangs at its place", "[shape]") {
    const Built built = build(made_of("boom-240", "octa-90", 0.0));
    const Arm& arm = *built.light.support.arm;
    double back = 0.0;
    double front = 0.0;
    for (const ScenePart& part : built.parts)
        if (part.part == "arm")
            for (const glm::vec3& point : part.mesh->positions_m) {
                const double along =
                    glm::dot(Vec3(point) - built.pose.column_top_m, built.pose.arm_direction);
                back = std::min(back, along);
                front = std::max(front, along);
            }
    CHECK(-back == Approx(arm.tail_m()).margin(0.02));
    CHECK(front == Approx(arm.reach_m - 0.5 * built.light.head.diameter_m).margin(0.10));
    const Box weight = box_of(built.parts, "counterweight");
    CHECK(glm::distance(0.5 * (weight.low + weight.high), built.pose.counterweight_m) < 0.06);
}

TEST_CASE("The shell spans the modifier's width, height and depth", "[shape]") {
    Light light = made_of("standard-30", "softbox-60x90", 0.0);
    light.aim.kind = AimKind::angles;
    const Built built = build(light);
    Vec3 low(1e9), high(-1e9);
    for (const ScenePart& part : built.parts)
        if (part.part == "shell")
            for (const glm::vec3& point : part.mesh->positions_m) {
                const Vec3 local =
                    glm::transpose(built.emitter.axes) * (Vec3(point) - built.emitter.centre_m);
                low = glm::min(low, local);
                high = glm::max(high, local);
            }
    const Modifier& modifier = light.modifier;
    CHECK(high.x - low.x == Approx(1.022 * modifier.width_m).margin(0.008));
    CHECK(high.y - low.y == Approx(1.022 * modifier.height_m).margin(0.008));
    CHECK(high.z == Approx(modifier.lip_m).margin(1e-5));
    CHECK(-low.z == Approx(modifier.depth_m).margin(0.01));
}

TEST_CASE("A heavier bag is a larger bag", "[shape]") {
    const auto volume_box = [](double mass_kg) {
        const Vec3 size =
            box_of(build(made_of("standard-30", "octa-90", mass_kg)).parts, "bag").size();
        return size.x * size.y * size.z;
    };
    CHECK(volume_box(15.9) > 1.3 * volume_box(6.8));
}

TEST_CASE("A bag that rests lies on the floor, wherever it was put", "[shape]") {
    for (const BagPlace place : {BagPlace::leg, BagPlace::column, BagPlace::tail}) {
        Light light = made_of("boom-240", "octa-90", 6.8);
        light.support.bags[0].place = place;
        light.support.bags[0].hanging = false;
        const Built built = build(light);
        CHECK(std::abs(box_of(built.parts, "bag").low.y) < 0.005);
        check_sound(built);
    }
}

TEST_CASE("Gear stays within its share of triangles", "[shape]") {
    for (const auto& entry : catalogue().supports) {
        INFO(entry.id);
        CHECK(mesh_checks::triangle_count(build(made_of(entry.id, "octa-90")).parts) < 9800);
    }
}

TEST_CASE("The same light gives the same bytes and the same keys", "[shape]") {
    const Built one = build(made_of("boom-240", "octa-90-grid"));
    const Built other = build(made_of("boom-240", "octa-90-grid"));
    REQUIRE(one.parts.size() == other.parts.size());
    std::set<std::uint64_t> keys;
    for (std::size_t i = 0; i < one.parts.size(); ++i) {
        CHECK(one.parts[i].key == other.parts[i].key);
        CHECK(one.parts[i].mesh->positions_m == other.parts[i].mesh->positions_m);
        keys.insert(one.parts[i].key);
    }
    CHECK(keys.size() == one.parts.size());
    CHECK(one.parts.front().key == first_part_key(one.light, one.pose, 3));
}

TEST_CASE("Keys follow the geometry and leave power and colour alone", "[shape]") {
    const Built built = build(made_of("century-40-arm", "octa-90"));
    const std::uint64_t key = light_key(built.light, built.pose);
    Light light = built.light;
    light.head.power_stops_below = 3.0;
    light.head.energy_ws = 800.0;
    light.on = false;
    light.modifier.gel = Gel{-100.0, 0.5, {}, {}};
    CHECK(light_key(light, built.pose) == key);
    light.modifier.grid = Grid{};
    CHECK(light_key(light, built.pose) != key);
    light = built.light;
    light.support.bags[0].mass_kg += 1.0;
    CHECK(light_key(light, built.pose) != key);
    light = built.light;
    light.support.arm->reach_m += 0.01;
    CHECK(light_key(light, build(light).pose) != key);
}

TEST_CASE("A lamp at any angle on any arm is joined to it", "[shape]") {
    // The yoke's socket must meet the arm's end, whichever way the lamp looks.
    for (const double arm_turn : {0.0, 60.0, 120.0, 200.0, 300.0})
        for (const double rise : {-40.0, 0.0, 60.0}) {
            Light light = made_of("century-40-arm", "reflector-18", 0.0);
            light.support.arm->turn_deg = arm_turn;
            light.support.arm->rise_deg = rise;
            const Built built = build(light);
            INFO("turn " << arm_turn << ", rise " << rise);
            double gap = 1e9;
            for (const ScenePart& part : built.parts)
                if (part.part == "arm")
                    for (const glm::vec3& point : part.mesh->positions_m)
                        for (const ScenePart& other : built.parts)
                            if (other.part == "head")
                                for (const glm::vec3& own : other.mesh->positions_m)
                                    gap = std::min(gap, glm::distance(Vec3(point), Vec3(own)));
            CHECK(gap < 0.03);
        }
}
