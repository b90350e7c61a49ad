// How a pattern map is painted: areas, borders, the eyes' lines. Lettering is the chart's own.
#pragma once

#include "engine/plate/raster.h"
#include "sim/portrait/pattern_map.h"

#include <array>

namespace keystead {

namespace chart_colour {
inline constexpr glm::u8vec3 paper(250, 249, 246), ink(28, 28, 30), faint(104, 104, 104),
    left_eye(52, 74, 104), right_eye(122, 70, 48);
} // namespace chart_colour
inline constexpr std::array<float, 2> left_eye_dash{7.0F, 4.0F}, right_eye_dash{1.5F, 3.5F};

/// The more of the face is dark, the darker; warm in front, cool above, below and behind. Without
/// colour the order still holds.
glm::u8vec3 tint_of(Pattern pattern);

/// The name that weighs most about a place in columns and rows: borders run smoothly where names
/// step from place to place.
Pattern smooth_name(const PatternMap& map, const glm::vec2& place);

/// Where the map lies on the page, picture pixels.
struct ChartFrame {
    const PatternMap& map;
    float left, top, right, bottom;

    float x(double azimuth_deg) const {
        return left + (right - left) * static_cast<float>((azimuth_deg + 180.0) / 360.0);
    }
    float y(double elevation_deg) const {
        return bottom -
               (bottom - top) * static_cast<float>((elevation_deg - map.low_deg) / (map.rows - 1));
    }
    double high_deg() const { return map.low_deg + map.rows - 1; }
    /// Of a place in columns and rows of the map.
    glm::vec2 at(const glm::vec2& place) const {
        return {x(-180.0 + static_cast<double>(place.x)),
                y(map.low_deg + static_cast<double>(place.y))};
    }
    /// Columns and rows at a point of the page.
    glm::vec2 place(float px, float py) const {
        return {(px - left) / (right - left) * static_cast<float>(map.columns - 1),
                (bottom - py) / (bottom - top) * static_cast<float>(map.rows - 1)};
    }
};

/// Areas in their tints, hatched where neither pupil sees a tenth of the lamp, and the borders
/// between names. `scale`: 1 for a page 1280 pixels wide.
void paint_areas(FineCanvas& canvas, const ChartFrame& frame, float scale);
void paint_grid(FineCanvas& canvas, const ChartFrame& frame, float scale);
/// Where each pupil sees half of the lamp.
void paint_eye_lines(FineCanvas& canvas, const ChartFrame& frame, float scale);
/// The frame with its ticks.
void paint_frame(FineCanvas& canvas, const ChartFrame& frame, float scale);
/// Where the key stands; one above or below the map at its edge.
glm::vec2 key_place(const ChartFrame& frame);
void paint_key(FineCanvas& canvas, const glm::vec2& at, float scale);

} // namespace keystead
