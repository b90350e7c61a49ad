// Damaged and hostile glTF. What each file breaks: the glTF 2.0 specification (Khronos, 2.0.1), by
// section; and loaders that such files have brought down, from public issue threads, retold (cgltf
// 247 and 302; tinygltf 158, 372 and 379; fastgltf 144; assimp 3490 and 5330; f3d 1705, 1707,
// 2320).
#include "support/helpers/mesh_files.h"

#include <catch2/catch.hpp>
#include <cstring>
#include <functional>

using namespace keystead;
using namespace keystead::mesh_files;
using Catch::Contains;
using nlohmann::json;

namespace {

/// One way to spoil the octahedron, and words its refusal must hold: the place, mostly.
struct Spoiled {
    const char* how;
    std::function<void(Gltf&)> spoil;
    const char* words;
};

void check_refusals(const std::vector<Spoiled>& files) {
    for (const Spoiled& file : files) {
        Gltf gltf = octahedron();
        file.spoil(gltf);
        INFO(file.how);
        CHECK_THAT(refusal_of(gltf), Contains(file.words));
    }
}

json& accessor(Gltf& gltf, std::size_t i) {
    return gltf.document["accessors"][i];
}
json& view(Gltf& gltf, std::size_t i) {
    return gltf.document["bufferViews"][i];
}
json& node(Gltf& gltf) {
    return gltf.document["nodes"][0];
}
json& part(Gltf& gltf) {
    return gltf.document["meshes"][0]["primitives"][0];
}

} // namespace

TEST_CASE("Numbers of a glTF that point outside its bytes are refused by place", "[import]") {
    check_refusals({
        // §3.6.2.4: accessor.offset + stride * (count - 1) + element must fit its view.
        {"accessor larger than its view", [](Gltf& g) { accessor(g, 0)["count"] = 7; },
         "accessors[0]: 7 elements of 12 bytes"},
        {"accessor offset beyond its view", [](Gltf& g) { accessor(g, 0)["byteOffset"] = 4; },
         "accessors[0]"},
        {"count that wraps when multiplied by 12",
         [](Gltf& g) { accessor(g, 0)["count"] = 1537228672809129302ULL; }, "accessors[0]"},
        {"count beyond 2^53", [](Gltf& g) { accessor(g, 0)["count"] = 18446744073709551615ULL; },
         "accessors[0].count"},
        {"offset that wraps when added",
         [](Gltf& g) { accessor(g, 0)["byteOffset"] = 9007199254740991ULL; }, "accessors[0]"},
        // §3.6.1.1: a view must lie in its buffer.
        {"view longer than its buffer", [](Gltf& g) { view(g, 1)["byteLength"] = 49; },
         "bufferViews[1]"},
        {"view offset that wraps", [](Gltf& g) { view(g, 1)["byteOffset"] = 9007199254740990ULL; },
         "bufferViews[1]"},
        {"view of a buffer that is not there", [](Gltf& g) { view(g, 0)["buffer"] = 1; },
         "bufferViews[0].buffer"},
        {"buffer longer than the file",
         [](Gltf& g) { g.document["buffers"][0]["byteLength"] = 124; },
         "buffers[0]: it declares 124 bytes"},
        {"stride smaller than an element", [](Gltf& g) { view(g, 0)["byteStride"] = 8; },
         "accessors[0]"},
        {"stride that is no multiple of four", [](Gltf& g) { view(g, 0)["byteStride"] = 13; },
         "bufferViews[0].byteStride"},
        {"stride beyond 252", [](Gltf& g) { view(g, 0)["byteStride"] = 256; },
         "bufferViews[0].byteStride"},
        {"index beyond the vertices", [](Gltf& g) { g.binary[72] = 6; },
         "accessors[1]: index 0 is 6, there are 6 vertices"},
        {"accessor of a view that is not there", [](Gltf& g) { accessor(g, 0)["bufferView"] = 9; },
         "accessors[0].bufferView"},
        {"part of an accessor that is not there",
         [](Gltf& g) { part(g)["attributes"]["POSITION"] = 2; },
         "primitives[0].attributes.POSITION"},
        {"index that 32 bits would turn into 0",
         [](Gltf& g) { part(g)["attributes"]["POSITION"] = 4294967296ULL; }, "POSITION"},
        {"negative index", [](Gltf& g) { part(g)["indices"] = -1; }, "primitives[0].indices"},
    });
}

TEST_CASE("Fields of a glTF of the wrong kind are refused by place", "[import]") {
    check_refusals({
        {"unknown component type", [](Gltf& g) { accessor(g, 0)["componentType"] = 5127; },
         "accessors[0].componentType"},
        {"double components (not in §3.6.2.2)",
         [](Gltf& g) { accessor(g, 0)["componentType"] = 5130; }, "accessors[0].componentType"},
        {"positions that are pairs", [](Gltf& g) { accessor(g, 0)["type"] = "VEC2"; },
         "accessors[0].type"},
        {"unknown element type", [](Gltf& g) { accessor(g, 0)["type"] = "VEC5"; },
         "accessors[0].type"},
        {"indices that are reals", [](Gltf& g) { accessor(g, 1)["componentType"] = 5126; },
         "accessors[1]"},
        {"half a triangle", [](Gltf& g) { accessor(g, 1)["count"] = 23; }, "23 corners"},
        {"count that is text", [](Gltf& g) { accessor(g, 0)["count"] = "6"; },
         "accessors[0].count"},
        {"count that is missing", [](Gltf& g) { accessor(g, 0).erase("count"); },
         "count is missing"},
        {"accessors that are no list", [](Gltf& g) { g.document["accessors"] = 3; }, "accessors"},
        {"an accessor that is null", [](Gltf& g) { accessor(g, 0) = nullptr; }, "accessors[0]"},
        {"no asset", [](Gltf& g) { g.document.erase("asset"); }, "asset"},
        {"version 1", [](Gltf& g) { g.document["asset"]["version"] = "1.0"; },
         "export as glTF 2.0"},
        {"a later major version", [](Gltf& g) { g.document["asset"]["minVersion"] = "3.0"; },
         "asset.minVersion"},
        {"matrix of fifteen", [](Gltf& g) { node(g)["matrix"] = std::vector<double>(15, 1.0); },
         "nodes[0].matrix"},
        {"scale beyond single precision",
         [](Gltf& g) {
             node(g)["scale"] = {1e200, 1, 1};
         },
         "nodes[0].scale"},
        {"translation that leaves single precision",
         [](Gltf& g) {
             node(g)["translation"] = {1e20, 0, 0};
         },
         "not a usable position"},
        {"perspective in a matrix",
         [](Gltf& g) { node(g)["matrix"] = {1, 0, 0, 1, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1}; },
         "nodes[0]: its transformation"},
        {"no triangles at all", [](Gltf& g) { part(g)["mode"] = 0; }, "shows no triangles"},
        {"unknown mode", [](Gltf& g) { part(g)["mode"] = 7; }, "primitives[0].mode"},
        {"all corners in one place",
         [](Gltf& g) { std::fill(g.binary.begin(), g.binary.begin() + 72, std::uint8_t{0}); },
         "one place"},
        {"position that is not a number", [](Gltf& g) { g.binary[2] = 0xC0, g.binary[3] = 0x7F; },
         "accessors[0]: vertex 0"},
        {"position that is infinite", [](Gltf& g) { g.binary[2] = 0x80, g.binary[3] = 0x7F; },
         "accessors[0]: vertex 0"},
    });
}

TEST_CASE("Nodes that are no trees are refused", "[import]") {
    // §3.5.2: the hierarchy must be a set of strict trees.
    Gltf self = octahedron();
    self.document["nodes"] = json::parse(R"([{"mesh": 0, "children": [0]}])");
    CHECK_THAT(refusal_of(self), Contains("nodes[0].children: it is its own ancestor"));

    Gltf ring = octahedron();
    ring.document["nodes"] =
        json::parse(R"([{"mesh": 0}, {"children": [2]}, {"children": [3]}, {"children": [1]}])");
    CHECK_THAT(refusal_of(ring), Contains("it is its own ancestor"));

    Gltf shared = octahedron();
    shared.document["nodes"] =
        json::parse(R"([{"children": [1, 2]}, {"children": [2]}, {"mesh": 0}])");
    CHECK_THAT(refusal_of(shared), Contains("nodes[2] already belongs to nodes[0]"));

    Gltf twice = octahedron();
    twice.document["nodes"] = json::parse(R"([{"children": [1, 1]}, {"mesh": 0}])");
    CHECK_THAT(refusal_of(twice), Contains("already belongs"));

    Gltf beyond = octahedron();
    beyond.document["nodes"][0]["children"] = {5};
    CHECK_THAT(refusal_of(beyond), Contains("nodes[0].children"));

    Gltf deep = octahedron();
    for (int i = 1; i <= 300; ++i) deep.document["nodes"].push_back({{"children", {i + 1}}});
    deep.document["nodes"].push_back({{"mesh", 0}});
    deep.document["scenes"][0]["nodes"] = {1};
    CHECK_THAT(refusal_of(deep), Contains("deeper than 256 levels"));
}

TEST_CASE("A glTF that multiplies one mesh beyond the limit is refused before it is built",
          "[import]") {
    Gltf many = octahedron();
    many.document["nodes"] = json::array();
    many.document["scenes"][0]["nodes"] = json::array();
    for (int i = 0; i < 1000; ++i) {
        many.document["nodes"].push_back({{"mesh", 0}});
        many.document["scenes"][0]["nodes"].push_back(i);
    }
    const Folder folder;
    ImportLimits limits;
    limits.max_triangles = 7999;
    CHECK_THAT(refusal(folder.write("head.glb", as_glb(many)), limits), Contains("8000 triangles"));
    // Without a view no byte stands behind a count: a few bytes would ask for terabytes.
    Gltf bare = octahedron();
    accessor(bare, 0).erase("bufferView");
    accessor(bare, 0)["count"] = 1ULL << 50U;
    CHECK_THAT(refusal_of(bare), Contains("accessors[0].count"));
}

TEST_CASE("An extension a glTF needs and this program lacks is named, with the way out",
          "[import]") {
    const std::vector<std::pair<const char*, const char*>> needed{
        {"KHR_draco_mesh_compression", "Draco compression"},
        {"EXT_meshopt_compression", "meshopt compression"},
        {"KHR_texture_basisu", "KTX2 images"},
        {"EXT_texture_webp", "WebP images"},
        {"ACME_unheard_of", "ACME_unheard_of"}};
    for (const auto& [name, words] : needed) {
        Gltf gltf = octahedron();
        gltf.document["extensionsRequired"] = {name};
        const std::string message = refusal_of(gltf);
        CHECK_THAT(message, Contains(name) && Contains(words) && Contains("not supported"));
    }
    // Compressed without saying so, and without the uncompressed copy: zeros, unless it is noticed.
    Gltf draco = octahedron();
    accessor(draco, 0).erase("bufferView");
    part(draco)["extensions"]["KHR_draco_mesh_compression"] = {{"bufferView", 0}};
    CHECK_THAT(refusal_of(draco), Contains("Draco compression"));
    Gltf meshopt = octahedron();
    meshopt.document["buffers"].push_back(
        {{"byteLength", 120}, {"extensions", {{"EXT_meshopt_compression", {{"fallback", true}}}}}});
    CHECK_THAT(refusal_of(meshopt), Contains("buffers[1]") && Contains("meshopt compression"));
}

TEST_CASE("A container whose lengths lie is refused", "[import]") {
    // §4.4: header of 12 bytes, then chunks of length, type and data.
    const Bytes good = as_glb(octahedron());
    const Folder folder;
    const auto with_word = [&](std::size_t at, std::uint32_t word) {
        Bytes bad = good;
        for (std::size_t i = 0; i < 4; ++i)
            bad[at + i] = static_cast<std::uint8_t>((word >> (8 * i)) & 0xFFU);
        return refusal(folder.write("head.glb", bad));
    };
    CHECK_THAT(with_word(12, 0xFFFFFFF0U), Contains("chunk 0: it claims 4.3 GB"));
    CHECK_THAT(with_word(12, 0xFFFFFFECU), Contains("chunk 0")); // 20 + this wraps to 0
    CHECK_THAT(with_word(8, 0xFFFFFFFFU), Contains("header"));
    CHECK_THAT(with_word(8, 13U), Contains("header"));
    CHECK_THAT(with_word(4, 1U), Contains("header: container version 1"));
    CHECK_THAT(with_word(16, 0x004E4942U), Contains("the first chunk is not JSON"));
    CHECK_THAT(with_word(12, 0U), Contains("chunk 1")); // the text is taken for a header
    std::uint32_t json_length = 0;
    std::memcpy(&json_length, good.data() + 12, 4);
    CHECK_THAT(with_word(20 + json_length, 0xFFFFFFF8U), Contains("chunk 1"));
    for (const std::size_t size : {1UL, 4UL, 11UL, 19UL, 21UL, 100UL, good.size() - 1}) {
        INFO("cut to " << size << " bytes");
        CHECK_THAT(
            refusal(folder.write(
                "cut.glb", Bytes(good.begin(), good.begin() + static_cast<std::ptrdiff_t>(size)))),
            Contains("cut.glb"));
    }
    Bytes headless = good;
    headless[0] = 'x';
    CHECK_THAT(refusal(folder.write("odd.glb", headless)), Contains("no glTF file"));
}

TEST_CASE("Text that is no JSON, or nests without end, is refused before it is parsed",
          "[import]") {
    const Folder folder;
    const auto refused = [&](const std::string& text) {
        return refusal(folder.write("head.gltf", text));
    };
    CHECK_THAT(refused("{\"asset\": "), Contains("JSON byte"));
    CHECK_THAT(refused("{} trailing"), Contains("JSON byte"));
    CHECK_THAT(refused("{\"a\xFF\xFE\": 1}"), Contains("JSON byte"));
    CHECK_THAT(refused("{\"asset\": {\"version\": \"2.0\"}, \"scene\": 1e999}"), Contains("JSON"));
    CHECK_THAT(refused("{\"a\":" + std::string(1'000'000, '[')), Contains("nests 1000001 levels"));
    std::string deep;
    for (int i = 0; i < 100'000; ++i) deep += "{\"a\":";
    CHECK_THAT(refused(deep + "1" + std::string(100'000, '}')), Contains("nests 100000 levels"));
    std::string wide = "{\"a\":[0";
    for (int i = 0; i < 4'100'000; ++i) wide += ",0";
    CHECK_THAT(refused(wide + "]}"), Contains("more than 4000000 values"));
    // Braces inside a string are only text; 100 of them nest nothing.
    Gltf named = octahedron();
    named.document["asset"]["generator"] = std::string(100, '{') + "\"";
    CHECK(loaded(named).mesh.triangles.size() == 8);
}

TEST_CASE("A glTF reads nothing outside its own folder", "[import]") {
    const Folder folder;
    const Gltf gltf = octahedron();
    folder.write("secret.bin", gltf.binary);
    folder.write("in/body.bin", gltf.binary);
    std::filesystem::create_symlink("../secret.bin", folder.path() / "in/link.bin");
    const auto refused = [&](const std::string& uri) {
        return refusal(folder.write("in/head.gltf", as_text(gltf, uri)));
    };
    const std::string absolute = (folder.path() / "secret.bin").string();
    for (const std::string& uri :
         {std::string("../secret.bin"), std::string("%2e%2e/secret.bin"),
          std::string("..%2Fsecret.bin"), std::string("a/../../secret.bin"),
          std::string("..\\secret.bin"), absolute, "file://" + absolute,
          std::string("http://example.org/body.bin"), std::string("C:/body.bin"),
          std::string("link.bin"), std::string("body.bin%00.png"), std::string("")}) {
        INFO(uri);
        CHECK_THAT(refused(uri), Contains("buffers[0].uri"));
    }
    CHECK_THAT(refused("."), Contains("buffers[0].uri"));
    CHECK_THAT(refused("nobody.bin"), Contains("no such file: \"nobody.bin\""));
    std::filesystem::create_directory(folder.path() / "in/chunk.bin");
    CHECK_THAT(refused("chunk.bin"), Contains("is a folder"));
    folder.write("in/empty.bin", std::string());
    CHECK_THAT(refused("empty.bin"), Contains("empty"));
    folder.write("in/short.bin", Bytes(119, 0));
    CHECK_THAT(refused("short.bin"), Contains("it declares 120 bytes but holds 119 bytes"));
    CHECK_THAT(refused("data:application/octet-stream;base64,!!!!"), Contains("not base64"));
    CHECK_THAT(refused("data:text/plain,hello"), Contains("not base64"));
    // The control: the same file beside it loads.
    CHECK(import_mesh(folder.write("in/head.gltf", as_text(gltf, "body.bin"))).ok());
}

TEST_CASE("A path that is no ordinary file, or too large, is refused", "[import]") {
    const Folder folder;
    CHECK_THAT(refusal(folder.path()), Contains("is a folder"));
    CHECK_THAT(refusal(folder.path() / "nobody.glb"), Contains("no such file"));
    CHECK_THAT(refusal(folder.write("empty.glb", std::string())), Contains("empty"));
    CHECK_THAT(refusal(folder.write("empty.obj", std::string())), Contains("empty"));
    CHECK_THAT(refusal("/dev/null"), Contains("not an ordinary file"));
    ImportLimits limits;
    limits.max_file_bytes = 100;
    CHECK_THAT(refusal(folder.write("big.glb", as_glb(octahedron())), limits),
               Contains("the limit is 100 bytes"));
    // The limit holds for everything together: text and buffer.
    limits.max_file_bytes = as_text(octahedron(), "body.bin").size() + 10;
    folder.write("body.bin", Bytes(limits.max_file_bytes + 1, 0));
    CHECK_THAT(refusal(folder.write("sum.gltf", as_text(octahedron(), "body.bin")), limits),
               Contains("the limit is"));
    CHECK_THAT(refusal(folder.write("head.glb", std::string("Kaydara FBX Binary  "))),
               Contains("an FBX file"));
    CHECK_THAT(refusal(folder.write("head.obj", std::string("ply\nformat ascii 1.0\n"))),
               Contains("a PLY file"));
    // A name with a line break makes no second line.
    const Result<ImportedMesh> broken = import_mesh(folder.path() / "no\nbody.glb");
    REQUIRE_FALSE(broken.ok());
    CHECK_THAT(broken.problem().message(), Contains("no?body.glb") && !Contains("\n"));
}

TEST_CASE("A sparse accessor that points elsewhere is refused", "[import]") {
    // §3.6.2.3.
    const auto sparse = [](std::size_t count, std::size_t target) {
        Gltf gltf = octahedron();
        put<std::uint16_t>(gltf.binary, {static_cast<std::uint16_t>(target), 0});
        put<float>(gltf.binary, {0, 5, 0});
        gltf.document["buffers"][0]["byteLength"] = 136;
        gltf.document["bufferViews"].push_back(
            {{"buffer", 0}, {"byteOffset", 120}, {"byteLength", 4}});
        gltf.document["bufferViews"].push_back(
            {{"buffer", 0}, {"byteOffset", 124}, {"byteLength", 12}});
        accessor(gltf, 0)["sparse"] = {{"count", count},
                                       {"indices", {{"bufferView", 2}, {"componentType", 5123}}},
                                       {"values", {{"bufferView", 3}}}};
        return gltf;
    };
    CHECK(loaded(sparse(1, 2)).bounds.high.y == 5.0F); // the control
    CHECK_THAT(refusal_of(sparse(1, 6)), Contains("accessors[0].sparse.indices: 6 points beyond"));
    CHECK_THAT(refusal_of(sparse(3, 0)), Contains("accessors[0].sparse.indices"));
    CHECK_THAT(refusal_of(sparse(2, 0)), Contains("accessors[0].sparse.values"));
    CHECK_THAT(refusal_of(sparse(7, 0)), Contains("it replaces 7 of 6 elements"));
    Gltf typed = sparse(1, 2);
    accessor(typed, 0)["sparse"]["indices"]["componentType"] = 5126;
    CHECK_THAT(refusal_of(typed), Contains("accessors[0].sparse.indices"));
    Gltf bare = sparse(1, 2);
    accessor(bare, 0)["sparse"].erase("values");
    CHECK_THAT(refusal_of(bare), Contains("accessors[0].sparse.values"));
}
