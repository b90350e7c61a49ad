#include "sim/import/field_check.h"
#include "sim/import/gltf_accessor.h"
#include "sim/import/gltf_bytes.h"

namespace keystead::importing::gltf {

namespace {

/// Do `count` elements of `element` bytes, `stride` apart from `offset`, fit in `length`? Without
/// forming any product that could wrap.
bool fits(std::size_t offset, std::size_t count, std::size_t element, std::size_t stride,
          std::size_t length) {
    if (count == 0) return offset <= length;
    if (offset > length || element > length - offset) return false;
    return (count - 1) <= (length - offset - element) / stride;
}

std::string needs(std::size_t count, std::size_t element, std::size_t offset, const std::string& of,
                  std::size_t length) {
    return std::to_string(count) + " elements of " + byte_count(element) + " from byte " +
           std::to_string(offset) + " do not fit in " + of + ", which holds " + byte_count(length);
}

Outcome check_view(const View& view, const Buffers& buffers, const std::string& place,
                   const Blame& blame) {
    const std::size_t holds = buffers.bytes[view.buffer].size();
    if (view.offset <= holds && view.length <= holds - view.offset) return std::nullopt;
    return blame.damaged(place, byte_count(view.length) + " from byte " +
                                    std::to_string(view.offset) + " do not fit in " +
                                    at("buffers", view.buffer) + ", which holds " +
                                    byte_count(holds));
}

Outcome check_sparse(const Document& document, const Accessor& accessor, const std::string& place,
                     const Blame& blame) {
    const Sparse& sparse = *accessor.sparse;
    if (sparse.count > accessor.count)
        return blame.damaged(place + ".sparse", "it replaces " + std::to_string(sparse.count) +
                                                    " of " + std::to_string(accessor.count) +
                                                    " elements");
    if (sparse.index_component != Component::unsigned_byte &&
        sparse.index_component != Component::unsigned_short &&
        sparse.index_component != Component::unsigned_int)
        return blame.damaged(place + ".sparse.indices", "its component type is not unsigned");
    const std::size_t index_bytes = component_bytes(sparse.index_component);
    const View& indices = document.views[sparse.index_view];
    if (!fits(sparse.index_offset, sparse.count, index_bytes, index_bytes, indices.length))
        return blame.damaged(place + ".sparse.indices",
                             needs(sparse.count, index_bytes, sparse.index_offset,
                                   at("bufferViews", sparse.index_view), indices.length));
    const View& values = document.views[sparse.value_view];
    const std::size_t element = element_bytes(accessor);
    if (!fits(sparse.value_offset, sparse.count, element, element, values.length))
        return blame.damaged(place + ".sparse.values",
                             needs(sparse.count, element, sparse.value_offset,
                                   at("bufferViews", sparse.value_view), values.length));
    return std::nullopt;
}

Outcome check_accessor(const Document& document, const Accessor& accessor,
                       const ImportLimits& limits, const std::string& place, const Blame& blame) {
    // Three indices a triangle; without a view no byte stands behind the count.
    if (accessor.count > 3 * std::max(limits.max_triangles, limits.max_vertices))
        return blame.problem(place + ".count",
                             std::to_string(accessor.count) + " elements are above the limit",
                             "reduce the mesh before exporting");
    if (accessor.view) {
        const View& view = document.views[*accessor.view];
        const std::size_t element = element_bytes(accessor);
        const std::size_t stride = view.stride == 0 ? element : view.stride;
        if (stride < element)
            return blame.damaged(place, "elements of " + byte_count(element) +
                                            " overlap at a stride of " + std::to_string(stride));
        if (!fits(accessor.offset, accessor.count, element, stride, view.length))
            return blame.damaged(place, needs(accessor.count, element, accessor.offset,
                                              at("bufferViews", *accessor.view), view.length));
    }
    return accessor.sparse ? check_sparse(document, accessor, place, blame) : std::nullopt;
}

} // namespace

std::size_t component_bytes(Component component) {
    switch (component) {
    case Component::signed_byte:
    case Component::unsigned_byte:
        return 1;
    case Component::signed_short:
    case Component::unsigned_short:
        return 2;
    case Component::unsigned_int:
    case Component::real:
        break;
    }
    return 4;
}

std::size_t element_bytes(const Accessor& accessor) {
    return component_bytes(accessor.component) * static_cast<std::size_t>(accessor.width);
}

Outcome check_ranges(const Document& document, const Buffers& buffers, const ImportLimits& limits,
                     const Blame& blame) {
    for (std::size_t i = 0; i < document.views.size(); ++i)
        if (Outcome bad = check_view(document.views[i], buffers, at("bufferViews", i), blame))
            return bad;
    for (std::size_t i = 0; i < document.accessors.size(); ++i)
        if (Outcome bad =
                check_accessor(document, document.accessors[i], limits, at("accessors", i), blame))
            return bad;
    return std::nullopt;
}

} // namespace keystead::importing::gltf
