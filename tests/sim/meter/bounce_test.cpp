// Light by way of other surfaces against closed forms: the integrating sphere, a board in even
// light, the cavity estimate for rooms.
#include "sim/meter/bounce.h"

#include "sim/base/frames.h"
#include "sim/light/configuration_factor.h"
#include "sim/meter/reading_aids.h"
#include "sim/transport/bake.h"
#include "tests/sim/review/bench_sets.h"
#include "tests/support/helpers/hollow_sphere.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;

namespace {

Emitter small_disc(const Vec3& centre_m) {
    Emitter emitter;
    emitter.light = "lamp";
    emitter.shape = ModifierShape::disc;
    emitter.width_m = emitter.height_m = 0.2;
    emitter.area_m2 = pi * 0.01;
    emitter.exitance = 500.0;
    emitter.centre_m = centre_m;
    return emitter;
}

Emitter glowing_ball() {
    Emitter emitter = small_disc(Vec3(0.0));
    emitter.shape = ModifierShape::bare;
    emitter.width_m = emitter.height_m = 0.01;
    emitter.area_m2 = pi * 1e-4;
    return emitter;
}

/// A grey sphere with a lamp in it and, perhaps, a black board before the probe.
Studio sphere_studio(double radius_m, float reflectance, std::shared_ptr<const Mesh> board = {}) {
    Studio studio;
    ScenePart wall;
    wall.owner = "room";
    wall.mesh = hollow_sphere(radius_m, 48);
    wall.material.albedo = glm::vec3(reflectance);
    wall.material.f0 = 0.0F; // matt
    wall.mask = ray_mask::room;
    studio.scene.parts.push_back(wall);
    if (board) {
        ScenePart part;
        part.owner = "board";
        part.mesh = std::move(board);
        part.material.albedo = glm::vec3(0.0F);
        part.material.f0 = 0.0F; // matt
        part.mask = ray_mask::panel;
        studio.scene.parts.push_back(part);
    }
    studio.rays = std::make_shared<RayScene>();
    for (const ScenePart& part : studio.scene.parts) studio.rays->add(part.mesh, part.mask);
    studio.rays->commit();
    studio.emitters.push_back(small_disc({0.2 * radius_m, 0.1 * radius_m, 0.3 * radius_m}));
    return studio;
}

/// Stops of bounce on the shadow side under the key, in a room of 4 x 5 x 2.5 m.
double bounce_in_room(double walls, double floor) {
    Set set = bench::plain_set();
    set.background.kind = BackgroundKind::none;
    set.room.width_m = 4.0;
    set.room.depth_m = 5.0;
    set.room.ceiling_m = 2.5;
    set.room.left_of_subject_m = 2.0;
    set.room.behind_subject_m = 2.0;
    set.room.walls = set.room.ceiling = Reflectance{Vec3(walls)};
    set.room.floor = Reflectance{Vec3(floor)};
    const Vec3 face(0.0, 1.59, 0.08);
    const Vec3 key = face + 1.5 * direction_from({45.0, 25.0});
    set.lights.push_back(bench::light_at("key", "octa-90", key, face));
    const Review review = review_set(*bench::studio_of(set), {.margins = false});
    REQUIRE(review.exposure.bounce_stops_from_key);
    return *review.exposure.bounce_stops_from_key;
}

} // namespace

TEST_CASE("A receptor in a grey sphere gets what the integrating sphere says", "[meter]") {
    // Ulbricht: by way of the wall E = r/(1-r) Phi/A on every place of it. In the middle two domes
    // back to back ((1+cos)/2 and (1-cos)/2) take the radiance of all directions, 4 pi E/pi.
    for (const float reflectance : {0.2F, 0.5F, 0.8F}) {
        const Studio studio = sphere_studio(1.0, reflectance);
        const double r = static_cast<double>(reflectance);
        const double area = 4.0 * pi;
        const double flux = studio.emitters[0].area_m2; // for an exitance of 1
        const double expected = r / (1.0 - r) * flux / area;
        const auto read = [&](const Vec3& at, const Vec3& facing, Receptor receptor) {
            return bounce_at(studio, {at, facing, receptor}, {.paths = 4096}).front();
        };
        for (const Vec3& out : {Vec3(0, 0, -1), Vec3(0, 1, 0), glm::normalize(Vec3(1, 2, -1))}) {
            const double on_wall = read(0.995 * out, -out, Receptor::flat);
            const double all_round =
                read(Vec3(0.0), out, Receptor::dome) + read(Vec3(0.0), -out, Receptor::dome);
            INFO("reflectance " << r << ": " << on_wall << " and " << all_round << ", expected "
                                << expected << " and four times that");
            CHECK(on_wall == Approx(expected).epsilon(0.05));
            CHECK(all_round == Approx(4.0 * expected).epsilon(0.05));
        }
        // The bake's values of the same wall: three bounces of all.
        BakeOptions options;
        options.room_spacing_m = 0.25;
        options.bounces = 3;
        const IndirectLight baked =
            bake_indirect(studio.scene, *studio.rays, studio.emitters, options);
        double mean = 0.0;
        const std::size_t count = studio.scene.parts[0].mesh->positions_m.size();
        for (std::size_t v = 0; v < count; ++v)
            mean += static_cast<double>(baked.at(0, v, 0).g) / double(count);
        const double three = (1.0 - r * r * r) * expected;
        CHECK(mean == Approx(three).epsilon(0.03));
    }
}

TEST_CASE("A black board takes its configuration factor of even light", "[meter]") {
    // The closed form for a rectangle parallel to a small plate (Siegel and Howell, Thermal
    // Radiation Heat Transfer; the catalogue of Howell, B-4): E = E0 (1 - F). Negative fill.
    const auto board = [](double distance_m) {
        Mesh mesh;
        const auto z = static_cast<float>(distance_m);
        mesh.positions_m = {{-0.6F, -1.2F, z}, {0.6F, -1.2F, z}, {0.6F, 1.2F, z}, {-0.6F, 1.2F, z}};
        mesh.triangles = {{0, 1, 2}, {0, 2, 3}};
        return std::make_shared<const Mesh>(std::move(mesh));
    };
    const Probe probe{{0, 0, 0}, {0, 0, 1}, Receptor::flat};
    // A ball that glows in the middle lights the sphere evenly; hardly any light comes back twice,
    // so what the board takes from the rest of the sphere does not matter.
    const auto lit = [&](std::shared_ptr<const Mesh> mesh) {
        Studio studio = sphere_studio(20.0, 0.02F, std::move(mesh));
        studio.emitters[0] = glowing_ball();
        return bounce_at(studio, probe, {.paths = 8192}).front();
    };
    const double open = lit({});
    for (const double distance_m : {0.5, 0.8, 1.2}) {
        const double left = lit(board(distance_m));
        const double factor = rectangle_parallel(1.2, 2.4, distance_m);
        INFO(distance_m << " m: " << left / open << " left, factor " << factor);
        CHECK(left / open == Approx(1.0 - factor).margin(0.03));
    }
}

TEST_CASE("Bounce in rooms is what an integrating cavity makes of their paint", "[meter]") {
    // Case B3, E = Phi rho / (A (1 - rho)), key at 1.5 m in a room of 4 x 5 x 2.5 m: all 80 % -1.6
    // stops from the key, floor 30 % -2.5. Rooms are no spheres: half a stop.
    const double white = bounce_in_room(0.8, 0.8), floored = bounce_in_room(0.8, 0.3);
    CHECK(white == Approx(-1.6).margin(0.5));
    CHECK(floored == Approx(-2.5).margin(0.5));
    const double grey = bounce_in_room(0.3, 0.3), black = bounce_in_room(0.03, 0.03);
    CHECK(white > floored);
    CHECK(floored > grey);
    CHECK(grey > black);
    CHECK(black < -5.0);
}

TEST_CASE("A white board beside the face fills, a black one takes fill away", "[meter]") {
    Set set = bench::plain_set();
    set.room.walls = set.room.ceiling = Reflectance{Vec3(0.8)};
    set.room.width_m = 4.0;
    set.room.left_of_subject_m = 2.0;
    set.room.ceiling_m = 2.6;
    set.lights.push_back(bench::light_at("key", "octa-90", {0.9, 2.0, 1.0}, {0, 1.59, 0.08}));
    const auto ratio = [&](std::optional<double> reflectance) {
        Set with = set;
        if (reflectance) {
            Panel board;
            board.id = "board";
            board.kind = PanelKind::v_flat;
            board.width_m = 1.2;
            board.height_m = 2.4;
            board.position_m = {-0.7, 0.0, 0.1};
            board.turn_deg = 90.0;
            board.reflectance = Reflectance{Vec3(*reflectance)};
            with.panels.push_back(board);
        }
        return *review_set(*bench::studio_of(with), {.margins = false})
                    .exposure.stops_lit_to_shadow;
    };
    const double none = ratio({}), white = ratio(0.85), black = ratio(0.03);
    INFO("stops from lit to shadow: none " << none << ", white " << white << ", black " << black);
    // The walls are white too: with 65536 paths the board makes 0.12 stops.
    CHECK(white < none - 0.04);
    CHECK(black > none + 0.3);
}

TEST_CASE("What a panel sends on at first is not counted again as bounce", "[meter]") {
    Set set = bench::plain_set();
    set.background.kind = BackgroundKind::none;
    set.room.walls = set.room.ceiling = set.room.floor = Reflectance{Vec3(0.0)};
    set.lights.push_back(bench::light_at("key", "octa-90", {0.9, 2.0, 1.0}, {0, 1.59, 0.08}));
    Panel board;
    board.id = "board";
    board.width_m = 1.0;
    board.height_m = 1.2;
    board.position_m = {-0.7, 0.9, 0.2};
    board.turn_deg = 90.0;
    board.reflectance = Reflectance{Vec3(0.85)};
    set.panels.push_back(board);
    const auto studio = bench::studio_of(set);
    const Probe probe{
        {-0.1, 1.59, 0.15}, {-1, 0, 0}, Receptor::flat, ray_mask::casters | ray_mask::background};
    ReadingAids aids;
    aids.panels = {std::make_shared<const PanelLights>(light_panels_with(*studio, 0))};
    aids.bounce = true;
    const double off_panel = off_panels_lx_s(*studio, aids, 0, probe);
    const double bounced = bounces_lx_s(*studio, aids, probe)[0];
    CHECK(off_panel > 0.0);
    CHECK(bounced < 0.15 * off_panel); // the sitter lights the board, the board the receptor
}

TEST_CASE("Bounce that is remembered is what tracing everything gives, from fewer rays",
          "[meter]") {
    Set set = bench::plain_set();
    set.lights.push_back(bench::light_at("key", "octa-90", {0.9, 2.0, 1.0}, {0, 1.59, 0.08}));
    set.lights.push_back(bench::light_at("rim", "strip-30x120", {-1.2, 1.9, -1.0}, {0, 1.6, 0}));
    const Probe probes[] = {{{0.0, 1.59, 0.2}, {0, 0, 1}, Receptor::dome},
                            {{-0.15, 1.59, 0.1}, glm::normalize(Vec3(-1, 0, 0.3)), Receptor::flat}};
    ProbeMemory memory;
    const auto rays_for = [&](bool remembered) {
        const auto studio = bench::studio_of(set);
        const std::uint64_t before = studio->rays->rays_cast();
        if (remembered) memory.begin(*studio);
        for (const Probe& probe : probes)
            remembered ? memory.bounce(*studio, probe) : bounce_at(*studio, probe);
        return static_cast<double>(studio->rays->rays_cast() - before);
    };
    const auto edited = [&] {
        const double share = rays_for(true) / rays_for(false);
        const auto studio = bench::studio_of(set);
        for (const Probe& probe : probes)
            CHECK(memory.bounce(*studio, probe) == bounce_at(*studio, probe));
        return share;
    };
    CHECK(edited() == 1.0);
    CHECK(edited() == 0.0); // nothing changed
    set.lights[0].head.power_stops_below += 1.0;
    CHECK(edited() == 0.0); // output is a factor
    set.lights[1].support.base.position_m.x += 0.05;
    const double one_light = edited();
    INFO("share of rays after one light moved: " << one_light);
    CHECK(one_light < 0.7);
    set.lights.pop_back();
    CHECK(edited() < 0.5);
    set.subject.head_turn_deg = 20.0;
    CHECK(edited() < 1.0);
}
