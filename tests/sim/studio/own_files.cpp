#include "own_files.h"

#include <atomic>
#include <cstdint>
#include <cstdio>
#include <fstream>
#include <limits>
#include <nlohmann/json.hpp>
#include <unistd.h>

namespace own_files {

using keystead::Mesh;

Folder::Folder() {
    static std::atomic<int> count{0};
    path_ = std::filesystem::temp_directory_path() /
            ("keystead-own-" + std::to_string(getpid()) + "-" + std::to_string(count++));
    std::filesystem::create_directories(path_);
}

Folder::~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

void write_obj_mm_z_up(const Mesh& mesh, const std::filesystem::path& file) {
    std::FILE* out = std::fopen(file.c_str(), "wb");
    for (const glm::vec3& p : mesh.positions_m)
        std::fprintf(out, "v %.4f %.4f %.4f\n", 1000.0 * static_cast<double>(p.x),
                     -1000.0 * static_cast<double>(p.z), 1000.0 * static_cast<double>(p.y));
    for (const glm::uvec3& t : mesh.triangles)
        std::fprintf(out, "f %u %u %u\n", t.x + 1, t.y + 1, t.z + 1);
    std::fclose(out);
}

namespace {

template <class T>
void put(std::ofstream& out, const T& value) {
    out.write(reinterpret_cast<const char*>(&value), sizeof value);
}

nlohmann::json document_of(const Mesh& mesh) {
    glm::vec3 low(std::numeric_limits<float>::max()), high = -low;
    for (const glm::vec3& p : mesh.positions_m) low = glm::min(low, p), high = glm::max(high, p);
    const std::size_t corners = mesh.positions_m.size() * 12, indices = mesh.triangles.size() * 12;
    return {{"asset", {{"version", "2.0"}}},
            {"scene", 0},
            {"scenes", {{{"nodes", {0}}}}},
            {"nodes", {{{"mesh", 0}}}},
            {"meshes", {{{"primitives", {{{"attributes", {{"POSITION", 0}}}, {"indices", 1}}}}}}},
            {"buffers", {{{"byteLength", corners + indices}}}},
            {"bufferViews",
             {{{"buffer", 0}, {"byteOffset", 0}, {"byteLength", corners}},
              {{"buffer", 0}, {"byteOffset", corners}, {"byteLength", indices}}}},
            {"accessors",
             {{{"bufferView", 0},
               {"componentType", 5126},
               {"count", mesh.positions_m.size()},
               {"type", "VEC3"},
               {"min", {low.x, low.y, low.z}},
               {"max", {high.x, high.y, high.z}}},
              {{"bufferView", 1},
               {"componentType", 5125},
               {"count", mesh.triangles.size() * 3},
               {"type", "SCALAR"}}}}};
}

} // namespace

void write_glb(const Mesh& mesh, const std::filesystem::path& file) {
    std::string text = document_of(mesh).dump();
    while (text.size() % 4 != 0) text += ' ';
    const std::size_t binary = mesh.positions_m.size() * 12 + mesh.triangles.size() * 12;
    std::ofstream out(file, std::ios::binary);
    out.write("glTF", 4);
    put(out, std::uint32_t{2});
    put(out, static_cast<std::uint32_t>(12 + 8 + text.size() + 8 + binary));
    put(out, static_cast<std::uint32_t>(text.size()));
    out.write("JSON", 4);
    out.write(text.data(), static_cast<std::streamsize>(text.size()));
    put(out, static_cast<std::uint32_t>(binary));
    out.write("BIN\0", 4);
    for (const glm::vec3& p : mesh.positions_m) put(out, p);
    for (const glm::uvec3& t : mesh.triangles) put(out, t);
}

} // namespace own_files
