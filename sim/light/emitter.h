// Emitting surfaces: where light leaves a modifier, how much, and in which directions.
//
// Convention: exitance M (lm/m² for continuous light, lm·s/m² for flash), radiance L = M/pi for a
// Lambertian face. A gathering face or one with a cut-off has a profile over direction with the
// same flux (beam.h). A grid multiplies the radiance by its transmittance for the direction; a rim,
// barn doors and an umbrella's own lamp take what meets them.
#pragma once

#include "sim/base/vec.h"
#include "sim/light/beam.h"
#include "sim/set/set.h"
#include "sim/support/pose.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace keystead {

struct DirectionTable;

/// A light's emitting face in the room, at full power.
struct Emitter {
    std::string light; ///< id
    ModifierShape shape = ModifierShape::disc;
    Vec3 centre_m{0.0}; ///< of the face; umbrella: of the rim's plane, apex behind it
    Mat3 axes{1.0};     ///< columns: width axis, height axis, outward beam axis
    double width_m = 0.1, height_m = 0.1, inner_width_m = 0.0;
    double depth_m = 0.0;  ///< umbrella: sagitta of the spherical cap
    bool bulges = false;   ///< umbrella: convex side out (shoot-through), else concave
    double area_m2 = 0.0;  ///< of the emitting surface
    double exitance = 0.0; ///< mean over the face before the grid, full power
    bool flash = true;
    double power = 1.0; ///< linear factor: 2^-stops_below, 0 when off
    Vec3 colour{1.0};   ///< linear sRGB with luminance 1, relative to the white balance
    double hot_spot = 0.0;
    double deflector = 0.0;   ///< ring left of a dish by its deflector: deflector over dish, else 0
    std::optional<Grid> grid; ///< cells as resolved from a printed angle
    Beam beam;
    FaceFront front;
    std::shared_ptr<const DirectionTable> measured; ///< takes the place of the profile
};

/// One point of the face for quadrature: the areas of a set add up to the emitter's.
struct EmitterPoint {
    Vec3 position_m{0.0};
    Vec3 normal{0.0, 0.0, 1.0};
    double area_m2 = 0.0;
    double relative_exitance = 1.0;
};

/// The face of `light` posed as `pose`, with the output that the head states (see
/// `full_power_exitance` in output.h).
Emitter make_emitter(const Light& light, const SupportPose& pose, const MeterSettings& meter);

/// About `count` low-discrepancy points over the face, uniform by area and the same every time: the
/// nearest Fibonacci number of them (… 34, 55, 89, 144, 233, 377, 610 …), a lattice on the face.
std::vector<EmitterPoint> emitter_points(const Emitter& emitter, int count);

/// Face point for a unit square sample: uniform by area. `normal` is outward there.
EmitterPoint emitter_point(const Emitter& emitter, double u, double v);

/// Transmittance of the emitter's grid for light leaving along unit `direction` (room frame);
/// 1 without a grid, 0 behind the face.
double grid_transmittance(const Emitter& emitter, const Vec3& direction);

/// Gain that keeps the flux of the emitter's face (area and exitance) whatever its profile; for
/// `beam.gain` once shape and profile are known.
double emitter_gain(const Emitter& emitter);

/// Radiance at full power of `point` toward unit `direction`: M(point)/pi · gain · profile · grid,
/// 0 behind the face and where the front of the face is in the way. Bare tubes radiate as a uniform
/// sphere.
double radiance(const Emitter& emitter, const EmitterPoint& point, const Vec3& direction);

} // namespace keystead
