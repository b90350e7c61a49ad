// What a hand meter reads at a point: each light alone, all together, and all without each.
//
// Flash counts in lx·s as it is, continuous light over the camera's shutter time; both add (their
// f-numbers as squares, ISO 2720 incident form N² = H S / C).
#pragma once

#include "sim/meter/meter_point.h"
#include "sim/meter/reading_aids.h"

#include <optional>
#include <string>
#include <vector>

namespace keystead {

/// A reading in f-numbers, and how a meter writes it. Empty and "none" without light.
struct Dial {
    std::optional<double> f_number;
    std::string reading = "none";
};

struct LightAtPoint {
    std::string light;                    ///< id
    std::optional<double> exposure_lx_s;  ///< flash
    std::optional<double> illuminance_lx; ///< continuous
    Dial alone;
    double share = 0.0; ///< of all light at the point, 0..1
    Dial without;       ///< everything else together
    double colour_k = 0.0;
};

struct PointReading {
    MeterPoint point;
    std::optional<Vec3> facing; ///< unit; empty: it is to face a light that the set lacks
    std::vector<LightAtPoint> lights;
    double flash_lx_s = 0.0;    ///< all flash together
    double continuous_lx = 0.0; ///< all continuous light together, with room light
    double room_light_share = 0.0;
    /// Of all light at the point: what came by way of walls, floor, background and sitter (what
    /// panels send on at first is not in it).
    double bounce_share = 0.0;
    Dial together;
    std::optional<Dial> corrected;  ///< together, by what was measured; see measured.h
    std::optional<double> colour_k; ///< of the mixture
};

/// Stops that everything falls by when that light goes off; empty where nothing is left.
std::optional<double> stops_lost_without(const PointReading& point, const LightAtPoint& light);

/// Colour temperature of a lamp behind its gel.
double light_colour_k(const Light& light);

/// The face first (dome toward the camera), then the points of the set in their order.
/// Light off panels and by way of other surfaces is counted as `aids` say.
std::vector<PointReading> read_points(const Studio& studio, const ReadingAids& aids = {});

} // namespace keystead
