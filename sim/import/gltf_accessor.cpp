#include "sim/import/gltf_accessor.h"

#include "sim/import/field_check.h"
#include "sim/import/gltf_bytes.h"

#include <algorithm>
#include <cstring>

namespace keystead::importing::gltf {

namespace {

template <class T>
T load(const std::uint8_t* from) {
    T value;
    std::memcpy(&value, from, sizeof value);
    return value;
}

float load_real(const std::uint8_t* from, Component component, bool normalised) {
    const auto scaled = [&](auto value, float largest) {
        const auto real = static_cast<float>(value);
        return normalised ? std::max(real / largest, -1.0F) : real;
    };
    switch (component) {
    case Component::signed_byte:
        return scaled(load<std::int8_t>(from), 127.0F);
    case Component::unsigned_byte:
        return scaled(load<std::uint8_t>(from), 255.0F);
    case Component::signed_short:
        return scaled(load<std::int16_t>(from), 32767.0F);
    case Component::unsigned_short:
        return scaled(load<std::uint16_t>(from), 65535.0F);
    case Component::unsigned_int:
        return static_cast<float>(load<std::uint32_t>(from));
    case Component::real:
        break;
    }
    return load<float>(from);
}

std::uint32_t load_index(const std::uint8_t* from, Component component) {
    if (component == Component::unsigned_byte) return load<std::uint8_t>(from);
    if (component == Component::unsigned_short) return load<std::uint16_t>(from);
    return load<std::uint32_t>(from);
}

const std::uint8_t* bytes_of(const Source& source, std::size_t view) {
    const View& v = source.document.views[view];
    return source.buffers.bytes[v.buffer].data() + v.offset;
}

void read_element(const std::uint8_t* from, const Accessor& accessor, float* to) {
    const std::size_t step = component_bytes(accessor.component);
    for (int i = 0; i < accessor.width; ++i)
        to[i] = load_real(from + static_cast<std::size_t>(i) * step, accessor.component,
                          accessor.normalised);
}

void read_dense(const Source& source, const Accessor& accessor, std::vector<float>& to) {
    const View& view = source.document.views[*accessor.view];
    const std::size_t stride = view.stride == 0 ? element_bytes(accessor) : view.stride;
    const std::uint8_t* from = bytes_of(source, *accessor.view) + accessor.offset;
    const auto width = static_cast<std::size_t>(accessor.width);
    for (std::size_t i = 0; i < accessor.count; ++i)
        read_element(from + i * stride, accessor, to.data() + i * width);
}

/// §3.6.2.3: elements at these indices are replaced.
Outcome read_sparse(const Source& source, const Accessor& accessor, const std::string& place,
                    std::vector<float>& to) {
    const Sparse& sparse = *accessor.sparse;
    const std::size_t index_bytes = component_bytes(sparse.index_component);
    const std::uint8_t* indices = bytes_of(source, sparse.index_view) + sparse.index_offset;
    const std::uint8_t* values = bytes_of(source, sparse.value_view) + sparse.value_offset;
    const auto width = static_cast<std::size_t>(accessor.width);
    for (std::size_t i = 0; i < sparse.count; ++i) {
        const std::size_t target = load_index(indices + i * index_bytes, sparse.index_component);
        if (target >= accessor.count)
            return source.blame.damaged(place + ".sparse.indices",
                                        std::to_string(target) + " points beyond " +
                                            std::to_string(accessor.count) + " elements");
        read_element(values + i * element_bytes(accessor), accessor, to.data() + target * width);
    }
    return std::nullopt;
}

} // namespace

Result<std::vector<float>> read_reals(const Source& source, std::size_t accessor, int width) {
    const Accessor& from = source.document.accessors[accessor];
    const std::string place = at("accessors", accessor);
    if (from.width != width)
        return source.blame.damaged(place + ".type", "it holds " + std::to_string(from.width) +
                                                         " numbers an element where " +
                                                         std::to_string(width) + " are needed");
    std::vector<float> values(from.count * static_cast<std::size_t>(width), 0.0F);
    if (from.view) read_dense(source, from, values);
    if (from.sparse)
        if (const Outcome bad = read_sparse(source, from, place, values)) return *bad;
    return values;
}

Result<std::vector<glm::vec3>> read_vectors(const Source& source, std::size_t accessor) {
    const Result<std::vector<float>> flat = read_reals(source, accessor, 3);
    if (!flat) return flat.problem();
    std::vector<glm::vec3> vectors(flat.value().size() / 3);
    for (std::size_t i = 0; i < vectors.size(); ++i)
        vectors[i] = {flat.value()[3 * i], flat.value()[3 * i + 1], flat.value()[3 * i + 2]};
    return vectors;
}

Result<std::vector<std::uint32_t>> read_indices(const Source& source, std::size_t accessor,
                                                std::size_t vertex_count) {
    const Accessor& from = source.document.accessors[accessor];
    const std::string place = at("accessors", accessor);
    const bool is_unsigned = from.component == Component::unsigned_byte ||
                             from.component == Component::unsigned_short ||
                             from.component == Component::unsigned_int;
    if (from.width != 1 || !is_unsigned || !from.view || from.sparse)
        return source.blame.damaged(place, "indices must be plain unsigned numbers");
    const std::size_t step = component_bytes(from.component);
    const std::size_t set_stride = source.document.views[*from.view].stride;
    const std::size_t stride = set_stride == 0 ? step : set_stride;
    const std::uint8_t* bytes = bytes_of(source, *from.view) + from.offset;
    std::vector<std::uint32_t> indices(from.count);
    for (std::size_t i = 0; i < from.count; ++i) {
        indices[i] = load_index(bytes + i * stride, from.component);
        if (indices[i] >= vertex_count)
            return source.blame.damaged(place, "index " + std::to_string(i) + " is " +
                                                   std::to_string(indices[i]) + ", there are " +
                                                   std::to_string(vertex_count) + " vertices");
    }
    return indices;
}

} // namespace keystead::importing::gltf
