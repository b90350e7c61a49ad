// Sizes of what accessors hold.
#pragma once

#include "sim/import/gltf_document.h"

namespace keystead::importing::gltf {

std::size_t component_bytes(Component component);
/// Matrices of bytes and shorts pad their columns (§3.6.2.4); none of those is read here.
std::size_t element_bytes(const Accessor& accessor);

} // namespace keystead::importing::gltf
