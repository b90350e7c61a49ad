// The chart of patterns that Learn shows: for which head, lamp and distance it was made.
#pragma once

#include "sim/light/emitter.h"
#include "sim/portrait/pattern_map.h"
#include "sim/studio/studio.h"

#include <memory>

namespace keystead::ui {

/// What a chart depends on: the head with its hair and what it wears, the lamp's face, how far it
/// is and how it is turned to the face. Not where it stands.
struct MapFor {
    std::uint64_t form_key = 0;
    Emitter lamp;            ///< its face; place and axes play no part
    double distance_m = 0.0; ///< from the nose root
    Mat3 turn{1.0}; ///< of the lamp against the line to the face, mirrored on the sitter's right
};
MapFor map_for(const Studio& studio, std::size_t light);

/// The same chart serves both: distance within half a per cent, turn within a degree.
bool same_map(const MapFor& a, const MapFor& b);

struct MapLesson {
    MapFor made_for;
    PatternMap map;
    bool rough = false; ///< a better one is on its way
};

/// The studio's light on the studio's head, as the face sees it: azimuth + to the sitter's left.
Angles lamp_direction(const Studio& studio, const Vec3& emitter_m);

} // namespace keystead::ui
