// Mesh files the tests write themselves, whole or spoiled.
#pragma once

#include "sim/import/import.h"

#include <cstdint>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace keystead::mesh_files {

using Bytes = std::vector<std::uint8_t>;

/// A folder of its own, removed with everything in it.
class Folder {
public:
    Folder();
    ~Folder();
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;

    std::filesystem::path write(const std::string& name, const std::string& text) const;
    std::filesystem::path write(const std::string& name, const Bytes& bytes) const;
    const std::filesystem::path& path() const { return path_; }

private:
    std::filesystem::path path_;
};

/// Appends the bytes of numbers, little-endian.
template <class T>
void put(Bytes& bytes, std::initializer_list<T> values) {
    for (const T& value : values) {
        const auto* from = reinterpret_cast<const std::uint8_t*>(&value);
        bytes.insert(bytes.end(), from, from + sizeof value);
    }
}

/// A glTF document and the one buffer it refers to.
struct Gltf {
    nlohmann::json document;
    Bytes binary;
};

/// An octahedron of half-axes 1, 2, 3 in one mesh and one node: accessor 0 positions (bytes 0..71,
/// view 0), accessor 1 indices (unsigned short, bytes 72..119, view 1).
Gltf octahedron();
inline constexpr double octahedron_volume = 4.0 / 3.0 * 1.0 * 2.0 * 3.0;

/// One triangle of half legs 1 in accessor 0, no indices.
Gltf triangle();

/// Appends bytes to the buffer behind a view and an accessor of their own; the accessor's number.
std::size_t add_accessor(Gltf& gltf, const Bytes& bytes, nlohmann::json description);

/// A whole mesh: one part of positions (accessor 0) and indices (accessor 1, unsigned int), metres,
/// Y up.
Gltf gltf_of(const Mesh& mesh);

/// Wavefront OBJ in millimetres with Z up (a face along +Z of the mesh looks along -Y of the file).
std::string obj_mm_z_up(const Mesh& mesh);

/// As a container, as text with the buffer inside, as text beside a file of that name.
Bytes as_glb(const Gltf& gltf);
Bytes as_glb(const std::string& json_text, const Bytes& binary);
std::string as_text(const Gltf& gltf);
std::string as_text(const Gltf& gltf, const std::string& buffer_uri);
std::string base64(const Bytes& bytes);

/// Volume a mesh encloses, by the divergence theorem; positive if it faces outward.
double volume_of(const Mesh& mesh);

/// Is every index in range, every number finite, every normal unit, the bounds right?
bool is_sound(const ImportedMesh& imported);

/// Imports a file that must be refused and gives the message: one line with the file's name and a
/// remedy after a semicolon, else an explanation of what is wrong with the message.
std::string refusal(const std::filesystem::path& file, const ImportLimits& limits = {});

/// Writes a container to a folder of its own and gives the refusal.
std::string refusal_of(const Gltf& gltf);

/// Imports a container that must load.
ImportedMesh loaded(const Gltf& gltf);
ImportedMesh loaded_obj(const std::string& text);

/// Does any note hold these words?
bool has_note(const ImportedMesh& imported, const std::string& words);

} // namespace keystead::mesh_files
