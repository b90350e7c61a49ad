// Directions and the names that the trade gives them, from tests/data.
#pragma once

#include <string>
#include <vector>

namespace pattern_rows {

/// One direction; the names that may be read, for a small lamp and for a disc of 0.9 m at 1.3 m.
struct Row {
    double azimuth_deg = 0.0, elevation_deg = 0.0;
    std::vector<std::string> small_lamp, large_lamp;
    std::string basis;

    /// The trade agrees on one name, whatever the lamp.
    bool certain() const { return small_lamp.size() == 1 && large_lamp.size() == 1; }
};
std::vector<Row> patterns();

/// Two lamps: `crossed` or the name of one of them.
struct Pair {
    double azimuth_deg = 0.0, elevation_deg = 0.0;
    double other_azimuth_deg = 0.0, other_elevation_deg = 0.0, other_stops_below = 0.0;
    bool crossed = false;
    std::string basis;
};
std::vector<Pair> pairs();

bool allows(const std::vector<std::string>& names, const std::string& name);
std::string joined(const std::vector<std::string>& names);

} // namespace pattern_rows
