#include "sim/import/gltf_mesh.h"

#include "sim/import/field_check.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace keystead::importing::gltf {

namespace {

/// What moves each vertex: one matrix for all, or a weighted sum of joint matrices.
struct Mover {
    const Placement& placement;
    std::vector<float> joints, weights; ///< four a vertex

    glm::dmat4 matrix(std::size_t vertex) const {
        if (placement.joints.empty()) return placement.node;
        glm::dmat4 sum(0.0);
        double total = 0.0;
        for (std::size_t k = 4 * vertex; k < 4 * vertex + 4; ++k) {
            const auto weight = static_cast<double>(weights[k]);
            if (weight == 0.0) continue;
            sum += weight * placement.joints[static_cast<std::size_t>(joints[k])];
            total += weight;
        }
        // Weights need not sum to exactly one after rounding; a vertex without any stays put.
        return total > 1e-6 ? sum / total : placement.joints.front();
    }
};

Outcome check_skinning(const Source& source, const Primitive& primitive, const Mover& mover,
                       std::size_t vertex_count) {
    const std::string place = at("accessors", *primitive.joints);
    if (mover.joints.size() != 4 * vertex_count || mover.weights.size() != 4 * vertex_count)
        return source.blame.damaged(place, "joints or weights are not one set a vertex");
    for (const float joint : mover.joints)
        if (!(joint >= 0.0F && joint < static_cast<float>(mover.placement.joints.size())))
            return source.blame.damaged(place, "a joint points beyond a skin of " +
                                                   std::to_string(mover.placement.joints.size()));
    for (const float weight : mover.weights)
        if (!(weight >= 0.0F && weight <= 1e3F))
            return source.blame.damaged(at("accessors", *primitive.weights),
                                        "a weight is not a usable number");
    return std::nullopt;
}

Result<Mover> mover_of(const Source& source, const Primitive& primitive, const Placement& placement,
                       std::size_t vertex_count) {
    Mover mover{placement, {}, {}};
    if (placement.joints.empty()) return mover;
    if (!primitive.joints || !primitive.weights)
        return source.blame.damaged("skinned mesh", "it has no joints or weights");
    Result<std::vector<float>> joints = read_reals(source, *primitive.joints, 4);
    if (!joints) return joints.problem();
    Result<std::vector<float>> weights = read_reals(source, *primitive.weights, 4);
    if (!weights) return weights.problem();
    mover.joints = std::move(joints).value();
    mover.weights = std::move(weights).value();
    if (const Outcome bad = check_skinning(source, primitive, mover, vertex_count)) return *bad;
    return mover;
}

Outcome move_positions(const Source& source, const Mover& mover, std::size_t accessor,
                       std::vector<glm::vec3>& positions) {
    for (std::size_t i = 0; i < positions.size(); ++i) {
        const glm::dvec4 moved = mover.matrix(i) * glm::dvec4(glm::dvec3(positions[i]), 1.0);
        positions[i] = glm::vec3(moved);
        // Beyond this, lengths and areas no longer fit in single precision.
        if (!(glm::length(glm::dvec3(moved)) < 1e9))
            return source.blame.damaged(at("accessors", accessor), "vertex " + std::to_string(i) +
                                                                       " is not a usable position");
    }
    return std::nullopt;
}

/// Normals turn with the inverse transpose; the cofactor matrix is that up to a positive factor
/// where the determinant is positive, and needs no division. Winding settles the sign below.
glm::dmat3 normal_matrix(const glm::dmat3& m) {
    const glm::dmat3 cofactor(glm::cross(m[1], m[2]), glm::cross(m[2], m[0]),
                              glm::cross(m[0], m[1]));
    return glm::determinant(m) < 0.0 ? -cofactor : cofactor;
}

/// Unit normals in the scene; empty if any is unusable, so that they are computed instead.
std::vector<glm::vec3> moved_normals(const Mover& mover, std::vector<glm::vec3> normals) {
    for (std::size_t i = 0; i < normals.size(); ++i) {
        const glm::dvec3 moved =
            normal_matrix(glm::dmat3(mover.matrix(i))) * glm::dvec3(normals[i]);
        const double length = glm::length(moved);
        if (!(length > 1e-30 && length < 1e30)) return {};
        normals[i] = glm::vec3(moved / length);
    }
    return normals;
}

/// §3.9.2: vertex colours multiply the base colour; both are linear.
Result<std::vector<glm::vec3>> colours_of(const Source& source, const Primitive& primitive,
                                          std::size_t vertex_count) {
    std::optional<glm::vec3> base;
    if (primitive.material) base = source.document.materials[*primitive.material].base_colour;
    std::vector<glm::vec3> colours;
    if (primitive.colour) {
        const int width = source.document.accessors[*primitive.colour].width;
        const Result<std::vector<float>> flat =
            read_reals(source, *primitive.colour, width == 3 ? 3 : 4);
        if (!flat) return flat.problem();
        const auto step = static_cast<std::size_t>(width);
        for (std::size_t i = 0; i + step <= flat.value().size(); i += step)
            colours.emplace_back(flat.value()[i], flat.value()[i + 1], flat.value()[i + 2]);
    }
    if (colours.size() != vertex_count) {
        if (!base) return std::vector<glm::vec3>{};
        return std::vector<glm::vec3>(vertex_count, *base);
    }
    for (glm::vec3& colour : colours) {
        colour *= base.value_or(glm::vec3(1.0F));
        for (int k = 0; k < 3; ++k) // comparison in this form turns NaN into black
            colour[k] = colour[k] > 0.0F ? std::min(colour[k], 1.0F) : 0.0F;
    }
    return colours;
}

Result<std::vector<std::uint32_t>> corners_of(const Source& source, const Primitive& primitive,
                                              std::size_t vertex_count) {
    if (primitive.indices) return read_indices(source, *primitive.indices, vertex_count);
    std::vector<std::uint32_t> corners(vertex_count);
    std::iota(corners.begin(), corners.end(), 0U);
    return corners;
}

/// §3.7.4: a negative determinant turns the winding.
void turn_winding(std::vector<glm::uvec3>& triangles) {
    for (glm::uvec3& triangle : triangles) std::swap(triangle.y, triangle.z);
}

Outcome check_corners(const Source& source, const Primitive& primitive, std::size_t corners) {
    if (primitive.mode != 4 || corners % 3 == 0) return std::nullopt;
    return source.blame.damaged(primitive.indices ? at("accessors", *primitive.indices)
                                                  : at("accessors", primitive.position),
                                std::to_string(corners) + " corners are not whole triangles");
}

} // namespace

void note_once(std::vector<std::string>& notes, const std::string& note) {
    if (std::find(notes.begin(), notes.end(), note) == notes.end()) notes.push_back(note);
}

std::vector<glm::uvec3> triangles_of(const std::vector<std::uint32_t>& i, int mode) {
    std::vector<glm::uvec3> triangles;
    if (i.size() < 3) return triangles;
    if (mode == 4)
        for (std::size_t k = 0; k + 3 <= i.size(); k += 3)
            triangles.emplace_back(i[k], i[k + 1], i[k + 2]);
    else
        for (std::size_t k = 0; k + 3 <= i.size(); ++k) {
            if (mode == 6)
                triangles.emplace_back(i[k + 1], i[k + 2], i[0]);
            else
                triangles.emplace_back(i[k], i[k + 1 + k % 2], i[k + 2 - k % 2]);
        }
    return triangles;
}

Result<Mesh> place_primitive(const Source& source, const Primitive& primitive,
                             const Placement& placement, std::vector<std::string>& notes) {
    Result<std::vector<glm::vec3>> positions = read_vectors(source, primitive.position);
    if (!positions) return positions.problem();
    Mesh mesh;
    mesh.positions_m = std::move(positions).value();
    const std::size_t count = mesh.positions_m.size();
    const Result<Mover> mover = mover_of(source, primitive, placement, count);
    if (!mover) return mover.problem();
    if (Outcome bad = move_positions(source, mover.value(), primitive.position, mesh.positions_m))
        return *bad;
    if (primitive.normal) {
        Result<std::vector<glm::vec3>> normals = read_vectors(source, *primitive.normal);
        if (!normals) return normals.problem();
        if (normals.value().size() == count)
            mesh.normals = moved_normals(mover.value(), std::move(normals).value());
        if (mesh.normals.empty())
            note_once(notes, "Unusable normals in the file were replaced by computed ones.");
    }
    Result<std::vector<glm::vec3>> colours = colours_of(source, primitive, count);
    if (!colours) return colours.problem();
    mesh.colours = std::move(colours).value();
    const Result<std::vector<std::uint32_t>> corners = corners_of(source, primitive, count);
    if (!corners) return corners.problem();
    if (Outcome bad = check_corners(source, primitive, corners.value().size())) return *bad;
    mesh.triangles = triangles_of(corners.value(), primitive.mode);
    if (placement.joints.empty() && glm::determinant(glm::dmat3(placement.node)) < 0.0)
        turn_winding(mesh.triangles);
    return mesh;
}

} // namespace keystead::importing::gltf
