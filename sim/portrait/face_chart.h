// The face as a map: where each place of a cylinder around the head lies on the skin, which way it
// faces, what it is, how large it is. Built once a form; lamps are brought into the head's frame,
// so the map never moves.
//
// Chart frame: millimetres, x to the subject's left, y up with 0 at the pupils, z out of the nose
// with 0 at the tragions; the cylinder's axis is the vertical through x = z = 0. A cylinder keeps
// the area of the far cheek, where a frontal projection would squeeze it.
#pragma once

#include "sim/base/lanes.h"
#include "sim/portrait/pattern.h"
#include "sim/subject/subject.h"
#include "sim/transport/ray_scene.h"

#include <array>
#include <cstdint>
#include <vector>

namespace keystead {

/// What the chart covers: most of half a cylinder, forehead to chin.
namespace chart_extent {
inline constexpr double half_angle_deg = 100.0;
inline constexpr double bottom_mm = -116.0, top_mm = 70.0;
inline constexpr double radius_mm = 88.0; ///< where a column is as wide as a row is high
} // namespace chart_extent

/// Sixteen places of a grid as kernels take them, canonical metres.
struct alignas(64) CellBlock {
    lanes::V16 origin_m; ///< just off the skin
    lanes::V16 normal, flat_normal;
    lanes::M16 covered; ///< lanes past the grid's edge or off the surface are not
    std::array<std::uint32_t, lanes::lane_count> cell; ///< 0 where not covered
};

/// A square of cells. Coarse ones are four by four in a single block, fine ones eight by eight in
/// four: of rows and columns 0 2 5 7, of columns 1 3 4 6 in those rows, of rows 1 3 4 6 in those
/// columns, of both. So every place of the last three lies between places of the first.
struct CellTile {
    std::vector<CellBlock> blocks;
};

/// A regular grid of places, columns from the subject's right to left, rows from the bottom up.
/// The number of columns is even and symmetric about the midline: half a cell of offset would make
/// a light from straight ahead look as if it came from one side.
struct ChartGrid {
    double cell_mm = 2.0;
    int columns = 0, rows = 0;
    std::vector<double> column_angle_deg; ///< by column, 0 at the midline, + subject's left
    std::vector<std::uint8_t> covered;    ///< by cell: does the surface reach here?
    std::vector<Vec3> place_mm;           ///< chart frame
    std::vector<Vec3> normal;             ///< smooth, unit
    std::vector<Vec3> flat_normal;        ///< of the triangle, unit
    std::vector<Region> region;
    std::vector<double> area_mm2; ///< of surface, at most four times the cell's own
    std::vector<CellTile> tiles;  ///< every covered cell once

    std::size_t size() const { return covered.size(); }
    int column_of(std::size_t cell) const {
        return static_cast<int>(cell % static_cast<std::size_t>(columns));
    }
    int row_of(std::size_t cell) const {
        return static_cast<int>(cell / static_cast<std::size_t>(columns));
    }
    std::size_t cell_at(int column, int row) const {
        return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
               static_cast<std::size_t>(column);
    }
};

/// Everything that reading a pattern needs of one head.
struct FaceChart {
    RayScene rays;                  ///< the form's own meshes, canonical frame, metres
    std::vector<bool> mesh_is_hair; ///< by mesh id
    /// By mesh id, three a triangle: the region painted on its corners.
    std::vector<std::vector<Region>> corner_regions;
    FaceLines lines;
    Landmarks landmarks;         ///< canonical frame
    double pupil_height_m = 0.0; ///< of the chart's y = 0, canonical frame
    ChartGrid fine, coarse;

    /// How far the tip of the nose stands ahead of its base.
    double nose_depth_mm() const { return 1e3 * (landmarks.pronasale.z - landmarks.subnasale.z); }
    /// Chart millimetres to canonical metres.
    Vec3 metres(const Vec3& place_mm) const {
        return {place_mm.x * 1e-3, place_mm.y * 1e-3 + pupil_height_m, place_mm.z * 1e-3};
    }
    Vec3 millimetres(const Vec3& place_m) const {
        return {place_m.x * 1e3, (place_m.y - pupil_height_m) * 1e3, place_m.z * 1e3};
    }
    /// What a hit belongs to: the region painted on the nearest corner of its triangle.
    Region region_of(const RayHit& hit) const {
        return region_at(hit.mesh, hit.triangle, hit.u, hit.v);
    }
    template <class Number>
    Region region_at(std::uint32_t mesh, std::uint32_t triangle, Number u, Number v) const {
        const Number first = Number(1) - u - v;
        const std::size_t corner = first >= u && first >= v ? 0U : u >= v ? 1U : 2U;
        return corner_regions[mesh][3 * std::size_t{triangle} + corner];
    }
};

} // namespace keystead
