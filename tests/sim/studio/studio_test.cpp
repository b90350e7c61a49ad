#include "sim/studio/studio.h"

#include "sim/base/frames.h"
#include "sim/set/catalogue.h"
#include "sim/set/set_io.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <map>
#include <set>

using namespace keystead;

namespace {

Set lantern_maker() {
    const Result<LoadedSet> loaded = load_set(assets_folder() / "sets" / "lantern-maker.json");
    REQUIRE(loaded.ok());
    return loaded.value().set;
}

/// Built once: the sitter's surface takes a second.
const std::shared_ptr<const Studio>& lantern_studio() {
    static const std::shared_ptr<const Studio> studio = make_studio(lantern_maker());
    return studio;
}

/// The studio after one edit of the lantern maker's set.
std::shared_ptr<const Studio> after(const std::function<void(Set&)>& edit) {
    Set set = lantern_maker();
    edit(set);
    return make_studio(set, lantern_studio());
}

/// Owners of the parts whose mesh is not one of the lantern studio's.
std::set<std::string> rebuilt(const Studio& studio) {
    std::set<const Mesh*> old;
    for (const ScenePart& part : lantern_studio()->scene.parts) old.insert(part.mesh.get());
    std::set<std::string> owners;
    for (const ScenePart& part : studio.scene.parts)
        if (old.count(part.mesh.get()) == 0) owners.insert(part.owner);
    return owners;
}

/// Owners of the parts whose key is not one of the lantern studio's.
std::set<std::string> rekeyed(const Studio& studio) {
    std::set<std::uint64_t> old;
    for (const ScenePart& part : lantern_studio()->scene.parts) old.insert(part.key);
    std::set<std::string> owners;
    for (const ScenePart& part : studio.scene.parts)
        if (old.count(part.key) == 0) owners.insert(part.owner);
    return owners;
}

using Owners = std::set<std::string>;

} // namespace

TEST_CASE("A studio has a support, an emitter and a key for every light", "[studio]") {
    const Studio& studio = *lantern_studio();
    const std::size_t lights = studio.set.lights.size();
    CHECK(studio.supports.size() == lights);
    CHECK(studio.emitters.size() == lights);
    CHECK(studio.light_keys.size() == lights);
    std::vector<int> faces(lights, 0);
    for (const ScenePart& part : studio.scene.parts)
        if (part.emitting_light >= 0) {
            CHECK(part.owner ==
                  studio.set.lights[static_cast<std::size_t>(part.emitting_light)].id);
            ++faces[static_cast<std::size_t>(part.emitting_light)];
        }
    CHECK(std::count(faces.begin(), faces.end(), 1) == static_cast<std::ptrdiff_t>(lights));
}

TEST_CASE("Keys of all parts differ and rays know the meshes by their order", "[studio]") {
    const Studio& studio = *lantern_studio();
    std::set<std::uint64_t> keys;
    for (std::size_t i = 0; i < studio.scene.parts.size(); ++i) {
        keys.insert(studio.scene.parts[i].key);
        CHECK(&studio.rays->mesh(static_cast<std::uint32_t>(i)) ==
              studio.scene.parts[i].mesh.get());
    }
    CHECK(keys.size() == studio.scene.parts.size());
}

TEST_CASE("A ray from the camera to its aim meets the sitter", "[studio]") {
    const Studio& studio = *lantern_studio();
    const Camera& camera = studio.set.camera;
    RayHit hit;
    REQUIRE(studio.rays->first_hit(camera.position_m,
                                   glm::normalize(camera.aim_m - camera.position_m), 0.01, 20.0,
                                   ray_mask::all, hit));
    CHECK(studio.scene.parts[hit.mesh].owner == "subject");
}

TEST_CASE("The lantern maker's set without the person stays under 60 000 triangles", "[studio]") {
    std::size_t triangles = 0;
    for (const ScenePart& part : lantern_studio()->scene.parts)
        if (part.mask != ray_mask::subject && part.mask != ray_mask::strands)
            triangles += part.mesh->triangles.size();
    CHECK(triangles < 60000);
    CHECK(triangles > 20000);
}

TEST_CASE("Nothing of the set is below the floor or outside the room", "[studio]") {
    const Room& room = lantern_studio()->set.room;
    for (const ScenePart& part : lantern_studio()->scene.parts) {
        if (part.owner == "subject" && part.part != "stool") continue;
        INFO(part.owner << " " << part.part);
        glm::vec3 low(1e9F), high(-1e9F);
        for (const glm::vec3& point : part.mesh->positions_m) {
            low = glm::min(low, point);
            high = glm::max(high, point);
        }
        CHECK(low.y > -1e-6F);
        CHECK(high.y < room.ceiling_m + 1e-5);
        if (part.part == "cable") continue; // leads run on through doors and into sockets
        CHECK(low.x > -room.left_of_subject_m - 1e-5);
        CHECK(high.x < room.width_m - room.left_of_subject_m + 1e-5);
        CHECK(low.z > -room.behind_subject_m - 1e-5);
    }
}

TEST_CASE("Moving one light rebuilds its own meshes and no others", "[studio]") {
    const std::string id = lantern_maker().lights[1].id;
    const auto studio = after([](Set& set) { set.lights[1].support.base.position_m.x += 0.05; });
    CHECK(rebuilt(*studio) == Owners{id});
    CHECK(rekeyed(*studio) == Owners{id});
    CHECK(studio->form == lantern_studio()->form);
    CHECK(studio->subject == lantern_studio()->subject);
    CHECK(studio->rays != lantern_studio()->rays);
    // The light leaves the group of what stands still; from then on only it is built.
    CHECK(studio->rays->groups_built() == 2);
    Set again = studio->set;
    again.lights[1].support.base.position_m.x += 0.05;
    CHECK(make_studio(again, studio)->rays->groups_built() == 1);
    again.lights[0].support.base.position_m.x += 0.05;
    again.lights[1].support.base.position_m.x -= 0.05;
    CHECK(make_studio(again, studio)->rays->groups_built() == 2);
    for (std::size_t i = 0; i < studio->light_keys.size(); ++i)
        CHECK((studio->light_keys[i] == lantern_studio()->light_keys[i]) == (i != 1));
    // The old studio still answers: others may be using it.
    CHECK(&lantern_studio()->rays->mesh(0) == lantern_studio()->scene.parts[0].mesh.get());
}

TEST_CASE("Power, gel, on, colour temperature and exposure rebuild nothing", "[studio]") {
    const std::map<std::string, std::function<void(Set&)>> edits{
        {"power", [](Set& set) { set.lights[0].head.power_stops_below += 1.0; }},
        {"on", [](Set& set) { set.lights[0].on = false; }},
        {"gel",
         [](Set& set) {
             set.lights[0].modifier.gel = Gel{-120.0, 0.4, {}, {}};
         }},
        {"kelvin", [](Set& set) { set.lights[0].head.colour_k = 3200.0; }},
        {"role", [](Set& set) { set.lights[0].role = "fill"; }},
        {"exposure", [](Set& set) { set.camera.f_number = 4.0; }},
        {"iso", [](Set& set) { set.camera.iso = 400.0; }},
        {"notes", [](Set& set) { set.notes = "turn the paper"; }}};
    for (const auto& [name, edit] : edits) {
        INFO(name);
        const std::uint64_t cast = lantern_studio()->rays->rays_cast();
        const auto studio = after(edit);
        CHECK(studio->rays->rays_cast() == cast);
        CHECK(rebuilt(*studio).empty());
        CHECK(rekeyed(*studio).empty());
        CHECK(studio->rays == lantern_studio()->rays);
        CHECK(studio->light_keys == lantern_studio()->light_keys);
        CHECK(studio->subject_key == lantern_studio()->subject_key);
    }
    CHECK(after(edits.at("power"))->emitters[0].power ==
          Approx(0.5 * lantern_studio()->emitters[0].power));
}

TEST_CASE("Painting a wall changes its key and keeps its mesh and the rays", "[studio]") {
    const auto studio = after([](Set& set) { set.room.walls.rgb = Vec3(0.2); });
    CHECK(rebuilt(*studio).empty());
    CHECK(rekeyed(*studio) == Owners{"room"});
    CHECK(studio->rays == lantern_studio()->rays);
}

TEST_CASE("Colours of the subject keep the form, the rays and the lights", "[studio]") {
    const std::map<std::string, void (*)(Set&)> edits{
        {"skin", [](Set& set) { set.subject.skin.rgb = Vec3(0.1, 0.05, 0.04); }},
        {"iris", [](Set& set) { set.subject.iris.rgb = Vec3(0.05, 0.11, 0.22); }},
        {"oil", [](Set& set) { set.subject.skin_oil = 0.7; }},
        {"grey card", [](Set& set) { set.subject.grey_card = true; }}};
    for (const auto& [name, edit] : edits) {
        INFO(name);
        const auto studio = after(edit);
        CHECK(studio->form == lantern_studio()->form);
        CHECK(studio->subject_key != lantern_studio()->subject_key);
        CHECK(rekeyed(*studio) == Owners{"subject"});
        CHECK(studio->light_keys == lantern_studio()->light_keys);
    }
}

TEST_CASE("Every part of a grey-card subject is a matte 18 % without a highlight", "[studio]") {
    const auto studio = after([](Set& set) { set.subject.grey_card = true; });
    for (const ScenePart& part : studio->scene.parts) {
        if (part.owner != "subject" || part.part == "stool") continue;
        INFO(part.part);
        CHECK(part.mesh->colours.empty());
        CHECK(part.material.albedo == glm::vec3(0.18F));
        CHECK(part.material.f0 == 0.0F);
        CHECK(part.material.finish == Finish::plain);
    }
}

TEST_CASE("Turning the head keeps the form and re-aims the lights that follow the face",
          "[studio]") {
    const auto studio = after([](Set& set) { set.subject.head_turn_deg += 20.0; });
    CHECK(studio->form == lantern_studio()->form);
    CHECK(studio->subject != lantern_studio()->subject);
    CHECK(studio->subject_key != lantern_studio()->subject_key);
    CHECK(rebuilt(*studio).count("room") == 0);
    CHECK(rebuilt(*studio).count("camera") == 0);
    CHECK(rebuilt(*studio).count("subject") == 1);
    // The sitter's group and the strands', that of lights that follow the face, and what they left.
    CHECK(studio->rays->groups_built() == 4);
    Set further = studio->set;
    further.subject.head_turn_deg += 1.0;
    CHECK(make_studio(further, studio)->rays->groups_built() == 3);
    for (std::size_t i = 0; i < studio->set.lights.size(); ++i)
        if (studio->set.lights[i].aim.kind == AimKind::point)
            CHECK(studio->light_keys[i] == lantern_studio()->light_keys[i]);
}

TEST_CASE("Removing a light takes its parts away and keeps the others' meshes", "[studio]") {
    const std::string id = lantern_maker().lights[0].id;
    const auto studio = after([](Set& set) { set.lights.erase(set.lights.begin()); });
    CHECK(rebuilt(*studio).empty());
    for (const ScenePart& part : studio->scene.parts) CHECK(part.owner != id);
    // The lights' places in the list moved up, so their faces say so.
    for (const ScenePart& part : studio->scene.parts)
        if (part.emitting_light >= 0)
            CHECK(studio->set.lights[static_cast<std::size_t>(part.emitting_light)].id ==
                  part.owner);
}

TEST_CASE("An edit and a fresh start give the same scene", "[studio]") {
    const auto edit = [](Set& set) {
        set.lights[0].support.arm->rise_deg += 3.0;
        set.camera.position_m.y += 0.1;
    };
    const auto edited = after(edit);
    Set set = lantern_maker();
    edit(set);
    const auto fresh = make_studio(set);
    REQUIRE(edited->scene.parts.size() == fresh->scene.parts.size());
    for (std::size_t i = 0; i < fresh->scene.parts.size(); ++i) {
        CHECK(edited->scene.parts[i].key == fresh->scene.parts[i].key);
        CHECK(edited->scene.parts[i].mesh->positions_m == fresh->scene.parts[i].mesh->positions_m);
    }
}

TEST_CASE("Aims resolve to landmarks, points and directions", "[studio]") {
    const Landmarks& landmarks = lantern_studio()->subject->landmarks;
    Light light;
    light.aim.landmark = "chin";
    light.aim.feather_deg = 7.0;
    Vec3 chin(0.0);
    REQUIRE(find_landmark(landmarks, "chin", chin));
    CHECK(resolve_aim(light, landmarks).point_m == chin);
    CHECK_FALSE(resolve_aim(light, landmarks).is_direction);
    CHECK(resolve_aim(light, landmarks).feather_deg == 7.0);
    light.aim.kind = AimKind::point;
    light.aim.point_m = {0.1, 0.2, -2.0};
    CHECK(resolve_aim(light, landmarks).point_m == light.aim.point_m);
    light.aim.kind = AimKind::angles;
    light.aim.azimuth_deg = 180.0;
    light.aim.elevation_deg = -30.0;
    const AimTarget along = resolve_aim(light, landmarks);
    CHECK(along.is_direction);
    CHECK(glm::distance(along.direction, direction_from({180.0, -30.0})) < 1e-12);
}
