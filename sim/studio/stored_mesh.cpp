#include "sim/studio/stored_mesh.h"

#include "sim/import/simplify.h"
#include "sim/import/units.h"
#include "sim/shape/content_key.h"

#include <algorithm>
#include <system_error>
#include <utility>

namespace keystead {

namespace {

namespace fs = std::filesystem;

fs::path resolved(const MeshRequest& request) {
    const fs::path path(request.path);
    return path.is_absolute() ? path : request.folder / path;
}

/// What is not there has size and time zero.
std::uint64_t key_of(const fs::path& file, const MeshRequest& request) {
    std::error_code failed;
    const std::uintmax_t size = fs::file_size(file, failed);
    const bool has_size = !failed;
    const auto time = fs::last_write_time(file, failed);
    return ContentKey()
        .add("file")
        .add(file.string())
        .add(has_size ? static_cast<std::uint64_t>(size) : std::uint64_t{0})
        .add(failed ? std::uint64_t{0}
                    : static_cast<std::uint64_t>(time.time_since_epoch().count()))
        .add(static_cast<int>(request.unit))
        .add(static_cast<int>(request.up))
        .add(static_cast<std::uint64_t>(request.max_triangles))
        .add(request.find_face)
        .value();
}

} // namespace

std::shared_ptr<const StoredMesh> stored_from(ImportedMesh imported, const MeshRequest& request) {
    auto made = std::make_shared<StoredMesh>();
    made->key = key_of(resolved(request), request);
    Mesh mesh = convert(std::move(imported.mesh), request.unit, request.up);
    // The face is looked for at full detail.
    if (request.find_face) made->landmarks = find_head_landmarks(mesh);
    const bool large = mesh.triangles.size() > request.max_triangles;
    made->mesh = large ? simplify(mesh, request.max_triangles).mesh : std::move(mesh);
    return made;
}

std::shared_ptr<const StoredMesh> stored_mesh(const MeshRequest& request,
                                              const StoredMeshes& kept) {
    const fs::path file = resolved(request);
    const std::uint64_t key = key_of(file, request);
    const auto same = std::find_if(kept.begin(), kept.end(),
                                   [key](const auto& mesh) { return mesh->key == key; });
    if (same != kept.end()) return *same;
    Result<ImportedMesh> imported = import_mesh(file);
    if (imported) return stored_from(std::move(imported).value(), request);
    auto refused = std::make_shared<StoredMesh>();
    refused->key = key;
    refused->problem = imported.problem();
    return refused;
}

} // namespace keystead
