// A mesh seen from one side without perspective: how far forward it reaches over a grid.
#pragma once

#include "sim/base/mesh.h"
#include "sim/base/vec.h"

#include <optional>
#include <vector>

namespace keystead::importing {

/// The frame of a view that looks at a mesh against `forward`: u to the subject's left, v up,
/// w forward, from `origin_m`.
struct ViewFrame {
    Vec3 origin_m{0.0}, left{1.0, 0.0, 0.0}, up{0.0, 1.0, 0.0}, forward{0.0, 0.0, 1.0};

    /// Upright, looking direction turned about Y from +Z toward +X.
    static ViewFrame facing(double azimuth_deg, const Vec3& origin_m);
    /// Turned about `forward`: v leans toward the former u.
    ViewFrame leaning(double lean_deg) const;
    Vec3 to_view(const Vec3& point_m) const;
    Vec3 to_mesh(const Vec3& uvw_m) const;
};

struct MapExtent {
    double half_width_m = 0.13, low_m = -0.3, high_m = 0.0; ///< u in ±half width, v low..high
    double cell_m = 0.002;
};

/// from, from + step, … as far as `to`; the step may be negative.
std::vector<double> spaced(double from, double to, double step);

class DepthMap {
public:
    DepthMap(const Mesh& mesh, const ViewFrame& frame, const MapExtent& extent);

    /// Furthest reach forward at a place; nothing where the mesh does not show.
    std::optional<double> at(double u_m, double v_m) const;
    /// Mean over the cells within `radius_m`; nothing if less than half of them show.
    std::optional<double> mean(double u_m, double v_m, double radius_m) const;
    /// Mean over a ring of sixteen places; nothing unless all of them show.
    std::optional<double> ring(double u_m, double v_m, double radius_m) const;

    const MapExtent& extent() const { return extent_; }

private:
    void draw(const Vec3& a, const Vec3& b, const Vec3& c);
    void reach(int column, int row, double w);
    std::optional<double> cell(int column, int row) const;

    MapExtent extent_;
    int columns_ = 0, rows_ = 0;
    std::vector<float> cells_;
};

} // namespace keystead::importing
