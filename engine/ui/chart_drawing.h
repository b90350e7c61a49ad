// A pattern map drawn with the window's own inks: areas, borders, names, axes.
#pragma once

#include "engine/ui/type.h"
#include "sim/portrait/pattern_map.h"

#include <array>
#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

namespace keystead::ui {

/// What is drawn of a map at one size, worked out once and not at every frame.
struct ChartShapes {
    using Line = std::vector<glm::vec2>; ///< columns and rows of the map
    struct Run {
        float x, y, w, h;
        Pattern name;
    };
    struct Name {
        std::string words;
        bool large = false;
        Rect box;
        std::optional<ImVec2> about; ///< it stands beside its area: a line leads there
    };
    const PatternMap* map = nullptr;
    Rect chart;
    float scale = 0.0F;
    std::vector<Line> borders;
    std::array<std::vector<Line>, 2> eyes; ///< where the left, right pupil sees half of the lamp
    std::vector<Run> runs;
    std::vector<Name> names;
};

/// Brings the shapes up to date with the map and with where it lies.
void keep_shapes(ChartShapes& shapes, const PatternMap& map, const Rect& chart, const Theme& theme);

/// `view` is the page round it. A `stale` one is greyed. Where the pupils lose the lamp is drawn
/// where there is room to say so.
void draw_chart(Pen pen, const Rect& view, const PatternMap& map, const ChartShapes& shapes,
                bool stale);

/// Where the chart lies in its view.
Rect chart_rect(const Rect& view, const Theme& theme);
/// Page point of a direction; one above or below the chart at its edge.
ImVec2 chart_point(const Rect& chart, const PatternMap& map, Angles direction);
Angles chart_direction(const Rect& chart, const PatternMap& map, const ImVec2& at);

} // namespace keystead::ui
