// The numbers that decide a pattern, taken from the light on a face chart.
#pragma once

#include "sim/portrait/face_light.h"

#include <optional>

namespace keystead {

/// A face chart looked at so that the lamp stands on its + side: mirrored where it stands on the
/// other. Near and far then mean the same for every lamp.
class MirroredChart {
public:
    MirroredChart(const ChartGrid& grid, double lamp_x)
        : grid_(grid)
        , sign_(lamp_x < 0.0 ? -1.0 : 1.0) {}
    double sign() const { return sign_; }
    const ChartGrid& grid() const { return grid_; }
    double x(std::size_t cell) const { return sign_ * grid_.place_mm[cell].x; }
    double y(std::size_t cell) const { return grid_.place_mm[cell].y; }
    double angle_deg(std::size_t cell) const {
        return sign_ * grid_.column_angle_deg[static_cast<std::size_t>(grid_.column_of(cell))];
    }

private:
    const ChartGrid& grid_;
    double sign_;
};

/// The brightest place of the far cheek and how well it is closed off.
struct Enclosure {
    double peak = 0.0;    ///< level there
    double ring = 0.0;    ///< lowest level on the brightest way out
    std::size_t cell = 0; ///< of the peak
    /// How far the ring lies under the patch, stops; large where the ring is black.
    double stops() const;
};

/// All measures; lengths and levels as in PatternReading, blurred light throughout.
struct FaceMeasures {
    double front_lit = 0.0, near_lit = 0.0, far_lit = 0.0, far_faint = 0.0, side_lit = 0.0;
    double nose_lost_mm2 = 0.0;    ///< full key the nose takes away
    double nose_core = 0.0;        ///< deepest share of the lamp that it hides where key would fall
    double shadow_height_mm = 0.0; ///< centroid of the nose's shadow
    double tip_shift_mm = 0.0;     ///< away from the lamp is negative, mirrored chart
    double hair_lost_mm2 = 0.0;    ///< full key that hair keeps off the front of the face
    double chin_dark = 0.0, forehead_lit = 0.0;
    double eye_seen[2] = {0.0, 0.0}; ///< mean share of the lamp over the eye opening: near, far
    bool lip_touched = false;
    Enclosure enclosure;
    std::optional<LitPatch> patch; ///< where it is closed off
};

/// `open_patch`: the patch is measured where it is not closed off, too.
FaceMeasures measure_face(const FaceChart& chart, const MirroredChart& view, const FaceLight& light,
                          bool open_patch = false);

/// Widest-path search on `level` from the far cheek's brightest place to the lit side, the chin or
/// the side of the head: the lowest level met is the saddle that joins nose shadow to cheek shadow.
/// Ways above the lid line are closed: a lit far eye does not open the triangle.
Enclosure find_enclosure(const FaceLines& lines, const MirroredChart& view,
                         const std::vector<double>& level);

/// The places around the peak brighter than half of it, below the lid line.
LitPatch measure_patch(const FaceLines& lines, const MirroredChart& view,
                       const std::vector<double>& level, const Enclosure& enclosure);

} // namespace keystead
