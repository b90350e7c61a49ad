// The part of a glTF document that is used, with every field's kind and every index checked.
//
// The library that reads the document into structures cuts large integers short, drops what it
// cannot read without a word, follows names out of the folder and descends without limit. It is
// given only this clean copy: no images, no names of files, no extras, no extensions.
#pragma once

#include "sim/import/field_check.h"

namespace keystead::importing::gltf {

/// The clean copy: `asset`, `scene`, `scenes`, `nodes`, `meshes` (triangles only), `skins`,
/// `materials` (base colour only), `accessors`, `bufferViews`. What is left out and might be missed
/// goes to `notes`.
Result<nlohmann::json> clean_document(const nlohmann::json& document, const ImportLimits& limits,
                                      const Blame& blame, std::vector<std::string>& notes);

/// One primitive, or null where it is left out (points, lines, nothing to place).
nlohmann::json clean_primitive(FieldCheck& check, const nlohmann::json& document,
                               const nlohmann::json& primitive, const std::string& place,
                               std::vector<std::string>& notes);

} // namespace keystead::importing::gltf
