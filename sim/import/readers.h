// The two readers behind `import_mesh`. Each gives triangles as the file has them: no clean-up, and
// normals possibly absent.
#pragma once

#include "sim/import/file_bytes.h"

namespace keystead::importing {

Result<ImportedMesh> read_gltf(const std::filesystem::path& file, const ImportLimits& limits,
                               const ImportProgress& progress, const Blame& blame);

Result<ImportedMesh> read_obj(const std::filesystem::path& file, const ImportLimits& limits,
                              const ImportProgress& progress, const Blame& blame);

} // namespace keystead::importing
