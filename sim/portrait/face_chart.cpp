#include "sim/portrait/face_chart.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// Cells of the chart that walks along an axis use: a quarter of the cost, same names away from
/// borders.
constexpr double coarse_cell_mm = 4.0;
/// A surface nearly edge-on to the cylinder counts for at most this many cells.
constexpr double area_cap = 4.0;
/// Cells are taken eight by eight where that makes a tile no wider than this.
constexpr double finest_tile_mm = 20.0;
/// Rays leave the skin from this far outside it, so that coarse triangles do not shade themselves.
constexpr double lift_m = 0.35e-3;
/// Rays toward the axis start outside any hair.
constexpr double start_radius_mm = 300.0;

std::vector<Region> corner_regions_of(const Mesh& mesh, bool is_hair) {
    std::vector<Region> regions(3 * mesh.triangles.size(), is_hair ? Region::hair : Region::other);
    if (is_hair || mesh.regions.empty()) return regions;
    for (std::size_t i = 0; i < mesh.triangles.size(); ++i)
        for (int corner = 0; corner < 3; ++corner)
            regions[3 * i + static_cast<std::size_t>(corner)] =
                static_cast<Region>(mesh.regions[mesh.triangles[i][corner]]);
    return regions;
}

void add_mesh(FaceChart& chart, const std::shared_ptr<const Mesh>& mesh, bool is_hair) {
    if (mesh == nullptr || mesh->triangles.empty()) return;
    const std::uint32_t id = chart.rays.add(mesh, ray_mask::subject);
    if (chart.mesh_is_hair.size() <= id) chart.mesh_is_hair.resize(id + 1, false);
    chart.mesh_is_hair[id] = is_hair;
    if (chart.corner_regions.size() <= id) chart.corner_regions.resize(id + 1);
    chart.corner_regions[id] = corner_regions_of(*mesh, is_hair);
}

Vec3 smooth_normal(const Mesh& mesh, const RayHit& hit) {
    if (mesh.normals.empty()) return hit.geometric_normal;
    const glm::uvec3& corner = mesh.triangles[hit.triangle];
    const Vec3 blend = (1.0 - hit.u - hit.v) * Vec3(mesh.normals[corner.x]) +
                       hit.u * Vec3(mesh.normals[corner.y]) + hit.v * Vec3(mesh.normals[corner.z]);
    const double length = glm::length(blend);
    return length > 0.0 ? blend / length : hit.geometric_normal;
}

ChartGrid empty_grid(double cell_mm) {
    ChartGrid grid;
    grid.cell_mm = cell_mm;
    const double step_deg = degrees(cell_mm / chart_extent::radius_mm);
    const int half = static_cast<int>(std::lround(chart_extent::half_angle_deg / step_deg));
    grid.columns = 2 * half;
    grid.rows =
        static_cast<int>(std::lround((chart_extent::top_mm - chart_extent::bottom_mm) / cell_mm));
    for (int column = 0; column < grid.columns; ++column)
        grid.column_angle_deg.push_back((column - half + 0.5) * step_deg);
    const std::size_t size =
        static_cast<std::size_t>(grid.columns) * static_cast<std::size_t>(grid.rows);
    grid.covered.assign(size, 0);
    grid.place_mm.assign(size, Vec3(0.0));
    grid.normal.assign(size, Vec3(0.0));
    grid.flat_normal.assign(size, Vec3(0.0));
    grid.region.assign(size, Region::other);
    grid.area_mm2.assign(size, 0.0);
    return grid;
}

/// One ray a cell, from outside straight toward the axis.
std::vector<RayQuery> inward_rays(const FaceChart& chart, const ChartGrid& grid) {
    std::vector<RayQuery> rays(grid.size());
    for (std::size_t cell = 0; cell < grid.size(); ++cell) {
        const double angle =
            radians(grid.column_angle_deg[static_cast<std::size_t>(grid.column_of(cell))]);
        const double y = chart_extent::bottom_mm + (grid.row_of(cell) + 0.5) * grid.cell_mm;
        const Vec3 outward(std::sin(angle), 0.0, std::cos(angle));
        rays[cell] = {chart.metres(start_radius_mm * outward + Vec3(0.0, y, 0.0)), -outward, 0.0,
                      start_radius_mm * 1e-3};
    }
    return rays;
}

void set_cell(const FaceChart& chart, ChartGrid& grid, std::size_t cell, const RayQuery& ray,
              const RayHit& hit) {
    const Vec3 place = chart.millimetres(ray.origin_m + hit.distance_m * ray.direction);
    const double facing = -glm::dot(hit.geometric_normal, ray.direction);
    grid.covered[cell] = 1;
    grid.place_mm[cell] = place;
    // A surface seen from behind (a leaf of hair) still has an outside: the side the ray came from.
    const double side = facing >= 0.0 ? 1.0 : -1.0;
    grid.flat_normal[cell] = side * hit.geometric_normal;
    grid.normal[cell] = side * smooth_normal(chart.rays.mesh(hit.mesh), hit);
    grid.region[cell] = chart.region_of(hit);
    const double radius = std::hypot(place.x, place.z);
    const double cell_area = grid.cell_mm * grid.cell_mm * radius / chart_extent::radius_mm;
    grid.area_mm2[cell] = cell_area * std::min(area_cap, 1.0 / std::max(std::abs(facing), 1e-6));
}

void set_lane(const FaceChart& chart, const ChartGrid& grid, int column, int row, CellBlock& block,
              std::size_t lane) {
    if (column < 0 || column >= grid.columns || row >= grid.rows) return;
    const std::size_t cell = grid.cell_at(column, row);
    if (grid.covered[cell] == 0) return;
    const Vec3 origin = chart.metres(grid.place_mm[cell]) + lift_m * grid.flat_normal[cell];
    block.origin_m.set(lane, glm::vec3(origin));
    block.normal.set(lane, glm::vec3(grid.normal[cell]));
    block.flat_normal.set(lane, glm::vec3(grid.flat_normal[cell]));
    block.covered.set(lane, true);
    block.cell[lane] = static_cast<std::uint32_t>(cell);
}

/// The block whose rows and columns are these, from a corner of a tile.
CellBlock block_of(const FaceChart& chart, const ChartGrid& grid, int column, int row,
                   const std::array<int, 4>& columns, const std::array<int, 4>& rows) {
    CellBlock block;
    block.origin_m = block.normal = block.flat_normal = lanes::V16(lanes::F16(0.0F));
    block.covered = lanes::M16(false);
    block.cell.fill(0);
    for (std::size_t lane = 0; lane < lanes::lane_count; ++lane)
        set_lane(chart, grid, column + columns[lane % 4], row + rows[lane / 4], block, lane);
    return block;
}

/// Tiles of about 16 mm: of fine cells eight by eight in four blocks, of coarse ones a single
/// block.
std::vector<CellTile> tiles_of(const FaceChart& chart, const ChartGrid& grid) {
    constexpr std::array<int, 4> all{0, 1, 2, 3}, outer{0, 2, 5, 7}, inner{1, 3, 4, 6};
    const bool is_fine = grid.cell_mm <= finest_tile_mm / 8.0;
    const int side = is_fine ? 8 : 4;
    // A border of tiles on the midline: a lamp and its mirror image are taken alike.
    const int half = grid.columns / 2, first = half - (half + side - 1) / side * side;
    std::vector<CellTile> tiles;
    for (int row = 0; row < grid.rows; row += side)
        for (int column = first; column < grid.columns; column += side) {
            CellTile tile;
            const auto add = [&](const auto& columns, const auto& rows) {
                tile.blocks.push_back(block_of(chart, grid, column, row, columns, rows));
            };
            add(is_fine ? outer : all, is_fine ? outer : all);
            if (is_fine) {
                add(inner, outer);
                add(outer, inner);
                add(inner, inner);
            }
            if (std::any_of(tile.blocks.begin(), tile.blocks.end(),
                            [](const CellBlock& block) { return lanes::any(block.covered); }))
                tiles.push_back(std::move(tile));
        }
    return tiles;
}

ChartGrid make_grid(const FaceChart& chart, double cell_mm) {
    ChartGrid grid = empty_grid(cell_mm);
    const std::vector<RayQuery> rays = inward_rays(chart, grid);
    std::vector<RayHit> hits(rays.size());
    chart.rays.first_hits(rays, ray_mask::all, hits);
    for (std::size_t cell = 0; cell < grid.size(); ++cell)
        if (hits[cell].mesh != ray_miss) set_cell(chart, grid, cell, rays[cell], hits[cell]);
    grid.tiles = tiles_of(chart, grid);
    return grid;
}

} // namespace

std::shared_ptr<const FaceChart> make_face_chart(const SubjectForm& form, double cell_mm) {
    auto chart = std::make_shared<FaceChart>();
    add_mesh(*chart, form.skin, false);
    add_mesh(*chart, form.eyes, false);
    add_mesh(*chart, form.hair, true);
    chart->rays.commit();
    chart->lines = form.lines;
    chart->landmarks = form.landmarks;
    chart->pupil_height_m = 0.5 * (form.landmarks.pupil_left.y + form.landmarks.pupil_right.y);
    chart->fine = make_grid(*chart, cell_mm);
    chart->coarse = make_grid(*chart, std::max(coarse_cell_mm, cell_mm));
    // What is worn shades the face but is no part of it.
    for (const auto& worn : {form.hat, form.frame})
        if (worn != nullptr) add_mesh(*chart, worn, false);
    chart->rays.commit();
    return chart;
}

} // namespace keystead
