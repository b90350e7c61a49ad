// What every mesh of the scene must satisfy.
#pragma once

#include "sim/base/mesh.h"
#include "sim/shape/scene.h"

#include <string>
#include <vector>

namespace mesh_checks {

struct Box {
    keystead::Vec3 low{1e9}, high{-1e9};
    keystead::Vec3 size() const { return high - low; }
};
Box box_of(const keystead::Mesh& mesh);
/// Of all parts of that name.
Box box_of(const std::vector<keystead::ScenePart>& parts, const std::string& part);

double area_m2(const keystead::Mesh& mesh);
std::size_t triangle_count(const std::vector<keystead::ScenePart>& parts);

/// Empty when sound: indices in range, no triangle without area, unit normals on the side the
/// triangles face, per-vertex arrays of equal length. Else what is wrong.
std::string unsound(const keystead::Mesh& mesh);

/// Empty when every edge of the welded mesh is shared by two triangles of opposite direction and
/// every connected piece has a positive volume. Else what is wrong.
std::string not_closed(const keystead::Mesh& mesh);

} // namespace mesh_checks
