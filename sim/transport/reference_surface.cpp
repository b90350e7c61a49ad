#include "sim/transport/reference_surface.h"

#include "sim/light/panel_light.h"

#include <cmath>

namespace keystead::reference {

namespace {

template <class T>
T between(const std::vector<T>& values, const glm::uvec3& corner, const Met& met) {
    return (1.0F - met.u - met.v) * values[corner.x] + met.u * values[corner.y] +
           met.v * values[corner.z];
}

} // namespace

Surface surface_at(const ScenePart& part, const Met& met, const glm::vec3& direction) {
    const Mesh& mesh = *part.mesh;
    const glm::uvec3& corner = mesh.triangles[met.triangle];
    const glm::vec3 p0 = mesh.positions_m[corner.x];
    const glm::vec3 first = mesh.positions_m[corner.y] - p0,
                    second = mesh.positions_m[corner.z] - p0;
    Surface s{};
    s.position = p0 + met.u * first + met.v * second;
    const glm::vec3 across = glm::cross(first, second);
    const float length = glm::length(across);
    s.geometric = length > 0.0F ? across / length : -direction;
    if (glm::dot(s.geometric, direction) > 0.0F) s.geometric = -s.geometric;
    s.normal = s.geometric;
    s.finish = static_cast<int>(part.material.finish);
    if (!mesh.normals.empty()) {
        const glm::vec3 smooth = between(mesh.normals, corner, met);
        if (glm::dot(smooth, smooth) > 0.25F) {
            s.normal = glm::normalize(smooth);
            // A strand's band says nothing about which way the hair there faces.
            if (s.finish == reflection::finish_hair)
                s.geometric = s.normal;
            else if (glm::dot(s.normal, s.geometric) < 0.0F)
                s.normal = -s.normal;
        }
    }
    if (s.finish == reflection::finish_hair && !mesh.tangents.empty()) {
        const glm::vec3 along = between(mesh.tangents, corner, met);
        if (glm::dot(along, along) > 0.25F) s.tangent = glm::normalize(along);
    }
    s.albedo = mesh.colours.empty() ? part.material.albedo : between(mesh.colours, corner, met);
    s.roughness =
        mesh.roughness.empty() ? part.material.roughness : between(mesh.roughness, corner, met);
    s.f0 = part.material.f0;
    s.metal = part.material.metal;
    s.emitting_light = part.emitting_light;
    return s;
}

float choose_side(Surface& s, float transmission, float dice) {
    if (transmission <= 0.0F) return 1.0F;
    const float back = glm::dot(s.albedo, glm::vec3(0.2126F, 0.7152F, 0.0722F));
    const float chance = transmission / (transmission + back);
    if (dice >= chance) return 1.0F / (1.0F - chance);
    s.position -= static_cast<float>(cloth_thickness_m) * s.geometric;
    s.geometric = -s.geometric;
    s.normal = -s.normal;
    s.albedo = glm::vec3(transmission);
    s.metal = false;
    s.f0 = 0.0F;
    return 1.0F / chance;
}

} // namespace keystead::reference
