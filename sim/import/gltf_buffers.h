// Bytes a glTF document refers to: in the container, in the text, or in files of its folder.
#pragma once

#include "sim/import/field_check.h"
#include "sim/import/gltf_document.h"

namespace keystead::importing::gltf {

/// Fetches every buffer of `document`; `binary` is the container's chunk. Together they may hold
/// what `limits` allows.
Result<Buffers> fetch_buffers(const nlohmann::json& document, std::optional<ByteView> binary,
                              const std::filesystem::path& folder, const ImportLimits& limits,
                              const Blame& blame);

/// A note for images: they are not read, and references that would be refused are named. Never a
/// problem: shape does not depend on them.
void note_images(const nlohmann::json& document, const std::filesystem::path& folder,
                 const Blame& blame, std::vector<std::string>& notes);

} // namespace keystead::importing::gltf
