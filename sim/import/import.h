// A head, a figure or a prop from the user's own file: glTF 2.0 (.gltf, .glb) or OBJ.
//
// The steps, each a function of its own: `import_mesh` reads and validates, `guess_units` offers
// unit and up axis (units.h), `convert` makes metres with Y up of it, `simplify` cuts it to a
// budget (simplify.h), `find_head_landmarks` looks for a face (find_landmarks.h).
//
// Nothing outside the file's own folder is ever opened, and every number is checked before use: a
// damaged or hostile file gives one line naming file, place and remedy, and changes nothing.
#pragma once

#include "sim/base/mesh.h"
#include "sim/base/result.h"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace keystead {

enum class MeshFormat : std::uint8_t { gltf, obj };

/// What a file may ask of this machine. The defaults take a ten-million-triangle scan.
struct ImportLimits {
    std::uint64_t max_file_bytes = 2'000'000'000; ///< of the file and what it refers to, together
    std::uint64_t max_vertices = 20'000'000;
    std::uint64_t max_triangles = 20'000'000;
    std::uint64_t max_json_values = 4'000'000; ///< of a glTF document, its binary data not counted
    std::uint32_t max_json_depth = 64;
    std::uint32_t max_nodes = 65'536;
    std::uint32_t max_node_depth = 256;
};

/// Axis-aligned box of the vertices that triangles use.
struct Bounds {
    glm::vec3 low{0.0F}, high{0.0F};
    glm::vec3 size() const { return high - low; }
};

struct ImportedMesh {
    /// In the file's own unit and axes, whatever the field's name says, until `convert`. Normals
    /// are always present and unit; colours only where the file has them (linear), else empty.
    Mesh mesh;
    Bounds bounds; ///< file units
    MeshFormat format = MeshFormat::gltf;
    std::vector<std::string> notes; ///< what was left out, assumed or mended; a sentence each
};

/// Called now and then with the share done (0..1) and what is being done; false stops the import.
using ImportProgress = std::function<bool(double share, std::string_view doing)>;

/// Reads a mesh. The kind is told by the content, not by the name. On failure the problem's
/// message is one line: file, place, what was found, what to do.
/// glTF: glTF 2.0 specification (Khronos, version 2.0.1); the rest pose of skinned meshes; images
/// are not read. OBJ: "Object files (.obj)", format description version 3.0; polygons, no
/// free-form surfaces; material files are not read.
Result<ImportedMesh> import_mesh(const std::filesystem::path& file, const ImportLimits& limits = {},
                                 const ImportProgress& progress = {});

} // namespace keystead
