// The only door to the glTF library.
#pragma once

#include "sim/import/gltf_document.h"

namespace keystead::importing::gltf {

/// Reads a document made by `clean_document`. No buffer, image or file passes through the library.
Result<Document> parse_clean(const std::string& json_text, const Blame& blame);

} // namespace keystead::importing::gltf
