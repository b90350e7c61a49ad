#include "sim/import/gltf_parse.h"

#include <exception>
#include <glm/gtc/quaternion.hpp>
#include <glm/gtc/type_ptr.hpp>
#include <tiny_gltf.h>

namespace keystead::importing::gltf {

namespace {

std::optional<std::size_t> index_or_none(int index) {
    if (index < 0) return std::nullopt;
    return static_cast<std::size_t>(index);
}

std::size_t size_of(int value) {
    return value < 0 ? 0 : static_cast<std::size_t>(value);
}

View view_from(const tinygltf::BufferView& view) {
    return {size_of(view.buffer), view.byteOffset, view.byteLength, view.byteStride};
}

Accessor accessor_from(const tinygltf::Accessor& from) {
    Accessor to;
    to.view = index_or_none(from.bufferView);
    to.offset = from.byteOffset;
    to.count = from.count;
    to.component = static_cast<Component>(from.componentType);
    to.width = tinygltf::GetNumComponentsInType(static_cast<std::uint32_t>(from.type));
    to.normalised = from.normalized;
    if (!from.sparse.isSparse) return to;
    Sparse sparse;
    sparse.count = size_of(from.sparse.count);
    sparse.index_view = size_of(from.sparse.indices.bufferView);
    sparse.index_offset = size_of(from.sparse.indices.byteOffset);
    sparse.index_component = static_cast<Component>(from.sparse.indices.componentType);
    sparse.value_view = size_of(from.sparse.values.bufferView);
    sparse.value_offset = size_of(from.sparse.values.byteOffset);
    to.sparse = sparse;
    return to;
}

std::optional<std::size_t> attribute(const tinygltf::Primitive& primitive, const char* name) {
    const auto found = primitive.attributes.find(name);
    if (found == primitive.attributes.end()) return std::nullopt;
    return index_or_none(found->second);
}

MeshPrimitives mesh_from(const tinygltf::Mesh& mesh) {
    MeshPrimitives to;
    for (const tinygltf::Primitive& from : mesh.primitives) {
        Primitive one;
        one.position = attribute(from, "POSITION").value_or(0);
        one.normal = attribute(from, "NORMAL");
        one.colour = attribute(from, "COLOR_0");
        one.joints = attribute(from, "JOINTS_0");
        one.weights = attribute(from, "WEIGHTS_0");
        one.indices = index_or_none(from.indices);
        one.material = index_or_none(from.material);
        one.mode = from.mode;
        to.primitives.push_back(one);
    }
    return to;
}

/// §3.5.2: a matrix (column-major), or translation · rotation · scale; quaternions are x, y, z, w.
glm::dmat4 local_matrix(const tinygltf::Node& node) {
    if (node.matrix.size() == 16) return glm::make_mat4(node.matrix.data());
    glm::dmat4 matrix(1.0);
    if (node.rotation.size() == 4) {
        const std::vector<double>& r = node.rotation;
        const glm::dquat turn(r[3], r[0], r[1], r[2]);
        if (glm::length(turn) > 0.0) matrix = glm::mat4_cast(glm::normalize(turn));
    }
    if (node.scale.size() == 3)
        for (int i = 0; i < 3; ++i) matrix[i] *= node.scale[static_cast<std::size_t>(i)];
    if (node.translation.size() == 3)
        matrix[3] = glm::dvec4(glm::make_vec3(node.translation.data()), 1.0);
    return matrix;
}

std::vector<std::size_t> sizes_of(const std::vector<int>& from) {
    std::vector<std::size_t> to;
    for (const int value : from) to.push_back(size_of(value));
    return to;
}

Node node_from(const tinygltf::Node& from) {
    return {local_matrix(from), sizes_of(from.children), index_or_none(from.mesh),
            index_or_none(from.skin)};
}

/// The library's default is white; white says nothing about a subject, so it counts as absent.
Material material_from(const tinygltf::Material& from) {
    const std::vector<double>& colour = from.pbrMetallicRoughness.baseColorFactor;
    if (colour.size() != 4 || (colour[0] >= 1.0 && colour[1] >= 1.0 && colour[2] >= 1.0)) return {};
    return {glm::clamp(glm::vec3(colour[0], colour[1], colour[2]), 0.0F, 1.0F)};
}

/// The scene that is shown; without scenes, every node that is nobody's child.
std::vector<std::size_t> roots_of(const tinygltf::Model& model) {
    if (!model.scenes.empty()) return sizes_of(model.scenes[size_of(model.defaultScene)].nodes);
    std::vector<bool> is_child(model.nodes.size(), false);
    for (const tinygltf::Node& node : model.nodes)
        for (const int child : node.children) is_child[size_of(child)] = true;
    std::vector<std::size_t> roots;
    for (std::size_t i = 0; i < is_child.size(); ++i)
        if (!is_child[i]) roots.push_back(i);
    return roots;
}

Document document_from(const tinygltf::Model& model) {
    Document to;
    for (const auto& item : model.bufferViews) to.views.push_back(view_from(item));
    for (const auto& item : model.accessors) to.accessors.push_back(accessor_from(item));
    for (const auto& item : model.meshes) to.meshes.push_back(mesh_from(item));
    for (const auto& item : model.nodes) to.nodes.push_back(node_from(item));
    for (const auto& item : model.skins)
        to.skins.push_back({sizes_of(item.joints), index_or_none(item.inverseBindMatrices)});
    for (const auto& item : model.materials) to.materials.push_back(material_from(item));
    to.roots = roots_of(model);
    return to;
}

std::string first_line(const std::string& text) {
    return text.substr(0, text.find('\n'));
}

} // namespace

Result<Document> parse_clean(const std::string& json_text, const Blame& blame) {
    try {
        tinygltf::TinyGLTF library;
        library.SetFsCallbacks({nullptr, nullptr, nullptr, nullptr, nullptr});
        tinygltf::Model model;
        std::string error, warning;
        if (!library.LoadASCIIFromString(&model, &error, &warning, json_text.data(),
                                         static_cast<unsigned int>(json_text.size()), ""))
            return blame.damaged("", in_quotes(first_line(error)));
        return document_from(model);
    } catch (const std::exception& error) {
        return blame.damaged("", in_quotes(first_line(error.what())));
    }
}

} // namespace keystead::importing::gltf
