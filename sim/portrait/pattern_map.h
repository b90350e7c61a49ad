// Where a key would make which pattern: names over all directions from the face at one distance,
// what each pupil would see of it, and how far the next name is. What a chart is drawn from.
#pragma once

#include "sim/portrait/pattern.h"

#include <functional>
#include <vector>

namespace keystead {

/// Names stand one degree apart. They are judged on measures mixed from nodes `node_step_deg`
/// apart, which are taken on the coarse face chart where all is of one name around and on the fine
/// one beside another name where the nose's shadow tells the two apart: borders are good to about 2
/// degrees.
struct PatternMapRange {
    double low_deg = -60.0, high_deg = 85.0; ///< elevation; whole degrees
    double node_step_deg = 5.0;              ///< divides the range and 180
    bool fine = true; ///< false: the coarse chart alone, borders some degrees less sure
};

struct PatternMap {
    double distance_m = 0.0; ///< nose root to the lamp's middle
    Vec2 size_m{0.0};        ///< of the lamp, as it was looked at (see smallest_source_m)
    Angles key;              ///< direction of the key that the map was made for

    int columns = 0, rows = 0; ///< azimuth -180..180 and elevation, a degree apart
    double low_deg = 0.0;
    std::vector<Pattern> names; ///< by place, rows from the lowest elevation up
    std::vector<float>
        margin_deg;              ///< angle between directions to the nearest place of another name
    std::vector<Pattern> beyond; ///< that name; a place's own where there is no other
    std::vector<float> eye_seen[2]; ///< by place: share of the lamp that the left, right pupil sees
    int merged_places = 0;          ///< places of islands too small to stand

    std::size_t place_at(int column, int row) const {
        return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
               static_cast<std::size_t>(column);
    }
    Angles angles_at(int column, int row) const { return {-180.0 + column, low_deg + row}; }
    /// Nearest place to a direction; elevations past the map's are its edge.
    std::size_t nearest(Angles direction) const;
};

/// An area of one name smaller than this (degrees of azimuth times degrees of elevation) is given
/// to the name around it: no one could hang a lamp so exactly.
inline constexpr double smallest_island_deg2 = 12.0;

/// `key` in the room; it keeps its turn to the line to the face as it is carried round (see
/// moved_key). Power, colour and what else stands in the room play no part. `stop`, asked from
/// several threads, gives up when it says true: the map then has no columns.
PatternMap map_patterns(const FaceChart& chart, const Emitter& key, const Mat3& head_axes,
                        const Vec3& head_origin_m, double distance_m,
                        const PatternMapRange& range = {}, const std::function<bool()>& stop = {});

/// Areas of one name on the map: places that touch by a side, azimuth -180 and 180 being the same.
struct NamedArea {
    Pattern name = Pattern::none;
    std::vector<std::size_t> places;
};
std::vector<NamedArea> areas_of(const PatternMap& map);

} // namespace keystead
