// Meshes from the user's own files, read once and kept while neither the file nor what is said
// about it changes.
#pragma once

#include "sim/base/mesh.h"
#include "sim/base/mesh_file.h"
#include "sim/base/result.h"
#include "sim/import/find_landmarks.h"
#include "sim/import/import.h"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace keystead {

/// One file as read: a mesh, or why there is none. A refusal is kept too, so that an edit
/// elsewhere does not read a large broken file again.
struct StoredMesh {
    std::uint64_t key = 0; ///< path, size and time of the file, and the request
    std::optional<Problem> problem;
    Mesh mesh;               ///< metres, Y up; no more triangles than were asked for
    HeadLandmarks landmarks; ///< empty unless a face was asked for
};

using StoredMeshes = std::vector<std::shared_ptr<const StoredMesh>>;

struct MeshRequest {
    std::string path; ///< absolute, or relative to `folder`
    std::filesystem::path folder;
    LengthUnit unit = LengthUnit::metre;
    UpAxis up = UpAxis::y;
    std::size_t max_triangles = 60'000;
    bool find_face = false;
};

/// The mesh asked for, made of what was read from its file by `import_mesh`.
std::shared_ptr<const StoredMesh> stored_from(ImportedMesh imported, const MeshRequest& request);

/// The mesh asked for, from `kept` if it is there and its file is unchanged, else read now.
std::shared_ptr<const StoredMesh> stored_mesh(const MeshRequest& request, const StoredMeshes& kept);

} // namespace keystead
