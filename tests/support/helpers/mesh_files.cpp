#include "support/helpers/mesh_files.h"

#include <atomic>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <limits>
#include <unistd.h>

namespace keystead::mesh_files {

namespace fs = std::filesystem;
using nlohmann::json;

Folder::Folder() {
    static std::atomic<int> number{0};
    path_ = fs::temp_directory_path() /
            ("keystead_import_" + std::to_string(getpid()) + "_" + std::to_string(number++));
    fs::create_directories(path_);
}

Folder::~Folder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
}

fs::path Folder::write(const std::string& name, const std::string& text) const {
    fs::create_directories((path_ / name).parent_path());
    std::ofstream(path_ / name, std::ios::binary) << text;
    return path_ / name;
}

fs::path Folder::write(const std::string& name, const Bytes& bytes) const {
    return write(name, std::string(bytes.begin(), bytes.end()));
}

Gltf octahedron() {
    Gltf gltf;
    put<float>(gltf.binary, {1, 0, 0, -1, 0, 0, 0, 2, 0, 0, -2, 0, 0, 0, 3, 0, 0, -3});
    put<std::uint16_t>(gltf.binary,
                       {0, 2, 4, 2, 1, 4, 1, 3, 4, 3, 0, 4, 2, 0, 5, 1, 2, 5, 3, 1, 5, 0, 3, 5});
    gltf.document = json::parse(R"({
      "asset": {"version": "2.0"}, "scene": 0, "scenes": [{"nodes": [0]}],
      "nodes": [{"mesh": 0}],
      "meshes": [{"primitives": [{"attributes": {"POSITION": 0}, "indices": 1}]}],
      "accessors": [
        {"bufferView": 0, "componentType": 5126, "count": 6, "type": "VEC3",
         "min": [-1, -2, -3], "max": [1, 2, 3]},
        {"bufferView": 1, "componentType": 5123, "count": 24, "type": "SCALAR"}],
      "bufferViews": [{"buffer": 0, "byteOffset": 0, "byteLength": 72},
                      {"buffer": 0, "byteOffset": 72, "byteLength": 48}],
      "buffers": [{"byteLength": 120}]})");
    return gltf;
}

Gltf triangle() {
    Gltf gltf;
    put<float>(gltf.binary, {0, 0, 0, 1, 0, 0, 0, 1, 0});
    gltf.document = json::parse(R"({
      "asset": {"version": "2.0"}, "scene": 0, "scenes": [{"nodes": [0]}],
      "nodes": [{"mesh": 0}],
      "meshes": [{"primitives": [{"attributes": {"POSITION": 0}}]}],
      "accessors": [{"bufferView": 0, "componentType": 5126, "count": 3, "type": "VEC3"}],
      "bufferViews": [{"buffer": 0, "byteLength": 36}],
      "buffers": [{"byteLength": 36}]})");
    return gltf;
}

std::size_t add_accessor(Gltf& gltf, const Bytes& bytes, json description) {
    while (gltf.binary.size() % 4 != 0) gltf.binary.push_back(0);
    json& views = gltf.document["bufferViews"];
    views.push_back(
        {{"buffer", 0}, {"byteOffset", gltf.binary.size()}, {"byteLength", bytes.size()}});
    gltf.binary.insert(gltf.binary.end(), bytes.begin(), bytes.end());
    gltf.document["buffers"][0]["byteLength"] = gltf.binary.size();
    description["bufferView"] = views.size() - 1;
    gltf.document["accessors"].push_back(description);
    return gltf.document["accessors"].size() - 1;
}

Gltf gltf_of(const Mesh& mesh) {
    Gltf gltf;
    glm::vec3 low(std::numeric_limits<float>::max()), high = -low;
    for (const glm::vec3& p : mesh.positions_m) {
        put<float>(gltf.binary, {p.x, p.y, p.z});
        low = glm::min(low, p), high = glm::max(high, p);
    }
    for (const glm::uvec3& t : mesh.triangles) put<std::uint32_t>(gltf.binary, {t.x, t.y, t.z});
    gltf.document = triangle().document;
    gltf.document["meshes"][0]["primitives"][0]["indices"] = 1;
    const std::size_t corners = mesh.positions_m.size() * 12, indices = mesh.triangles.size() * 12;
    json& accessors = gltf.document["accessors"];
    accessors[0]["count"] = mesh.positions_m.size();
    accessors[0]["min"] = {low.x, low.y, low.z};
    accessors[0]["max"] = {high.x, high.y, high.z};
    accessors.push_back({{"bufferView", 1},
                         {"componentType", 5125},
                         {"count", mesh.triangles.size() * 3},
                         {"type", "SCALAR"}});
    json& views = gltf.document["bufferViews"];
    views[0]["byteLength"] = corners;
    views.push_back({{"buffer", 0}, {"byteOffset", corners}, {"byteLength", indices}});
    gltf.document["buffers"][0]["byteLength"] = corners + indices;
    return gltf;
}

std::string obj_mm_z_up(const Mesh& mesh) {
    std::string text;
    char line[96];
    for (const glm::vec3& p : mesh.positions_m) {
        std::snprintf(line, sizeof line, "v %.4f %.4f %.4f\n", 1000.0 * static_cast<double>(p.x),
                      -1000.0 * static_cast<double>(p.z), 1000.0 * static_cast<double>(p.y));
        text += line;
    }
    for (const glm::uvec3& t : mesh.triangles)
        text += "f " + std::to_string(t.x + 1) + ' ' + std::to_string(t.y + 1) + ' ' +
                std::to_string(t.z + 1) + '\n';
    return text;
}

Bytes as_glb(const std::string& json_text, const Bytes& binary) {
    std::string text = json_text;
    text.resize((text.size() + 3) / 4 * 4, ' ');
    Bytes padded = binary;
    padded.resize((padded.size() + 3) / 4 * 4, 0);
    Bytes glb;
    const auto length = [](std::size_t size) { return static_cast<std::uint32_t>(size); };
    put<std::uint32_t>(glb, {0x46546C67U, 2U, length(12 + 8 + text.size() + 8 + padded.size()),
                             length(text.size()), 0x4E4F534AU});
    glb.insert(glb.end(), text.begin(), text.end());
    put<std::uint32_t>(glb, {length(padded.size()), 0x004E4942U});
    glb.insert(glb.end(), padded.begin(), padded.end());
    return glb;
}

Bytes as_glb(const Gltf& gltf) {
    return as_glb(gltf.document.dump(), gltf.binary);
}

std::string base64(const Bytes& bytes) {
    static const char* digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string out;
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        std::uint32_t three = 0;
        for (std::size_t k = 0; k < 3; ++k)
            three = (three << 8U) | (i + k < bytes.size() ? bytes[i + k] : 0U);
        for (std::size_t k = 0; k < 4; ++k)
            out += i + k > bytes.size() ? '=' : digits[(three >> (18 - 6 * k)) & 63U];
    }
    return out;
}

std::string as_text(const Gltf& gltf, const std::string& buffer_uri) {
    json document = gltf.document;
    document["buffers"][0]["uri"] = buffer_uri;
    return document.dump(1);
}

std::string as_text(const Gltf& gltf) {
    return as_text(gltf, "data:application/octet-stream;base64," + base64(gltf.binary));
}

double volume_of(const Mesh& mesh) {
    double volume = 0.0;
    for (const glm::uvec3& t : mesh.triangles)
        volume += glm::dot(glm::dvec3(mesh.positions_m[t.x]),
                           glm::cross(glm::dvec3(mesh.positions_m[t.y]),
                                      glm::dvec3(mesh.positions_m[t.z]))) /
                  6.0;
    return volume;
}

bool is_sound(const ImportedMesh& imported) {
    const Mesh& mesh = imported.mesh;
    const std::size_t count = mesh.positions_m.size();
    if (mesh.triangles.empty() || mesh.normals.size() != count) return false;
    if (!mesh.colours.empty() && mesh.colours.size() != count) return false;
    for (const glm::uvec3& t : mesh.triangles)
        if (t.x >= count || t.y >= count || t.z >= count) return false;
    glm::vec3 low(1e30F), high(-1e30F);
    for (std::size_t i = 0; i < count; ++i) {
        const glm::vec3& p = mesh.positions_m[i];
        if (!(glm::length(glm::dvec3(p)) < 1e10)) return false;
        if (!(std::abs(glm::length(mesh.normals[i]) - 1.0F) < 1e-3F)) return false;
        low = glm::min(low, p);
        high = glm::max(high, p);
    }
    for (const glm::vec3& c : mesh.colours)
        for (int k = 0; k < 3; ++k)
            if (!(c[k] >= 0.0F && c[k] <= 1.0F)) return false;
    return low == imported.bounds.low && high == imported.bounds.high;
}

std::string refusal(const fs::path& file, const ImportLimits& limits) {
    const Result<ImportedMesh> result = import_mesh(file, limits);
    if (result) return "it was not refused";
    const std::string message = result.problem().message();
    if (message.find('\n') != std::string::npos) return "more than one line: " + message;
    if (message.find(file.filename().string()) == std::string::npos)
        return "no file name: " + message;
    const std::size_t remedy = message.find("; ");
    if (remedy == std::string::npos || remedy + 6 > message.size()) return "no remedy: " + message;
    if (message.size() > 400) return "too long: " + message;
    return message;
}

std::string refusal_of(const Gltf& gltf) {
    const Folder folder;
    return refusal(folder.write("head.glb", as_glb(gltf)));
}

namespace {

ImportedMesh loaded_file(const fs::path& file) {
    Result<ImportedMesh> result = import_mesh(file);
    INFO((result ? std::string() : result.problem().message()));
    REQUIRE(result.ok());
    ImportedMesh imported = std::move(result).value();
    CHECK(is_sound(imported));
    return imported;
}

} // namespace

ImportedMesh loaded(const Gltf& gltf) {
    const Folder folder;
    return loaded_file(folder.write("head.glb", as_glb(gltf)));
}

ImportedMesh loaded_obj(const std::string& text) {
    const Folder folder;
    return loaded_file(folder.write("scan.obj", text));
}

bool has_note(const ImportedMesh& imported, const std::string& words) {
    for (const std::string& note : imported.notes)
        if (note.find(words) != std::string::npos) return true;
    return false;
}

} // namespace keystead::mesh_files
