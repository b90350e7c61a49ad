#include "sim/import/decimate.h"
#include "sim/import/finish.h"

#include <array>
#include <cmath>

namespace keystead::importing {

namespace {

constexpr float edge_cosine = 0.5F; // 60°
/// Above this many faces around one place every corner gets the same mean: the comparison of each
/// with each would take for ever in a file made to do so.
constexpr std::size_t most_compared = 64;

/// Faces around each welded place, as slices of one list.
struct Fans {
    std::vector<std::uint32_t> start, faces;
};

Fans fans_of(const Mesh& mesh, const std::vector<std::uint32_t>& place) {
    Fans fans;
    fans.start.assign(mesh.positions_m.size() + 1, 0);
    for (const glm::uvec3& t : mesh.triangles)
        for (int k = 0; k < 3; ++k) ++fans.start[place[t[k]] + 1];
    for (std::size_t i = 1; i < fans.start.size(); ++i) fans.start[i] += fans.start[i - 1];
    fans.faces.resize(3 * mesh.triangles.size());
    std::vector<std::uint32_t> fill(fans.start.begin(), fans.start.end() - 1);
    for (std::uint32_t f = 0; f < mesh.triangles.size(); ++f)
        for (int k = 0; k < 3; ++k) fans.faces[fill[place[mesh.triangles[f][k]]]++] = f;
    return fans;
}

/// Twice the area times the unit normal.
std::vector<glm::vec3> face_vectors(const Mesh& mesh) {
    std::vector<glm::vec3> vectors;
    vectors.reserve(mesh.triangles.size());
    for (const glm::uvec3& t : mesh.triangles) {
        const glm::dvec3 a(mesh.positions_m[t.x]);
        vectors.emplace_back(glm::cross(glm::dvec3(mesh.positions_m[t.y]) - a,
                                        glm::dvec3(mesh.positions_m[t.z]) - a));
    }
    return vectors;
}

glm::vec3 unit_or_up(const glm::vec3& vector) {
    const double length = glm::length(glm::dvec3(vector));
    return length > 0.0 ? glm::vec3(glm::dvec3(vector) / length) : glm::vec3(0.0F, 1.0F, 0.0F);
}

/// Mean over the faces of one fan that are within the edge angle of `face`.
glm::vec3 corner_normal(const std::vector<glm::vec3>& vectors, const std::uint32_t* first,
                        std::size_t count, std::uint32_t face) {
    const glm::vec3 own = unit_or_up(vectors[face]);
    glm::dvec3 sum(0.0);
    for (std::size_t i = 0; i < count; ++i) {
        const glm::vec3& other = vectors[first[i]];
        if (count > most_compared || glm::dot(own, other) >= edge_cosine * glm::length(other))
            sum += glm::dvec3(other);
    }
    return glm::length(sum) > 0.0 ? glm::vec3(glm::normalize(sum)) : own;
}

/// Gives a corner its normal: the vertex itself if it is free or already has this one, else a copy.
class Splitter {
public:
    explicit Splitter(Mesh& mesh)
        : mesh_(mesh)
        , next_(mesh.positions_m.size(), none) {
        mesh_.normals.assign(mesh.positions_m.size(), glm::vec3(0.0F));
    }

    std::uint32_t vertex(std::uint32_t wanted, const glm::vec3& normal) {
        std::uint32_t at = wanted;
        for (std::size_t step = 0; step < most_compared; ++step) {
            if (mesh_.normals[at] == glm::vec3(0.0F)) {
                mesh_.normals[at] = normal;
                return at;
            }
            if (glm::dot(mesh_.normals[at], normal) > 0.9999F) return at;
            if (next_[at] == none) break;
            at = next_[at];
        }
        const auto copy = static_cast<std::uint32_t>(mesh_.positions_m.size());
        mesh_.positions_m.push_back(glm::vec3(mesh_.positions_m[wanted]));
        if (!mesh_.colours.empty()) mesh_.colours.push_back(glm::vec3(mesh_.colours[wanted]));
        mesh_.normals.push_back(normal);
        next_.push_back(next_[at]);
        next_[at] = copy;
        return copy;
    }

private:
    static constexpr std::uint32_t none = 0xFFFFFFFFU;
    Mesh& mesh_;
    std::vector<std::uint32_t> next_;
};

} // namespace

void compute_normals(Mesh& mesh) {
    const std::vector<std::uint32_t> place = weld_map(mesh.positions_m);
    const Fans fans = fans_of(mesh, place);
    const std::vector<glm::vec3> vectors = face_vectors(mesh);
    Splitter splitter(mesh);
    for (std::uint32_t f = 0; f < mesh.triangles.size(); ++f)
        for (int k = 0; k < 3; ++k) {
            std::uint32_t& corner = mesh.triangles[f][k];
            const std::uint32_t spot = place[corner];
            const std::uint32_t first = fans.start[spot];
            corner = splitter.vertex(corner, corner_normal(vectors, fans.faces.data() + first,
                                                           fans.start[spot + 1] - first, f));
        }
    for (glm::vec3& normal : mesh.normals) // vertices no face uses
        if (normal == glm::vec3(0.0F)) normal = {0.0F, 1.0F, 0.0F};
}

void append_part(Mesh& mesh, Mesh part) {
    if (part.normals.empty()) compute_normals(part);
    append(mesh, part);
}

} // namespace keystead::importing
