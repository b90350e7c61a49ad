// What an OBJ file says, before triangles are made of it.
#pragma once

#include "sim/import/blame.h"

#include <array>

namespace keystead::importing::obj {

/// Highest index used so far and where: files may name vertices before they list them.
struct Highest {
    std::uint64_t index = 0, line = 0;
};

/// Corners hold indices from 1 into positions and normals; 0: the corner has no normal.
struct Data {
    std::vector<glm::vec3> positions, normals;
    std::vector<glm::vec3> colours; ///< as written; empty: none
    std::vector<glm::uvec3> triangles, triangle_normals;
    std::vector<std::uint32_t> polygon_sizes, polygon_corners, polygon_normals;
    std::uint64_t triangle_count = 0; ///< polygons counted as the triangles they become
    Highest highest_position, highest_normal;
    bool decimal_commas = false;
    bool corners_without_normal = false, corners_with_normal = false;
    std::uint64_t short_faces = 0, lines_and_points = 0, free_form = 0, unknown = 0;
    bool has_materials = false;
};

/// Reads one logical line into `data`. A problem names the line.
Outcome read_line(std::string_view line, std::uint64_t number, const ImportLimits& limits,
                  const Blame& blame, Data& data);

/// Indices within their lists, once everything has been read.
Outcome check_references(const Data& data, const Blame& blame);

/// Polygons cut into triangles, corners with their own normals made vertices, colours made linear.
Mesh build_mesh(Data&& data, std::vector<std::string>& notes);

} // namespace keystead::importing::obj
