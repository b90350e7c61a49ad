// Readings of a real meter against what the set predicts, and the correction each light gets.
#pragma once

#include "sim/meter/point_reading.h"

#include <optional>
#include <string>
#include <vector>

namespace keystead {

struct MeasuredRow {
    MeasuredReading measured;
    std::optional<double> predicted_f_number; ///< of this light alone, same receptor, same place
    std::optional<double> stops;              ///< measured above predicted
    std::string problem;                      ///< why there is nothing to compare; else empty
};

/// What a light's predicted light is to be changed by so that it agrees with the meter.
struct LightCorrection {
    std::string light;
    int readings = 0;
    double stops = 0.0;        ///< mean of its rows
    double spread_stops = 0.0; ///< largest less smallest; much of it: not a matter of output
};

struct MeasuredTable {
    std::vector<MeasuredRow> rows;            ///< in the document's order
    std::vector<LightCorrection> corrections; ///< in the order of lights; only those read
};

/// Light off panels and by way of other surfaces is counted as `aids` say: a real meter sees it.
MeasuredTable compare_measured(const Studio& studio, const ReadingAids& aids = {});

/// The correction of a light; 0 for one that was not read.
double correction_stops(const MeasuredTable& table, const std::string& light);

/// A point's reading of all lights together, each corrected.
Dial corrected_together(const Set& set, const PointReading& point, const MeasuredTable& table);

} // namespace keystead
