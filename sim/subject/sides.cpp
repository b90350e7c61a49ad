#include "sim/subject/sides.h"

#include <array>
#include <map>

namespace keystead::sculpt {

Mesh side_mesh(const Surface& surface, bool left, double shift_mm) {
    Mesh mesh;
    const double side = left ? 1.0 : -1.0;
    for (std::size_t i = 0; i < surface.points.size(); ++i) {
        const Vec3 p = (surface.points[i] - Vec3(shift_mm, 0, 0)) * 1e-3;
        // Adding zero turns a mirrored -0 into 0.
        mesh.positions_m.emplace_back(side * p.x + 0.0, p.y, p.z);
        mesh.normals.emplace_back(side * surface.normals[i].x, surface.normals[i].y,
                                  surface.normals[i].z);
    }
    for (const glm::uvec3& t : surface.triangles)
        mesh.triangles.push_back(left ? t : glm::uvec3(t.x, t.z, t.y));
    return mesh;
}

Mesh joined_sides(const Mesh& left, const Mesh& right) {
    Mesh mesh = left;
    std::map<std::array<float, 2>, glm::uint> on_plane;
    for (std::size_t i = 0; i < left.positions_m.size(); ++i)
        if (left.positions_m[i].x == 0.0F)
            on_plane[{left.positions_m[i].y, left.positions_m[i].z}] = static_cast<glm::uint>(i);
    std::vector<glm::uint> number(right.positions_m.size());
    for (std::size_t i = 0; i < right.positions_m.size(); ++i) {
        const glm::vec3& p = right.positions_m[i];
        const auto known = p.x == 0.0F ? on_plane.find({p.y, p.z}) : on_plane.end();
        if (known != on_plane.end()) {
            number[i] = known->second;
            continue;
        }
        number[i] = static_cast<glm::uint>(mesh.positions_m.size());
        mesh.positions_m.push_back(p);
        mesh.normals.push_back(right.normals[i]);
    }
    for (const glm::uvec3& t : right.triangles)
        mesh.triangles.emplace_back(number[t.x], number[t.y], number[t.z]);
    return mesh;
}

} // namespace keystead::sculpt
