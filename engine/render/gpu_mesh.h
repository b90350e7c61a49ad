// Turning a mesh into vertex buffers.
#pragma once

#include "engine/render/geometry.h"

namespace keystead {

std::shared_ptr<GpuMesh> upload_mesh(const Mesh& mesh, const Material& material);

/// Is every edge shared by exactly two triangles that run along it in opposite ways? Vertices at
/// the same place count as one.
bool is_closed(const Mesh& mesh);

} // namespace keystead
