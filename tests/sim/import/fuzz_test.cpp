// Files spoiled at random, the same ones every time: each is refused with one good line, or loads
// as a sound mesh. Run under the sanitizers of the dev preset this is the proof that nothing is
// read or written out of place.
#include "support/helpers/mesh_files.h"

#include <catch2/catch.hpp>
#include <random>

using namespace keystead;
using namespace keystead::mesh_files;

namespace {

/// A few edits of the kinds that break loaders: bits, whole bytes, digits, cuts, repeats.
template <class Text>
Text spoiled(Text text, std::mt19937& random) {
    const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random()) % n; };
    const std::size_t edits = 1 + below(3);
    for (std::size_t e = 0; e < edits && text.size() > 8; ++e) {
        const std::size_t at = below(text.size());
        const auto here = text.begin() + static_cast<std::ptrdiff_t>(at);
        using Value = typename Text::value_type;
        switch (below(7)) {
        case 0:
            text[at] = static_cast<Value>(text[at] ^ (1 << below(8)));
            break;
        case 1:
            text[at] = static_cast<Value>(below(256));
            break;
        case 2:
            text[at] = static_cast<Value>('0' + below(10));
            break;
        case 3:
            text[at] = static_cast<Value>("-,.eE/\\\"{}[]: \n"[below(15)]);
            break;
        case 4:
            text.erase(
                here, here + static_cast<std::ptrdiff_t>(std::min(text.size() - at, 1 + below(6))));
            break;
        case 5:
            text.insert(here, 1 + below(12), static_cast<Value>('9'));
            break;
        default:
            text.resize(at + 1);
            break;
        }
    }
    return text;
}

/// Nothing else than these two outcomes.
bool is_handled(const std::filesystem::path& file, std::size_t& loads) {
    ImportLimits limits;
    limits.max_vertices = limits.max_triangles = 100'000;
    const Result<ImportedMesh> result = import_mesh(file, limits);
    if (!result) return refusal(file, limits).find("scan") == 0;
    ++loads;
    return is_sound(result.value());
}

/// Everything the reader knows in one small document: skin, sparse, colours, materials, tree.
Gltf rich() {
    Gltf gltf = octahedron();
    put<std::uint8_t>(gltf.binary,
                      {0, 1, 0, 0, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0});
    for (int i = 0; i < 6; ++i) put<float>(gltf.binary, {0.5F, 0.5F, 0, 0});
    put<std::uint16_t>(gltf.binary, {2, 0});
    put<float>(gltf.binary, {0, 5, 0});
    gltf.document.update(nlohmann::json::parse(R"({
      "nodes": [{"children": [1, 2], "scale": [-1, 1, 1]}, {"mesh": 0, "skin": 0},
                {"translation": [0, 1, 0], "children": [3]}, {"rotation": [0, 0, 0.6, 0.8]}],
      "skins": [{"joints": [2, 3]}],
      "materials": [{"pbrMetallicRoughness": {"baseColorFactor": [0.6, 0.4, 0.3, 1]}}],
      "meshes": [{"primitives": [{"attributes": {"POSITION": 0, "JOINTS_0": 2, "WEIGHTS_0": 3},
                                  "indices": 1, "material": 0}]}],
      "images": [{"uri": "skin.png"}]})"));
    auto& views = gltf.document["bufferViews"];
    const auto view = [&](int offset, int length) {
        views.push_back({{"buffer", 0}, {"byteOffset", offset}, {"byteLength", length}});
    };
    view(120, 24), view(144, 96), view(240, 4), view(244, 12);
    auto& accessors = gltf.document["accessors"];
    accessors.push_back(
        {{"bufferView", 2}, {"componentType", 5121}, {"count", 6}, {"type", "VEC4"}});
    accessors.push_back(
        {{"bufferView", 3}, {"componentType", 5126}, {"count", 6}, {"type", "VEC4"}});
    accessors[0]["sparse"] = {{"count", 1},
                              {"indices", {{"bufferView", 4}, {"componentType", 5123}}},
                              {"values", {{"bufferView", 5}}}};
    gltf.document["buffers"][0]["byteLength"] = gltf.binary.size();
    return gltf;
}

/// Every value of a document, lists and objects too, by pointer.
void collect(nlohmann::json& value, std::vector<nlohmann::json*>& into) {
    into.push_back(&value);
    if (value.is_structured())
        for (nlohmann::json& inner : value) collect(inner, into);
}

/// One or two values replaced by something strange, or removed.
Gltf with_strange_values(Gltf gltf, std::mt19937& random) {
    static const std::vector<nlohmann::json> strange{-1,
                                                     0,
                                                     1,
                                                     2,
                                                     3,
                                                     5,
                                                     7,
                                                     255,
                                                     65535,
                                                     2147483647,
                                                     2147483648U,
                                                     4294967295U,
                                                     4294967296ULL,
                                                     9007199254740992ULL,
                                                     18446744073709551615ULL,
                                                     -9223372036854775807LL,
                                                     0.5,
                                                     -0.0,
                                                     1e-300,
                                                     1e308,
                                                     3.4e38,
                                                     true,
                                                     nullptr,
                                                     "",
                                                     "VEC3",
                                                     "MAT4",
                                                     "SCALAR",
                                                     "../x",
                                                     nlohmann::json::array(),
                                                     nlohmann::json::object(),
                                                     {0},
                                                     {0, 0, 0},
                                                     {0, 1, 2, 3},
                                                     5121,
                                                     5123,
                                                     5125,
                                                     5126};
    const std::size_t edits = 1 + random() % 2;
    for (std::size_t e = 0; e < edits; ++e) {
        std::vector<nlohmann::json*> values;
        collect(gltf.document, values);
        nlohmann::json& chosen = *values[1 + random() % (values.size() - 1)];
        chosen = random() % 8 == 0 ? *values[random() % values.size()]
                                   : strange[random() % strange.size()];
        if (values.size() > 3000) break;
    }
    return gltf;
}

constexpr const char* small_obj =
    "mtllib a.mtl\nv 0 0 0 0.5 0.5 0.5\nv 1.5 0 0\nv 0 1e0 0\nv 0,5 0 1\n"
    "vn 0 0 1\nvn 1 0 0\nvt 0 0\n"
    "f 1//1 3//1 2//1\nf -4/1/2 -3/1/2 -1/1/2\nf 1 4 3\nf 2 3 \\\n4\n"
    "f 1 2 3 4\n";

} // namespace

TEST_CASE("Two thousand spoiled containers are each refused or sound", "[import]") {
    const Folder folder;
    const Bytes good = as_glb(rich());
    REQUIRE(import_mesh(folder.write("scan.glb", good)).ok());
    std::mt19937 random(20240501);
    std::size_t loads = 0;
    for (int i = 0; i < 2000; ++i) {
        const auto file = folder.write("scan.glb", spoiled(good, random));
        INFO("mutation " << i);
        REQUIRE(is_handled(file, loads));
    }
    CHECK(loads > 100); // the mutations are not all trivially fatal
    CHECK(loads < 1900);
}

TEST_CASE("Two thousand documents with strange values are each refused or sound", "[import]") {
    const Folder folder;
    const Gltf good = rich();
    std::mt19937 random(20240503);
    std::size_t loads = 0;
    for (int i = 0; i < 2000; ++i) {
        const Gltf bad = with_strange_values(good, random);
        const auto file = folder.write("scan.glb", as_glb(bad));
        INFO("document " << i << ": " << bad.document.dump().substr(0, 3000));
        REQUIRE(is_handled(file, loads));
    }
    CHECK(loads > 100);
    CHECK(loads < 1900);
}

TEST_CASE("Five hundred spoiled texts of glTF and a thousand of OBJ are refused or sound",
          "[import]") {
    const Folder folder;
    std::mt19937 random(20240502);
    std::size_t loads = 0;
    const std::string gltf = as_text(rich());
    REQUIRE(import_mesh(folder.write("scan.gltf", gltf)).ok());
    for (int i = 0; i < 500; ++i) {
        INFO("glTF mutation " << i);
        REQUIRE(is_handled(folder.write("scan.gltf", spoiled(gltf, random)), loads));
    }
    const std::string obj = small_obj;
    REQUIRE(import_mesh(folder.write("scan.obj", obj)).ok());
    for (int i = 0; i < 1000; ++i) {
        INFO("OBJ mutation " << i);
        REQUIRE(is_handled(folder.write("scan.obj", spoiled(obj, random)), loads));
    }
    CHECK(loads > 100);
    CHECK(loads < 1400);
}
