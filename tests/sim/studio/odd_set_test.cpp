// One head written in many legal but odd ways, as the subject of a set and as a prop in it: each
// way must give that head. The truth is the generated head the files are made from.
#include "sim/import/simplify.h"
#include "sim/studio/studio.h"
#include "support/helpers/mesh_files.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <functional>

using namespace keystead;
using namespace keystead::mesh_files;
using nlohmann::json;

namespace {

struct Head {
    std::shared_ptr<const Studio> generated;
    Mesh mesh; ///< positions and triangles; metres, Y up
    double pupils_apart_m = 0.0;
    glm::vec3 size_m{0.0F};
};

glm::vec3 size_of(const Mesh& mesh) {
    glm::vec3 low(1e9F), high(-1e9F);
    for (const glm::uvec3& t : mesh.triangles)
        for (int k = 0; k < 3; ++k) {
            low = glm::min(low, mesh.positions_m[t[k]]);
            high = glm::max(high, mesh.positions_m[t[k]]);
        }
    return high - low;
}

const Head& head() {
    static const Head made = [] {
        Head one;
        Set set;
        set.subject.hair_style = HairStyle::none;
        one.generated = make_studio(set);
        const SubjectForm& form = *one.generated->form;
        Mesh whole = *form.skin;
        append(whole, *form.eyes);
        const double neck_m = form.landmarks.menton.y - 0.06;
        std::erase_if(whole.triangles, [&](const glm::uvec3& t) {
            return static_cast<double>(whole.positions_m[t.x].y) < neck_m;
        });
        const Mesh few = simplify(whole, 24'000).mesh;
        one.mesh.positions_m = few.positions_m;
        one.mesh.triangles = few.triangles;
        one.pupils_apart_m = form.landmarks.pupil_left.x - form.landmarks.pupil_right.x;
        one.size_m = size_of(one.mesh);
        return one;
    }();
    return made;
}

Mesh moved(const std::function<glm::vec3(const glm::vec3&)>& move) {
    Mesh mesh = head().mesh;
    for (glm::vec3& p : mesh.positions_m) p = move(p);
    return mesh;
}

Mesh bare_corners() {
    Mesh mesh;
    for (const glm::uvec3& t : head().mesh.triangles)
        for (int k = 0; k < 3; ++k) mesh.positions_m.push_back(head().mesh.positions_m[t[k]]);
    return mesh;
}

void use_only(Gltf& gltf, const Bytes& positions, std::size_t stride) {
    gltf.document["bufferViews"] = {{{"buffer", 0}, {"byteLength", positions.size()}}};
    if (stride > 0) gltf.document["bufferViews"][0]["byteStride"] = stride;
    gltf.binary = positions;
    gltf.document["buffers"][0]["byteLength"] = positions.size();
}

struct Odd {
    std::string name;
    Bytes bytes;
    LengthUnit unit = LengthUnit::metre;
    UpAxis up = UpAxis::y;
};

Odd container(const Gltf& gltf) {
    return {"odd.glb", as_glb(gltf)};
}

// ---- glTF 2.0 (Khronos, 2.0.1), by section ----

Gltf plain() {
    return gltf_of(head().mesh);
}

/// §3.5.3; the root stands the head up and makes metres of centimetres.
Odd turned_and_scaled_root() {
    Gltf gltf =
        gltf_of(moved([](const glm::vec3& p) { return 100.0F * glm::vec3(p.x, -p.z, p.y); }));
    const double half = std::sqrt(0.5);
    gltf.document["nodes"][0]["rotation"] = {-half, 0, 0, half};
    gltf.document["nodes"][0]["scale"] = {0.01, 0.01, 0.01};
    return container(gltf);
}

/// §3.7.4: a negative determinant turns the winding.
Odd mirrored() {
    Mesh mesh = moved([](const glm::vec3& p) { return glm::vec3(-p.x, p.y, p.z); });
    for (glm::uvec3& t : mesh.triangles) std::swap(t.y, t.z);
    Gltf gltf = gltf_of(mesh);
    gltf.document["nodes"][0]["scale"] = {-1, 1, 1};
    return container(gltf);
}

/// §3.6.2.3: zeros, all of them replaced.
Odd all_sparse() {
    Gltf gltf = plain();
    Bytes targets;
    const auto count = static_cast<std::uint32_t>(head().mesh.positions_m.size());
    for (std::uint32_t i = 0; i < count; ++i) put<std::uint32_t>(targets, {i});
    const std::size_t at = add_accessor(
        gltf, targets, {{"componentType", 5125}, {"count", count}, {"type", "SCALAR"}});
    json& accessors = gltf.document["accessors"];
    accessors[0].erase("bufferView");
    accessors[0]["sparse"] = {
        {"count", count},
        {"indices", {{"bufferView", accessors[at]["bufferView"]}, {"componentType", 5125}}},
        {"values", {{"bufferView", 0}}}};
    return container(gltf);
}

/// §3.7.2.1: no indices; every three vertices a triangle, over 65 535 of them.
Odd without_indices() {
    const Mesh mesh = bare_corners();
    REQUIRE(mesh.positions_m.size() > 65'535);
    Gltf gltf = gltf_of(mesh);
    gltf.document["meshes"][0]["primitives"][0].erase("indices");
    gltf.document["accessors"].erase(1);
    gltf.document["bufferViews"].erase(1);
    return container(gltf);
}

/// §3.6.2.4: positions between other data, the next one 28 bytes on.
Odd interleaved() {
    Gltf gltf = gltf_of(bare_corners());
    Bytes rows;
    const Mesh mesh = bare_corners();
    for (const glm::vec3& p : mesh.positions_m)
        put<float>(rows, {p.x, p.y, p.z, 9e9F, 9e9F, 9e9F, 9e9F});
    use_only(gltf, rows, 28);
    gltf.document["meshes"][0]["primitives"][0].erase("indices");
    gltf.document["accessors"].erase(1);
    return container(gltf);
}

/// KHR_mesh_quantization: whole numbers of a tenth of a millimetre.
Odd quantised() {
    Gltf gltf = gltf_of(bare_corners());
    Bytes rows;
    const Mesh mesh = bare_corners();
    for (const glm::vec3& p : mesh.positions_m)
        for (const float v : {p.x, p.y, p.z, 0.0F})
            put<std::int16_t>(rows, {static_cast<std::int16_t>(std::lround(v * 1e4F))});
    use_only(gltf, rows, 8);
    gltf.document["extensionsRequired"] = {"KHR_mesh_quantization"};
    gltf.document["meshes"][0]["primitives"][0].erase("indices");
    gltf.document["accessors"].erase(1);
    gltf.document["accessors"][0].erase("min");
    gltf.document["accessors"][0].erase("max");
    gltf.document["accessors"][0]["componentType"] = 5122;
    gltf.document["nodes"][0]["scale"] = {1e-4, 1e-4, 1e-4};
    return container(gltf);
}

/// §3.7.3.3: the mesh's own node does not count, its joint does.
Odd skinned() {
    Gltf gltf = plain();
    const std::size_t count = head().mesh.positions_m.size();
    Bytes joints, weights;
    for (std::size_t i = 0; i < count; ++i) {
        put<std::uint8_t>(joints, {0, 0, 0, 0});
        put<float>(weights, {1, 0, 0, 0});
    }
    json& attributes = gltf.document["meshes"][0]["primitives"][0]["attributes"];
    attributes["JOINTS_0"] =
        add_accessor(gltf, joints, {{"componentType", 5121}, {"count", count}, {"type", "VEC4"}});
    attributes["WEIGHTS_0"] =
        add_accessor(gltf, weights, {{"componentType", 5126}, {"count", count}, {"type", "VEC4"}});
    gltf.document["nodes"] = {{{"mesh", 0}, {"skin", 0}, {"scale", {50, 1, 1}}},
                              {{"translation", {3, 1, 2}}}};
    gltf.document["scenes"][0]["nodes"] = {0, 1};
    gltf.document["skins"] = {{{"joints", {1}}}};
    return container(gltf);
}

/// Used, not required: the plain copy is read. No scene; an image elsewhere (§3.5.1, §3.12).
Odd with_things_left_out() {
    Gltf gltf = plain();
    gltf.document.erase("scene");
    gltf.document.erase("scenes");
    gltf.document["extensionsUsed"] = {"KHR_draco_mesh_compression"};
    gltf.document["meshes"][0]["primitives"][0]["extensions"]["KHR_draco_mesh_compression"] = {
        {"bufferView", 0}};
    gltf.document["images"] = {{{"uri", "../skin.png"}}, {{"mimeType", "image/png"}}};
    return container(gltf);
}

std::vector<Odd> odd_gltf(const Folder& folder) {
    folder.write("a body (1).bin", plain().binary);
    const auto text = [](const std::string& words) {
        return Odd{"odd head.gltf", Bytes(words.begin(), words.end())};
    };
    return {turned_and_scaled_root(),
            mirrored(),
            all_sparse(),
            without_indices(),
            interleaved(),
            quantised(),
            skinned(),
            with_things_left_out(),
            text(as_text(plain())),
            text(as_text(plain(), "a%20body%20(1).bin"))};
}

// ---- OBJ: "Object files (.obj)", version 3.0; colours and decimal commas: common practice ----

struct ObjStyle {
    const char* vertex = "v %.6f %.6f %.6f\n";
    const char* face = "f %d %d %d\n";
    bool from_the_end = false;
    bool quadrilaterals = false; ///< a fourth corner in the middle of an edge
    const char* before = "";
};

Odd scan(const Mesh& mesh, const ObjStyle& style, LengthUnit unit = LengthUnit::metre,
         UpAxis up = UpAxis::y) {
    std::string text = style.before;
    char line[160];
    const auto add = [&](const glm::vec3& p) {
        // NOLINTNEXTLINE: the formats are the table's below.
        std::snprintf(line, sizeof line, style.vertex, static_cast<double>(p.x),
                      static_cast<double>(p.y), static_cast<double>(p.z));
        text += line;
    };
    for (const glm::vec3& p : mesh.positions_m) add(p);
    int count = static_cast<int>(mesh.positions_m.size());
    for (const glm::uvec3& t : mesh.triangles) {
        if (style.quadrilaterals) {
            add(0.5F * (mesh.positions_m[t.x] + mesh.positions_m[t.y]));
            text += "f " + std::to_string(t.x + 1) + ' ' + std::to_string(++count) + ' ' +
                    std::to_string(t.y + 1) + ' ' + std::to_string(t.z + 1) + '\n';
            continue;
        }
        const int back = style.from_the_end ? -count : 1;
        std::snprintf(line, sizeof line, style.face, static_cast<int>(t.x) + back,
                      static_cast<int>(t.y) + back, static_cast<int>(t.z) + back);
        text += line;
    }
    return {"odd scan.obj", Bytes(text.begin(), text.end()), unit, up};
}

Odd with_commas() {
    Odd odd = scan(head().mesh, {});
    std::replace(odd.bytes.begin(), odd.bytes.end(), std::uint8_t{'.'}, std::uint8_t{','});
    return odd;
}

std::vector<Odd> odd_obj() {
    const Mesh& mesh = head().mesh;
    constexpr float inch_m = 0.0254F; // exact since 1959
    return {scan(mesh, {.vertex = "v\t%+.7e\t%.7E %.7e \r\n", .face = "f\t%d %d\t%d\r\n"}),
            scan(mesh, {.from_the_end = true}),
            scan(mesh, {.quadrilaterals = true}),
            scan(mesh, {.face = "f %d \\\n  %d \\\n %d\n"}),
            scan(mesh, {.vertex = "v %.6f %.6f %.6f 0.8 0.6 0.5\n",
                        .before = "\xEF\xBB\xBFmtllib ../no such.mtl\nusemtl two words\ns off\n"}),
            with_commas(),
            scan(moved([](const glm::vec3& p) { return glm::vec3(p.x, -p.z, p.y) / inch_m; }), {},
                 LengthUnit::inch, UpAxis::z)};
}

void check_loads(const Folder& folder, const Odd& odd) {
    folder.write(odd.name, odd.bytes);
    Set set = head().generated->set;
    set.subject.file = SubjectFile{};
    set.subject.file->path = odd.name;
    set.subject.file->unit = odd.unit;
    set.subject.file->up = odd.up;
    Prop prop;
    prop.id = "bust";
    prop.path = odd.name;
    prop.unit = odd.unit;
    prop.up = odd.up;
    prop.position_m = {0.8, 0.0, -0.5};
    set.props.push_back(prop);
    const auto studio = make_studio(set, head().generated, folder.path());
    INFO((studio->problems.empty() ? std::string() : studio->problems.front().message()));
    REQUIRE(studio->problems.empty());
    const Landmarks& marks = studio->form->landmarks;
    CHECK(std::abs(marks.pupil_left.x - marks.pupil_right.x - head().pupils_apart_m) < 0.006);
    const auto part = std::find_if(studio->scene.parts.begin(), studio->scene.parts.end(),
                                   [](const ScenePart& one) { return one.owner == "bust"; });
    REQUIRE(part != studio->scene.parts.end());
    const glm::vec3 off = glm::abs(size_of(*part->mesh) - head().size_m);
    CHECK(std::max({off.x, off.y, off.z}) < 0.0005F);
}

} // namespace

TEST_CASE("A head written as legal but odd glTF is that head, as subject and as prop",
          "[studio][own][hostile]") {
    const Folder folder;
    int index = 0;
    for (const Odd& odd : odd_gltf(folder)) {
        INFO("glTF " << index++);
        check_loads(folder, odd);
    }
}

TEST_CASE("A head written as legal but odd OBJ is that head, as subject and as prop",
          "[studio][own][hostile]") {
    const Folder folder;
    int index = 0;
    for (const Odd& odd : odd_obj()) {
        INFO("OBJ " << index++);
        check_loads(folder, odd);
    }
}
