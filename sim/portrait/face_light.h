// What one lamp does to every place of a face chart: how much arrives, and what keeps the rest off.
#pragma once

#include "sim/light/emitter.h"
#include "sim/portrait/face_chart.h"

#include <vector>

namespace keystead {

/// Levels are fractions of what a plate at the nose root facing the lamp gets, so 1 is full key
/// and stops are log2. Relative to a plate, not to the brightest cheek: for light from the side or
/// from above the brightest cheek is itself grazing, and a black face would count as lit.
struct FaceLight {
    std::vector<double> level;      ///< by cell: direct light that arrives
    std::vector<double> open_level; ///< the same with nothing in the way
    std::vector<double> nose_level; ///< light that the nose keeps off
    std::vector<double> hair_level; ///< light that hair keeps off
    std::vector<double> seen;       ///< fraction of the lamp seen
    std::vector<double> nose_share; ///< fraction of the lamp hidden by the nose
    std::vector<double> brow_share; ///< fraction of the lamp hidden by brow and lids
    double plate_exposure = 0.0;    ///< of that plate, at the emitter's present power
    Vec3 to_lamp{0.0, 0.0, 1.0};    ///< unit, nose root to the emitter's centre, head frame
};

/// What one pupil sees of the lamp, by fraction: seen, hidden by something, else turned away.
struct EyeView {
    double seen = 0.0, by_nose = 0.0, by_brow = 0.0, by_hair = 0.0;
};

/// The emitter in the head's canonical frame, widened where it is smaller than `smallest_source_m`.
/// A bare lamp becomes a disc that faces the nose root. On the subject's right the width axis is
/// flipped, so that the emitter's axes are left-handed there.
Emitter in_head_frame(const FaceChart& chart, const Emitter& emitter, const Mat3& head_axes,
                      const Vec3& head_origin_m);

/// Traces the lamp over `grid`. `emitter` is in the head's frame. Shares are fractions by
/// contribution on a plate facing each emitter point.
FaceLight light_on_face(const FaceChart& chart, const ChartGrid& grid, const Emitter& emitter);

EyeView eye_view(const FaceChart& chart, const Emitter& emitter, bool left);

/// A mathematical point makes every cell lit or dark and the names flicker; a tenth of a metre
/// moves no border by more than two degrees.
inline constexpr double smallest_source_m = 0.1;

/// Gaussian over covered cells, `sigma_mm` on the chart.
std::vector<double> blurred(const ChartGrid& grid, const std::vector<double>& field,
                            double sigma_mm);

} // namespace keystead
