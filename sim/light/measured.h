// A measured distribution as an emitter's directional intensity: a table for readings and picture
// alike, so that both interpolate the same numbers.
#pragma once

#include "sim/base/vec.h"

#include <cstdint>
#include <memory>
#include <vector>

namespace keystead {

struct Distribution;
struct Emitter;
struct Light;
struct MeterSettings;

/// Intensity over direction for one lumen: its integral over the sphere is 1. In the face's frame:
/// planes of H about the beam from the width axis toward the height axis, every 5° from 0 to 360;
/// in each V from the beam, every half degree from 0 to 180. Straight in between.
struct DirectionTable {
    static constexpr int planes = 73, angles = 361;
    std::vector<float> per_lumen_sr; ///< [plane][angle]
    double lumens = 0.0;             ///< flux of the file's own intensities
    double peak_per_lumen_sr = 0.0;  ///< the largest of the values
    std::uint64_t key = 0;           ///< of file and turn; equal keys, equal tables
};

/// The file's length direction lies along the face's width, then turned by `turn_deg` about the
/// beam from the width axis toward the height axis. Null where the file holds no light.
std::shared_ptr<const DirectionTable> direction_table(const Distribution& distribution,
                                                      double turn_deg, std::uint64_t key = 0);

/// Intensity toward a unit direction of the face's frame, for one lumen.
double intensity_per_lumen(const DirectionTable& table, const Vec3& local);

/// Lets `emitter` shine as measured, and sets its output anew: from the head's reading, beam or
/// guide number if it has one; else the flux that the light's file entry states; else of continuous
/// lamps the file's own, and of flashes (the file gives the shape only) energy and efficacy as
/// without it. A flat face keeps what the file sends forward; an umbrella becomes its rim's disc.
void fit_measured(Emitter& emitter, const Light& light,
                  const std::shared_ptr<const DirectionTable>& table, const MeterSettings& meter);

} // namespace keystead
