// Light and dark over face and body.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace keystead {

/// A height of the body, read flat toward the key: direct light.
struct BodyReading {
    std::string place; ///< head, chest, knee, feet
    double height_m = 0.0;
    std::optional<double> key_stops; ///< the key alone, from its own reading at the head
    std::optional<double> all_stops; ///< all lights, from theirs at the head
};

/// Skin of the face that the camera sees and that comes out as white as it can.
struct ClippedFace {
    double percent = 0.0;       ///< of the face's area in the picture
    double brightest_stops = 0; ///< of its brightest hundredth, above full scale
    std::string mostly_by;      ///< the light that gives most of it there; empty: nothing clips
    bool by_gloss = false;      ///< most of it would not clip as dull skin
    std::optional<double> stops_less; ///< of that light, until hardly anything clips
};

} // namespace keystead
