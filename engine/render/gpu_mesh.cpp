#include "engine/render/gpu_mesh.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <glad/gl.h>
#include <limits>

namespace keystead {

namespace {

struct Vertex {
    glm::vec3 position_m;
    glm::vec3 normal; ///< zero: the triangle's own
    glm::vec4 colour; ///< linear albedo and roughness
    glm::vec3 tangent;
};

std::vector<Vertex> vertices_of(const Mesh& mesh, const Material& material) {
    std::vector<Vertex> vertices(mesh.positions_m.size());
    for (std::size_t i = 0; i < vertices.size(); ++i) {
        Vertex& v = vertices[i];
        v.position_m = mesh.positions_m[i];
        v.normal = mesh.normals.empty() ? glm::vec3(0.0F) : mesh.normals[i];
        const glm::vec3 albedo = mesh.colours.empty() ? material.albedo : mesh.colours[i];
        const float rough = mesh.roughness.empty() ? material.roughness : mesh.roughness[i];
        v.colour = glm::vec4(albedo, rough);
        v.tangent = mesh.tangents.empty() ? glm::vec3(0.0F) : mesh.tangents[i];
    }
    return vertices;
}

void describe_attribute(unsigned index, int components, std::size_t offset) {
    glEnableVertexAttribArray(index);
    glVertexAttribPointer(index, components, GL_FLOAT, GL_FALSE, sizeof(Vertex),
                          reinterpret_cast<const void*>(offset)); // NOLINT: an offset by contract
}

Box box_of(const std::vector<Vertex>& vertices) {
    Box box{glm::vec3(std::numeric_limits<float>::max()),
            glm::vec3(std::numeric_limits<float>::lowest())};
    for (const Vertex& v : vertices) {
        box.low_m = glm::min(box.low_m, v.position_m);
        box.high_m = glm::max(box.high_m, v.position_m);
    }
    return box;
}

/// For each vertex the first one at the same place.
std::vector<unsigned> welded(const Mesh& mesh) {
    std::vector<unsigned> order(mesh.positions_m.size());
    for (unsigned i = 0; i < order.size(); ++i) order[i] = i;
    const auto key = [&](unsigned i) {
        const glm::vec3& p = mesh.positions_m[i];
        return std::array<float, 3>{p.x, p.y, p.z};
    };
    std::sort(order.begin(), order.end(),
              [&](unsigned a, unsigned b) { return key(a) != key(b) ? key(a) < key(b) : a < b; });
    std::vector<unsigned> first(order.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        first[order[i]] =
            i > 0 && key(order[i]) == key(order[i - 1]) ? first[order[i - 1]] : order[i];
    return first;
}

} // namespace

bool is_closed(const Mesh& mesh) {
    const std::vector<unsigned> place = welded(mesh);
    // Directed edges: each must be met once by its reverse.
    std::vector<std::pair<unsigned, unsigned>> forward, backward;
    for (const glm::uvec3& t : mesh.triangles)
        for (int k = 0; k < 3; ++k) {
            const unsigned a = place[t[k]], b = place[t[(k + 1) % 3]];
            if (a == b) continue; // a collapsed edge bounds nothing
            forward.emplace_back(a, b);
            backward.emplace_back(b, a);
        }
    std::sort(forward.begin(), forward.end());
    std::sort(backward.begin(), backward.end());
    return !forward.empty() && forward == backward;
}

std::shared_ptr<GpuMesh> upload_mesh(const Mesh& mesh, const Material& material) {
    auto made = std::make_shared<GpuMesh>();
    const std::vector<Vertex> vertices = vertices_of(mesh, material);
    made->index_count = static_cast<int>(3 * mesh.triangles.size());
    made->box = box_of(vertices);
    made->closed = is_closed(mesh);
    made->vertex_array = VertexArray::make();
    made->vertices = Buffer::make();
    made->indices = Buffer::make();
    glBindVertexArray(made->vertex_array.id());
    glBindBuffer(GL_ARRAY_BUFFER, made->vertices.id());
    glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(vertices.size() * sizeof(Vertex)),
                 vertices.data(), GL_STATIC_DRAW);
    glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, made->indices.id());
    glBufferData(GL_ELEMENT_ARRAY_BUFFER,
                 static_cast<GLsizeiptr>(mesh.triangles.size() * sizeof(glm::uvec3)),
                 mesh.triangles.data(), GL_STATIC_DRAW);
    describe_attribute(0, 3, offsetof(Vertex, position_m));
    describe_attribute(1, 3, offsetof(Vertex, normal));
    describe_attribute(2, 4, offsetof(Vertex, colour));
    describe_attribute(3, 3, offsetof(Vertex, tangent));
    glBindVertexArray(0);
    return made;
}

} // namespace keystead
