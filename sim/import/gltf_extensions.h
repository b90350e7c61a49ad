// Extensions of glTF a file may need: which are understood, which make no difference to shape, and
// what to say of the others.
#pragma once

#include "sim/import/blame.h"

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace keystead::importing::gltf {

/// `name` with what it is in plain words, e.g. `KHR_draco_mesh_compression (Draco compression)`.
std::string extension_in_words(const std::string& name);
/// How to export without it.
std::string extension_remedy(const std::string& name);

/// A problem if the document requires something that changes its triangles and is not understood.
/// Understood: KHR_mesh_quantization. Without effect on shape: materials, lights, texture
/// transforms, descriptive ones; those left out are told in `notes`.
Outcome check_extensions(const nlohmann::json& document, const Blame& blame,
                         std::vector<std::string>& notes);

} // namespace keystead::importing::gltf
