// Sets that ask for damaged or hostile mesh files, as the subject's file and as a prop: one clear
// line for each, nothing read elsewhere, the set as it was. What the files break is named where
// they are made: glTF 2.0 (Khronos, 2.0.1) by section, "Object files (.obj)" version 3.0, and
// public issue threads about loaders (the list in tests/sim/import/gltf_hostile_test.cpp).
#include "sim/set/set_io.h"
#include "sim/studio/studio.h"
#include "support/helpers/folder_watch.h"
#include "support/helpers/mesh_files.h"

#include <catch2/catch.hpp>
#include <functional>

using namespace keystead;
using namespace keystead::mesh_files;
using nlohmann::json;

namespace {

/// A file by its bytes, and words its refusal must hold: the place in it.
struct Hostile {
    const char* name;
    Bytes bytes;
    const char* place;
};

Bytes bytes_of(const std::string& text) {
    return {text.begin(), text.end()};
}

Hostile spoiled(const char* place, const std::function<void(Gltf&)>& spoil) {
    Gltf gltf = octahedron();
    spoil(gltf);
    return {"head.glb", as_glb(gltf), place};
}

Hostile with_word(const char* place, std::size_t at, std::uint32_t word) {
    Bytes bad = as_glb(octahedron());
    for (std::size_t i = 0; i < 4; ++i)
        bad[at + i] = static_cast<std::uint8_t>((word >> (8 * i)) & 0xFFU);
    return {"head.glb", bad, place};
}

Hostile text(const char* place, const std::string& words) {
    return {"head.gltf", bytes_of(words), place};
}

Hostile beside(const char* place, const std::string& uri) {
    return text(place, as_text(octahedron(), uri));
}

Hostile scan(const char* place, const std::string& lines) {
    return {"scan.obj", bytes_of("v 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\n" + lines), place};
}

Hostile needing(const char* extension) {
    return spoiled(extension, [&](Gltf& g) { g.document["extensionsRequired"] = {extension}; });
}

json& accessor(Gltf& gltf, std::size_t i) {
    return gltf.document["accessors"][i];
}

/// Containers and documents whose numbers point outside what they hold (§3.6, §4.4).
std::vector<Hostile> false_numbers() {
    return {
        spoiled("accessors[0]", [](Gltf& g) { accessor(g, 0)["count"] = 7; }),
        spoiled("accessors[0]", [](Gltf& g) { accessor(g, 0)["count"] = 1537228672809129302ULL; }),
        spoiled("accessors[0].count",
                [](Gltf& g) {
                    accessor(g, 0).erase("bufferView");
                    accessor(g, 0)["count"] = 1ULL << 50U;
                }),
        spoiled("bufferViews[1]", [](Gltf& g) { g.document["bufferViews"][1]["byteLength"] = 49; }),
        spoiled("buffers[0]", [](Gltf& g) { g.document["buffers"][0]["byteLength"] = 1U << 30U; }),
        spoiled("accessors[1]", [](Gltf& g) { g.binary[72] = 6; }),
        spoiled("primitives[0].indices",
                [](Gltf& g) { g.document["meshes"][0]["primitives"][0]["indices"] = -1; }),
        spoiled("accessors[0].componentType",
                [](Gltf& g) { accessor(g, 0)["componentType"] = 5127; }),
        spoiled("accessors[0]: vertex 0", [](Gltf& g) { g.binary[2] = 0xC0, g.binary[3] = 0x7F; }),
        spoiled("nodes[0].children", [](Gltf& g) { g.document["nodes"][0]["children"] = {0}; }),
        spoiled("nodes[0].scale",
                [](Gltf& g) {
                    g.document["nodes"][0]["scale"] = {1e200, 1, 1};
                }),
        with_word("chunk 0", 12, 0xFFFFFFECU), // 20 more and it wraps to 0
        with_word("header", 8, 0xFFFFFFFFU),
        with_word("first chunk", 16, 0x004E4942U),
    };
}

std::vector<Hostile> unread_features() {
    return {needing("KHR_draco_mesh_compression"), needing("EXT_meshopt_compression"),
            needing("KHR_texture_basisu"), needing("EXT_texture_webp"), needing("ACME_unheard_of")};
}

/// Text that is no JSON, that nests without end, or that names what lies elsewhere.
std::vector<Hostile> texts_and_ways_out(const std::string& outside) {
    return {
        text("JSON", "{\"asset\": "),
        text("JSON", "{\"a\xFF\xFE\": 1}"),
        text("nests", "{\"a\":" + std::string(1'000'000, '[')),
        beside("buffers[0].uri", "../outside/secret.bin"),
        beside("buffers[0].uri", "%2e%2e/outside/secret.bin"),
        beside("buffers[0].uri", "..\\outside\\secret.bin"),
        beside("buffers[0].uri", outside + "/secret.bin"),
        beside("buffers[0].uri", "file://" + outside + "/secret.bin"),
        beside("buffers[0].uri", "link.bin"),
        beside("buffers[0].uri", "a folder"),
        beside("nobody.bin", "nobody.bin"),
        {"head.glb", bytes_of("Kaydara FBX Binary  "), "an FBX file"},
        {"head.glb", {}, "empty"},
    };
}

std::vector<Hostile> spoiled_scans() {
    return {scan("line 5: vertex index 0", "f 0 1 2\n"),
            scan("line 5: vertex index 5", "f 1 2 5\n"),
            scan("line 5: vertex index -5", "f -5 -2 -1\n"),
            scan("line 5", "f 1 2 99999999999999999999\n"),
            scan("line 5: \"nan\"", "v 1 2 nan\nf 1 2 3\n"),
            scan("line 5", "v 1 2 1e999\nf 1 2 3\n"),
            scan("no faces", ""),
            scan("line 5: it is longer", std::string(17U << 20U, 'v')),
            scan("not text", std::string("v 1 2 3\0 4", 10))};
}

/// in/ holds the set and its meshes; outside/ what none of them may open.
struct Place {
    Folder folder;
    std::filesystem::path in = folder.path() / "in", outside = folder.path() / "outside";

    Place() {
        for (const char* name : {"outside/secret.bin", "outside/secret.mtl", "outside/secret.png"})
            folder.write(name, octahedron().binary);
        std::filesystem::create_directories(in / "a folder");
        std::filesystem::create_symlink("../outside/secret.bin", in / "link.bin");
    }
};

Set asking_for(const std::string& file) {
    Set set;
    set.subject.hair_style = HairStyle::none;
    set.subject.file = SubjectFile{};
    set.subject.file->path = file;
    Prop prop;
    prop.id = "thing";
    prop.path = file;
    set.props.push_back(prop);
    return set;
}

/// A generated sitter that stands in wherever a file is refused; made once.
const std::shared_ptr<const Studio>& stand_in() {
    static const std::shared_ptr<const Studio> studio = [] {
        Set set;
        set.subject.hair_style = HairStyle::none;
        return make_studio(set);
    }();
    return studio;
}

void check_line(const Problem& problem, const std::string& path, const Hostile& file) {
    const std::string message = problem.message();
    INFO(message.substr(0, 600));
    CHECK(message.find(path) == 0);
    CHECK(message.find(file.name) != std::string::npos);
    CHECK(message.find(file.place) != std::string::npos);
    CHECK(message.find('\n') == std::string::npos);
    const std::size_t remedy = message.rfind("; ");
    CHECK((remedy != std::string::npos && remedy + 6 < message.size()));
    CHECK(message.size() < 500);
}

void check_refused(const Place& place, const Hostile& file) {
    INFO(file.name << ", " << file.place);
    place.folder.write(std::string("in/") + file.name, file.bytes);
    const Set set = asking_for(file.name);
    const std::string before = write_set(set);
    const auto studio = make_studio(set, stand_in(), place.in);
    REQUIRE(studio->problems.size() == 2);
    check_line(studio->problems[0], "subject.file.path: ", file);
    check_line(studio->problems[1], "props[0].path: ", file);
    CHECK(write_set(studio->set) == before);
    CHECK(studio->form == stand_in()->form); // somebody to light meanwhile
    for (const ScenePart& part : studio->scene.parts) CHECK(part.owner != "thing");
}

} // namespace

TEST_CASE("A set that asks for a damaged or hostile file says so in one line and stays as it was",
          "[studio][own][hostile]") {
    const Place place;
    const testing::FolderWatch watch(place.outside);
    std::size_t files = 0;
    for (const auto& group : {false_numbers(), unread_features(),
                              texts_and_ways_out(place.outside.string()), spoiled_scans()})
        for (const Hostile& file : group) {
            check_refused(place, file);
            ++files;
        }
    CHECK(files >= 25);
    CHECK(watch.opened() == std::vector<std::string>{});
    // The control: the watch does see a file opened there.
    CHECK(import_mesh(place.outside / "secret.bin").ok() == false);
    CHECK(watch.opened() == std::vector<std::string>{"secret.bin"});
}

TEST_CASE("Images and material files that a mesh names elsewhere are not opened",
          "[studio][own][hostile]") {
    const Place place;
    const testing::FolderWatch watch(place.outside);
    Gltf gltf = octahedron();
    gltf.document["images"] = {{{"uri", "../outside/secret.png"}}};
    gltf.document["textures"] = {{{"source", 0}}};
    place.folder.write("in/odd.glb", as_glb(gltf));
    place.folder.write("in/odd.obj", "mtllib ../outside/secret.mtl\nusemtl a b\n"
                                     "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n");
    for (const char* name : {"odd.glb", "odd.obj"}) {
        Set set = asking_for(name);
        set.subject.file.reset();
        CHECK(make_studio(set, stand_in(), place.in)->problems.empty());
    }
    CHECK(watch.opened() == std::vector<std::string>{});
}
