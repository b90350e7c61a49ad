// Light where it is not wanted: into the lens, onto nose and cheek, on the background.
#pragma once

#include <optional>
#include <string>

namespace keystead {

/// A light that stands behind the face, against the lens.
struct LensAim {
    std::string light;
    double off_beam_deg = 0.0;           ///< between its beam and the way to the lens
    std::optional<double> cut_off_deg;   ///< beyond that from its beam it sends nothing
    std::optional<double> misses_by_deg; ///< + the lens lies in the dark; - it is in the light
    bool hits = false;                   ///< something of it arrives at the lens
    std::optional<double> stops_from_key;
};

/// Where the sitter's head throws a light's shadow on the background.
struct BackgroundShadow {
    std::string light;
    double aside_m = 0.0; ///< from the head, + camera right
    double down_m = 0.0;
    bool in_frame = false;    ///< the head's outline falls within the picture and can be seen
    double depth_stops = 0.0; ///< what is missing there of all light on the background
};

} // namespace keystead
