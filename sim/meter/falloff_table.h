// A light's f-numbers over distance on its axis, beside the inverse-square rule of thumb, and the
// calibration of a head from one reading.
#pragma once

#include "sim/set/set.h"

#include <string>
#include <vector>

namespace keystead {

struct FalloffRow {
    double distance_m = 0.0;    ///< before the middle of the face
    double f_number = 0.0;      ///< flat receptor facing the light, present power, nothing bounced
    double rule_f_number = 0.0; ///< N d = constant, from the reference distance
    double stops_from_rule = 0.0; ///< light above (+) or below what the rule says
};

struct FalloffTable {
    double reference_m = 1.0; ///< where table and rule agree
    std::vector<FalloffRow> rows;
    std::string why; ///< one sentence on the difference
};

/// At the camera's ISO, and its shutter for continuous light. Distances above 0.
FalloffTable falloff_table(const Set& set, const Light& light, double reference_m,
                           const std::vector<double>& distances_m);

/// Both ends and round steps between, at most about ten.
std::vector<double> round_distances_m(double from_m, double to_m);

/// The calibration that a flat reading of `light` alone makes, on its axis, at its present power
/// and the camera's ISO and shutter.
CalibrationReading calibration_from(const Set& set, const Light& light, double f_number,
                                    double distance_m);

/// The calibration under which `light` gives `stops` more than it does now.
CalibrationReading calibration_changed_by(const Set& set, const Light& light, double stops);

} // namespace keystead
