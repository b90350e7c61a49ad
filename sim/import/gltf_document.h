// A glTF document as far as it is used here: triangles, nodes, skins, base colours. Plain values,
// indices checked against the arrays they point into.
#pragma once

#include "sim/base/vec.h"
#include "sim/import/file_bytes.h"

#include <optional>
#include <string>
#include <vector>

namespace keystead::importing::gltf {

/// Component types of §3.6.2.2; the numbers are the format's.
enum class Component : std::uint16_t {
    signed_byte = 5120,
    unsigned_byte = 5121,
    signed_short = 5122,
    unsigned_short = 5123,
    unsigned_int = 5125,
    real = 5126
};

struct View {
    std::size_t buffer = 0, offset = 0, length = 0;
    std::size_t stride = 0; ///< 0: tightly packed
};

struct Sparse {
    std::size_t count = 0;
    std::size_t index_view = 0, index_offset = 0;
    Component index_component = Component::unsigned_int;
    std::size_t value_view = 0, value_offset = 0;
};

struct Accessor {
    std::optional<std::size_t> view; ///< absent: zeros
    std::size_t offset = 0, count = 0;
    Component component = Component::real;
    int width = 1; ///< numbers in an element: 1..4, 16 for a matrix
    bool normalised = false;
    std::optional<Sparse> sparse;
};

/// Accessors of a primitive; absent ones are empty.
struct Primitive {
    std::size_t position = 0;
    std::optional<std::size_t> normal, colour, joints, weights, indices, material;
    int mode = 4;
};

struct MeshPrimitives {
    std::vector<Primitive> primitives;
};

struct Node {
    glm::dmat4 local{1.0};
    std::vector<std::size_t> children;
    std::optional<std::size_t> mesh, skin;
};

struct Skin {
    std::vector<std::size_t> joints;
    std::optional<std::size_t> inverse_bind;
};

struct Material {
    std::optional<glm::vec3> base_colour; ///< linear; absent: white or from an image
};

struct Document {
    std::vector<View> views;
    std::vector<Accessor> accessors;
    std::vector<MeshPrimitives> meshes;
    std::vector<Node> nodes;
    std::vector<Skin> skins;
    std::vector<Material> materials;
    std::vector<std::size_t> roots; ///< nodes of the scene that is shown
};

/// Bytes of each buffer, cut to the length the document declares. `bytes` looks into `owned` or
/// into the container, which must outlive it; moved, never copied.
struct Buffers {
    Buffers() = default;
    Buffers(Buffers&&) = default;
    Buffers& operator=(Buffers&&) = default;
    std::vector<Bytes> owned;
    std::vector<ByteView> bytes;
};

} // namespace keystead::importing::gltf
