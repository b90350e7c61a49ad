// Things from files, standing in the set.
#include "sim/review/review.h"
#include "sim/set/set_io.h"
#include "sim/studio/studio.h"
#include "support/helpers/mesh_files.h"

#include <catch2/catch.hpp>
#include <fstream>

using namespace keystead;

namespace {

/// A box of 2 x 3 x 1, one corner away from the file's origin; a unit is a decimetre by scale 0.1.
void write_box(const std::filesystem::path& file) {
    std::ofstream(file)
        << "v 5 1 1\nv 7 1 1\nv 7 4 1\nv 5 4 1\nv 5 1 2\nv 7 1 2\nv 7 4 2\nv 5 4 2\n"
           "f 4 3 2 1\nf 5 6 7 8\nf 1 2 6 5\nf 2 3 7 6\nf 3 4 8 7\nf 4 1 5 8\n";
}

Set with_box() {
    Set set;
    set.subject.hair_style = HairStyle::none;
    Prop prop;
    prop.id = "box";
    prop.path = "box.obj";
    prop.scale = 0.1;
    prop.position_m = {1.0, 0.5, -0.3};
    set.props.push_back(prop);
    return set;
}

const ScenePart* part_of(const Studio& studio, const std::string& owner) {
    for (const ScenePart& part : studio.scene.parts)
        if (part.owner == owner) return &part;
    return nullptr;
}

} // namespace

TEST_CASE("A prop stands where the document puts it, scaled and turned, and casts", "[studio]") {
    const mesh_files::Folder folder;
    write_box(folder.path() / "box.obj");
    Set set = with_box();
    const auto straight = make_studio(set, nullptr, folder.path());
    REQUIRE(straight->problems.empty());
    const ScenePart* part = part_of(*straight, "box");
    REQUIRE(part != nullptr);
    CHECK(part->mask == ray_mask::gear);
    CHECK(part->casts);
    const auto box = [](const ScenePart& one) {
        glm::vec3 low(1e9F), high(-1e9F);
        for (const glm::vec3& p : one.mesh->positions_m)
            low = glm::min(low, p), high = glm::max(high, p);
        return std::pair{low, high};
    };
    // Closed form: 0.2 x 0.3 x 0.1 m about (1, -0.3), standing at 0.5.
    const auto [low, high] = box(*part);
    CHECK(glm::length(low - glm::vec3(0.9F, 0.5F, -0.35F)) < 1e-5F);
    CHECK(glm::length(high - glm::vec3(1.1F, 0.8F, -0.25F)) < 1e-5F);
    CHECK(straight->rays->blocked({1.0, 0.6, 0.5}, {1.0, 0.6, -1.0}, ray_mask::casters));
    CHECK_FALSE(straight->rays->blocked({1.0, 0.6, 0.5}, {1.0, 0.6, -1.0}, ray_mask::subject));

    // A quarter turn swaps width and depth.
    set.props[0].turn_deg = 90.0;
    const auto turned = make_studio(set, straight, folder.path());
    CHECK(turned->files == straight->files);
    CHECK(turned->subject == straight->subject);
    const auto [turned_low, turned_high] = box(*part_of(*turned, "box"));
    CHECK(glm::length(turned_high - turned_low - glm::vec3(0.1F, 0.3F, 0.2F)) < 1e-5F);
    CHECK(part_of(*turned, "box")->key != part->key);
    CHECK(turned->rays != straight->rays);
}

TEST_CASE("An edit elsewhere leaves a prop's mesh and key alone; a new file on disk does not",
          "[studio]") {
    const mesh_files::Folder folder;
    write_box(folder.path() / "box.obj");
    Set set = with_box();
    const auto first = make_studio(set, nullptr, folder.path());
    set.room.ceiling_m += 0.2;
    const auto second = make_studio(set, first, folder.path());
    CHECK(part_of(*second, "box")->mesh == part_of(*first, "box")->mesh);
    CHECK(part_of(*second, "box")->key == part_of(*first, "box")->key);
    std::ofstream(folder.path() / "box.obj") << "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n";
    const auto third = make_studio(set, second, folder.path());
    CHECK(part_of(*third, "box")->mesh->triangles.size() == 1);
}

TEST_CASE("A prop weighs nothing: no support's verdict changes with it", "[studio]") {
    const auto loaded =
        load_set(std::string(KEYSTEAD_SOURCE_DIR) + "/assets/sets/lantern-maker.json");
    REQUIRE(loaded.ok());
    const mesh_files::Folder folder;
    write_box(folder.path() / "box.obj");
    Set set = loaded.value().set;
    const auto without = make_studio(set, nullptr, folder.path());
    set.props = with_box().props;
    const auto with = make_studio(set, without, folder.path());
    REQUIRE(with->supports.size() == without->supports.size());
    for (std::size_t i = 0; i < with->supports.size(); ++i) {
        const auto mass = [](const SupportPose& pose) {
            double sum = 0.0;
            for (const MassPoint& point : pose.masses) sum += point.mass_kg;
            return sum;
        };
        CHECK(mass(with->supports[i]) == mass(without->supports[i]));
    }
}

TEST_CASE("A prop whose file can't be read is named and left out; the rest stands", "[studio]") {
    const mesh_files::Folder folder;
    const auto studio = make_studio(with_box(), nullptr, folder.path());
    REQUIRE(studio->problems.size() == 1);
    CHECK(studio->problems[0].message().find("props[0].path: ") == 0);
    CHECK(studio->problems[0].message().find("box.obj") != std::string::npos);
    CHECK(part_of(*studio, "box") == nullptr);
    const Review review = review_set(*studio, {.margins = false});
    const auto is_told = [](const Finding& f) { return f.code == "file-unusable"; };
    CHECK(std::any_of(review.findings.begin(), review.findings.end(), is_told));
}
