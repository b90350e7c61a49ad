// glTF that is legal but odd, or in order: it must load, and come out as the specification says
// (glTF 2.0, Khronos, version 2.0.1, by section; KHR_mesh_quantization).
#include "support/helpers/mesh_files.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;
using namespace keystead::mesh_files;
using nlohmann::json;

namespace {

json& accessor(Gltf& gltf, std::size_t i) {
    return gltf.document["accessors"][i];
}
json& node(Gltf& gltf) {
    return gltf.document["nodes"][0];
}
json& part(Gltf& gltf) {
    return gltf.document["meshes"][0]["primitives"][0];
}

void check_size(const ImportedMesh& imported, double x, double y, double z) {
    const glm::vec3 size = imported.bounds.size();
    CHECK(size.x == Approx(x).epsilon(1e-4)); // single precision far from the origin
    CHECK(size.y == Approx(y).epsilon(1e-4));
    CHECK(size.z == Approx(z).epsilon(1e-4));
}

} // namespace

TEST_CASE("A container, embedded text and text beside its buffer give the same mesh", "[import]") {
    const Folder folder;
    const Gltf gltf = octahedron();
    folder.write("my body.bin", gltf.binary);
    folder.write("100%25.bin", gltf.binary);
    folder.write("parts/body.bin", gltf.binary);
    const ImportedMesh container = loaded(gltf);
    check_size(container, 2, 4, 6);
    CHECK(volume_of(container.mesh) == Approx(octahedron_volume));
    CHECK(container.format == MeshFormat::gltf);
    for (const std::string& text :
         {as_text(gltf), as_text(gltf, "my body.bin"), as_text(gltf, "my%20body.bin"),
          as_text(gltf, "100%25.bin"), as_text(gltf, "parts/body.bin"),
          "\xEF\xBB\xBF  \n" + as_text(gltf)}) {
        const Result<ImportedMesh> other = import_mesh(folder.write("a head.gltf", text));
        INFO((other ? std::string() : other.problem().message()));
        REQUIRE(other.ok());
        CHECK(other.value().mesh.positions_m == container.mesh.positions_m);
        CHECK(other.value().mesh.triangles == container.mesh.triangles);
    }
}

TEST_CASE("A node's transformation moves, turns and scales its mesh", "[import]") {
    // §3.5.3: translation, then rotation, then scale from left; the quaternion is x, y, z, w.
    Gltf turned = octahedron();
    const double half = std::sqrt(0.5);
    node(turned)["rotation"] = {half, 0, 0, half}; // 90° about x: y becomes z, z becomes -y
    node(turned)["translation"] = {10, 0, 0};
    node(turned)["scale"] = {0.01, 0.01, 0.01};
    const ImportedMesh imported = loaded(turned);
    check_size(imported, 0.02, 0.06, 0.04);
    CHECK(imported.bounds.low.x == Approx(9.99).epsilon(1e-6));
    CHECK(volume_of(imported.mesh) == Approx(octahedron_volume * 1e-6).epsilon(1e-3));

    Gltf matrix = octahedron(); // column-major: the fourth column is the translation
    node(matrix)["matrix"] = {0, 0, 2, 0, 2, 0, 0, 0, 0, 2, 0, 0, 5, 6, 7, 1};
    const ImportedMesh moved = loaded(matrix);
    check_size(moved, 8, 12, 4);
    CHECK(moved.bounds.low.y == Approx(0.0));

    Gltf nested = octahedron();
    nested.document["nodes"] = json::parse(
        R"([{"children": [1], "scale": [2, 2, 2]}, {"children": [2], "translation": [1, 0, 0]},
            {"mesh": 0}])");
    CHECK(loaded(nested).bounds.low.x == Approx(0.0));
}

TEST_CASE("A mirrored node still faces outward", "[import]") {
    // §3.7.4: a negative determinant turns the winding.
    for (const auto& scale : {json{-1, 1, 1}, json{1, -2, 1}, json{-1, -1, -1}}) {
        Gltf gltf = octahedron();
        node(gltf)["scale"] = scale;
        const ImportedMesh imported = loaded(gltf);
        CHECK(volume_of(imported.mesh) > 0.0);
        CHECK_FALSE(has_note(imported, "inside out")); // turned by rule, not by guess
        for (std::size_t i = 0; i < imported.mesh.positions_m.size(); ++i)
            CHECK(glm::dot(imported.mesh.positions_m[i], imported.mesh.normals[i]) > 0.0F);
    }
}

TEST_CASE("Normals in the file turn with the inverse transpose", "[import]") {
    // A plane x + y = 0 stretched along x by 2: its normal leans toward y.
    Gltf gltf = triangle();
    gltf.binary.clear();
    put<float>(gltf.binary, {0, 0, 0, 1, -1, 0, 0, 0, 1});
    Bytes normals;
    const float half = std::sqrt(0.5F);
    for (int i = 0; i < 3; ++i) put<float>(normals, {-half, -half, 0});
    part(gltf)["attributes"]["NORMAL"] =
        add_accessor(gltf, normals, {{"componentType", 5126}, {"count", 3}, {"type", "VEC3"}});
    node(gltf)["scale"] = {2, 1, 1};
    const ImportedMesh imported = loaded(gltf);
    const glm::vec3 expected = glm::normalize(glm::vec3(-0.5F, -1.0F, 0.0F));
    CHECK(glm::length(imported.mesh.normals[0] - expected) < 1e-5F);
}

TEST_CASE("Strips, fans and bare corners become triangles of the right winding", "[import]") {
    // §3.7.2.1: strip p_i = {v_i, v_(i+1+i%2), v_(i+2-i%2)}, fan p_i = {v_(i+1), v_(i+2), v_0}.
    Gltf bare = triangle();
    CHECK(loaded(bare).mesh.triangles.size() == 1);
    for (const int mode : {5, 6}) {
        Gltf gltf = triangle();
        gltf.binary.clear();
        if (mode == 5)
            put<float>(gltf.binary, {0, 0, 0, 1, 0, 0, 0, 1, 0, 1, 1, 0});
        else
            put<float>(gltf.binary, {0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0});
        accessor(gltf, 0)["count"] = 4;
        gltf.document["bufferViews"][0]["byteLength"] = 48;
        gltf.document["buffers"][0]["byteLength"] = 48;
        part(gltf)["mode"] = mode;
        const ImportedMesh imported = loaded(gltf);
        REQUIRE(imported.mesh.triangles.size() == 2);
        for (const glm::vec3& normal : imported.mesh.normals)
            CHECK(glm::length(normal - glm::vec3(0, 0, 1)) < 1e-6F);
    }
}

TEST_CASE("An accessor without a view is zeros, and a sparse one replaces them", "[import]") {
    // §3.6.2.3 and §5.1.1.
    Gltf gltf = octahedron();
    accessor(gltf, 0).erase("bufferView");
    Bytes targets;
    put<std::uint8_t>(targets, {1, 2, 4});
    const std::size_t indices =
        add_accessor(gltf, targets, {{"componentType", 5121}, {"count", 3}, {"type", "SCALAR"}});
    Bytes places;
    put<float>(places, {4, 0, 0, 0, 5, 0, 0, 0, 6});
    const std::size_t values =
        add_accessor(gltf, places, {{"componentType", 5126}, {"count", 3}, {"type", "VEC3"}});
    accessor(gltf, 0)["sparse"] = {
        {"count", 3},
        {"indices",
         {{"bufferView", accessor(gltf, indices)["bufferView"]}, {"componentType", 5121}}},
        {"values", {{"bufferView", accessor(gltf, values)["bufferView"]}}}};
    check_size(loaded(gltf), 4, 5, 6);
}

TEST_CASE("Interleaved and unaligned data are read where they lie", "[import]") {
    Gltf gltf = triangle();
    gltf.binary.assign(2, 0xEE); // offset 2: not a multiple of the component
    for (int i = 0; i < 3; ++i) {
        put<float>(gltf.binary, {i == 1 ? 7.0F : 0.0F, i == 2 ? 8.0F : 0.0F, 0.0F});
        put<float>(gltf.binary, {9e9F, 9e9F});
    }
    gltf.document["bufferViews"][0] = {
        {"buffer", 0}, {"byteOffset", 2}, {"byteLength", 52}, {"byteStride", 20}};
    gltf.document["buffers"][0]["byteLength"] = gltf.binary.size();
    check_size(loaded(gltf), 7, 8, 0);
}

TEST_CASE("Quantised positions are read by their formula", "[import]") {
    // KHR_mesh_quantization, and §3.6.2.2: f = max(c / 32767, -1) of a signed short, c / 255 of an
    // unsigned byte; not normalised, the number itself.
    Gltf gltf = triangle();
    gltf.document["extensionsRequired"] = {"KHR_mesh_quantization"};
    gltf.binary.clear();
    put<std::int16_t>(gltf.binary, {-32768, 0, 0, 0, 32767, 0, 0, 0, 0, 16384, 0, 0});
    gltf.document["bufferViews"][0] = {{"buffer", 0}, {"byteLength", 24}, {"byteStride", 8}};
    gltf.document["buffers"][0]["byteLength"] = 24;
    accessor(gltf, 0)["componentType"] = 5122;
    accessor(gltf, 0)["normalized"] = true;
    ImportedMesh imported = loaded(gltf);
    check_size(imported, 2.0, 16384.0 / 32767.0, 0);
    CHECK(imported.bounds.low.x == -1.0F);
    accessor(gltf, 0)["normalized"] = false;
    imported = loaded(gltf);
    CHECK(imported.bounds.low.x == -32768.0F);
    CHECK(imported.bounds.high.y == 16384.0F);
}

TEST_CASE("A skinned mesh stands where its joints put it, whatever its own node says", "[import]") {
    // §3.7.3.3: only the joints' transformations apply. Joint 1 turns by 90° about z, joint 2 by
    // nothing and moves up by 10; the inverse bind matrix of joint 1 moves back by 1 along x.
    Gltf gltf = triangle();
    const double half = std::sqrt(0.5);
    gltf.document["nodes"] = {{{"mesh", 0}, {"skin", 0}, {"translation", {1000, 0, 0}}},
                              {{"rotation", {0, 0, half, half}}},
                              {{"translation", {0, 10, 0}}}};
    gltf.document["scenes"][0]["nodes"] = {0, 1, 2};
    Bytes joints, weights, inverse;
    put<std::uint8_t>(joints, {0, 1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0});
    put<float>(weights, {1, 0, 0, 0, 0.5F, 0.5F, 0, 0, 0, 1, 0, 0});
    put<float>(inverse, {1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, -1, 0, 0, 1});
    put<float>(inverse, {1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1});
    const std::size_t j =
        add_accessor(gltf, joints, {{"componentType", 5121}, {"count", 3}, {"type", "VEC4"}});
    const std::size_t w =
        add_accessor(gltf, weights, {{"componentType", 5126}, {"count", 3}, {"type", "VEC4"}});
    const std::size_t m =
        add_accessor(gltf, inverse, {{"componentType", 5126}, {"count", 2}, {"type", "MAT4"}});
    part(gltf)["attributes"]["JOINTS_0"] = j;
    part(gltf)["attributes"]["WEIGHTS_0"] = w;
    gltf.document["skins"] = {{{"joints", {1, 2}}, {"inverseBindMatrices", m}}};
    const ImportedMesh imported = loaded(gltf);
    CHECK(has_note(imported, "rest pose"));
    const auto& p = imported.mesh.positions_m;
    REQUIRE(p.size() == 3);
    CHECK(glm::length(p[0] - glm::vec3(0, -1, 0)) < 1e-5F);   // (0-1, 0) turned
    CHECK(glm::length(p[1] - glm::vec3(0.5F, 5, 0)) < 1e-5F); // half (0, 0), half (1, 10)
    CHECK(glm::length(p[2] - glm::vec3(0, 11, 0)) < 1e-5F);

    Gltf beyond = gltf;
    beyond.binary[beyond.document["bufferViews"][1]["byteOffset"].get<std::size_t>()] = 2;
    CHECK_THAT(refusal_of(beyond), Catch::Contains("a joint points beyond a skin of 2"));
    Gltf without = gltf;
    without.document["meshes"][0]["primitives"][0]["attributes"].erase("WEIGHTS_0");
    CHECK_THAT(refusal_of(without), Catch::Contains("no joints or weights"));
    Gltf fewer = gltf;
    fewer.document["accessors"][m]["count"] = 1;
    CHECK_THAT(refusal_of(fewer), Catch::Contains("fewer inverse bind matrices"));
}

TEST_CASE("Vertex colours are linear and multiply the base colour", "[import]") {
    // §3.9.2.
    Gltf gltf = triangle();
    Bytes colours;
    put<std::uint8_t>(colours, {255, 0, 51, 255, 255, 0, 51, 255, 255, 0, 51, 255});
    part(gltf)["attributes"]["COLOR_0"] = add_accessor(
        gltf, colours,
        {{"componentType", 5121}, {"normalized", true}, {"count", 3}, {"type", "VEC4"}});
    part(gltf)["material"] = 0;
    gltf.document["materials"] = {
        {{"pbrMetallicRoughness", {{"baseColorFactor", {0.5, 0.5, 0.5, 1.0}}}}}};
    const ImportedMesh imported = loaded(gltf);
    REQUIRE(imported.mesh.colours.size() == 3);
    CHECK(glm::length(imported.mesh.colours[0] - glm::vec3(0.5F, 0.0F, 0.1F)) < 1e-5F);
    CHECK(loaded(triangle()).mesh.colours.empty()); // no colour said, none made up
}

TEST_CASE("Images are never a reason to fail, and are noted", "[import]") {
    Gltf gltf = octahedron();
    gltf.document["images"] = {{{"uri", "../../etc/skin.png"}},
                               {{"uri", "missing.png"}},
                               {{"mimeType", "image/png"}}, // neither uri nor view (K5)
                               {{"bufferView", 77}},
                               42};
    gltf.document["textures"] = {{{"source", 99}}};
    const ImportedMesh imported = loaded(gltf);
    CHECK(has_note(imported, "Images are not read (5"));
    CHECK(has_note(imported, "Refused: head.glb, images[0]"));
    CHECK(imported.mesh.triangles.size() == 8);
}

TEST_CASE("Legal oddities of a document load", "[import]") {
    Gltf no_scene = octahedron();
    no_scene.document.erase("scene");
    no_scene.document.erase("scenes");
    CHECK(loaded(no_scene).mesh.triangles.size() == 8);

    Gltf twice = octahedron(); // one mesh in two places
    twice.document["nodes"].push_back({{"mesh", 0}, {"translation", {10, 0, 0}}});
    twice.document["scenes"][0]["nodes"] = {0, 1};
    check_size(loaded(twice), 12, 4, 6);

    Gltf elsewhere = octahedron(); // only the scene that is named is shown
    elsewhere.document["nodes"].push_back({{"mesh", 0}, {"translation", {10, 0, 0}}});
    elsewhere.document["scenes"] = json::parse(R"([{"nodes": [0, 1]}, {"nodes": [0]}])");
    elsewhere.document["scene"] = 1;
    check_size(loaded(elsewhere), 2, 4, 6);

    Gltf reals = octahedron(); // §2.7: 6.0 is a way to write 6
    accessor(reals, 0)["count"] = 6.0;
    CHECK(loaded(reals).mesh.triangles.size() == 8);

    Gltf optional = octahedron(); // used, not required: the uncompressed copy is read
    optional.document["extensionsUsed"] = {"KHR_draco_mesh_compression"};
    part(optional)["extensions"]["KHR_draco_mesh_compression"] = {{"bufferView", 0}};
    CHECK(loaded(optional).mesh.triangles.size() == 8);

    Gltf surface = octahedron();
    surface.document["extensionsRequired"] = {"KHR_materials_unlit"};
    CHECK(has_note(loaded(surface), "KHR_materials_unlit"));

    Gltf lines = octahedron();
    lines.document["meshes"][0]["primitives"].push_back(
        {{"attributes", {{"POSITION", 0}}}, {"mode", 1}});
    CHECK(has_note(loaded(lines), "Points and lines are left out"));

    Gltf hidden = octahedron(); // a part scaled to nothing hides it
    hidden.document["nodes"].push_back({{"mesh", 0}, {"scale", {0, 0, 0}}});
    hidden.document["scenes"][0]["nodes"] = {0, 1};
    CHECK(has_note(loaded(hidden), "scaled to nothing"));

    Gltf folded = octahedron();
    folded.binary[72] = folded.binary[74];
    CHECK(has_note(loaded(folded), "1 triangles that use one corner twice"));

    Gltf spare = octahedron(); // a vertex far away that no triangle uses does not count
    Bytes places(spare.binary.begin(), spare.binary.begin() + 72);
    put<float>(places, {500, 500, 500});
    part(spare)["attributes"]["POSITION"] =
        add_accessor(spare, places, {{"componentType", 5126}, {"count", 7}, {"type", "VEC3"}});
    check_size(loaded(spare), 2, 4, 6);
}

TEST_CASE("A figure without normals keeps its edges and is flat between them", "[import]") {
    // A cube: 8 places, 24 corners once its edges are kept, each normal along an axis.
    Gltf gltf = octahedron();
    Bytes places, corners;
    for (int i = 0; i < 8; ++i)
        put<float>(places, {static_cast<float>(i & 1), static_cast<float>((i >> 1) & 1),
                            static_cast<float>(i >> 2)});
    put<std::uint8_t>(corners, {0, 2, 3, 0, 3, 1, 4, 5, 7, 4, 7, 6, 0, 1, 5, 0, 5, 4,
                                2, 6, 7, 2, 7, 3, 0, 4, 6, 0, 6, 2, 1, 3, 7, 1, 7, 5});
    part(gltf)["attributes"]["POSITION"] =
        add_accessor(gltf, places, {{"componentType", 5126}, {"count", 8}, {"type", "VEC3"}});
    part(gltf)["indices"] =
        add_accessor(gltf, corners, {{"componentType", 5121}, {"count", 36}, {"type", "SCALAR"}});
    const ImportedMesh cube = loaded(gltf);
    CHECK(cube.mesh.positions_m.size() == 24);
    CHECK(volume_of(cube.mesh) == Approx(1.0));
    for (const glm::vec3& n : cube.mesh.normals)
        CHECK(std::max({std::abs(n.x), std::abs(n.y), std::abs(n.z)}) == Approx(1.0));
}

TEST_CASE("Progress is told and can stop an import", "[import]") {
    const Folder folder;
    const std::filesystem::path file = folder.write("head.glb", as_glb(octahedron()));
    std::vector<double> shares;
    REQUIRE(import_mesh(file, {}, [&](double share, std::string_view) {
                shares.push_back(share);
                return true;
            }).ok());
    CHECK(std::is_sorted(shares.begin(), shares.end()));
    CHECK(shares.front() == 0.0);
    CHECK(shares.back() == 1.0);
    for (std::size_t stop = 0; stop < shares.size(); ++stop) {
        std::size_t calls = 0;
        const auto result =
            import_mesh(file, {}, [&](double, std::string_view) { return calls++ != stop; });
        CHECK_FALSE(result.ok());
        CHECK(calls == stop + 1);
    }
}
