// Typed elements out of a document's bytes: glTF 2.0 §3.6.2 "Accessors".
#pragma once

#include "sim/import/gltf_document.h"

#include <glm/glm.hpp>

namespace keystead::importing::gltf {

/// Ranges of every view and accessor, before anything is read: a view in its buffer, an accessor
/// and its sparse part in their views, counts within `limits`.
Outcome check_ranges(const Document& document, const Buffers& buffers, const ImportLimits& limits,
                     const Blame& blame);

/// What is read, and for whom. Ranges have been checked.
struct Source {
    const Document& document;
    const Buffers& buffers;
    const Blame& blame;
};

/// Elements as reals, `width` numbers each, flat. Normalised integers as §3.6.2.2 and
/// KHR_mesh_quantization say: max(c / 127, -1) for signed, c / 255 for unsigned. A problem if the
/// accessor's type has another width.
Result<std::vector<float>> read_reals(const Source& source, std::size_t accessor, int width);

/// Three numbers an element.
Result<std::vector<glm::vec3>> read_vectors(const Source& source, std::size_t accessor);

/// Vertex indices, each below `vertex_count`.
Result<std::vector<std::uint32_t>> read_indices(const Source& source, std::size_t accessor,
                                                std::size_t vertex_count);

} // namespace keystead::importing::gltf
