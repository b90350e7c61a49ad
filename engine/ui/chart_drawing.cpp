#include "engine/ui/chart_drawing.h"

#include "engine/plate/area_label.h"
#include "engine/plate/chart_paint.h"
#include "engine/plate/raster.h"
#include "engine/ui/label_place.h"
#include "engine/ui/learn_words.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace keystead::ui {

namespace {

constexpr float half_seen = 0.5F;

ChartFrame frame_of(const Rect& chart, const PatternMap& map) {
    return {map, chart.x, chart.y, chart.right(), chart.bottom()};
}

/// Room for a row that says what the eyes' lines are.
bool has_legend(const Rect& view, const Theme& theme) {
    return view.h >= theme.px(250);
}

/// The plate's tints on paper; on slate the same order, mixed well into the page.
ImU32 tint(const Theme& theme, Pattern pattern, bool stale) {
    if (pattern == Pattern::none) return theme.colour.page;
    const glm::u8vec3 tone = tint_of(pattern);
    float share = theme.kind == ThemeKind::light ? 1.0F : 0.34F;
    if (stale) share *= 0.35F;
    const auto mixed = [&](unsigned shift, std::uint8_t over) {
        const auto under = static_cast<float>((theme.colour.page >> shift) & 0xFFU);
        return static_cast<int>(under + share * (static_cast<float>(over) - under) + 0.5F);
    };
    return IM_COL32(mixed(IM_COL32_R_SHIFT, tone.r), mixed(IM_COL32_G_SHIFT, tone.g),
                    mixed(IM_COL32_B_SHIFT, tone.b), 255);
}

/// A bell over seven places along a row or a column.
std::vector<float> smoothed(const std::vector<float>& field, const PatternMap& map, bool along) {
    constexpr std::array<float, 4> bell{0.3470F, 0.2378F, 0.0765F, 0.0115F}; // sigma 1.15
    std::vector<float> result(field.size(), 0.0F);
    for (int row = 0; row < map.rows; ++row)
        for (int column = 0; column < map.columns; ++column) {
            float sum = 0.0F;
            for (int away = -3; away <= 3; ++away) {
                const int c = std::clamp(along ? column + away : column, 0, map.columns - 1);
                const int r = std::clamp(along ? row : row + away, 0, map.rows - 1);
                sum += bell[static_cast<std::size_t>(std::abs(away))] * field[map.place_at(c, r)];
            }
            result[map.place_at(column, row)] = sum;
        }
    return result;
}

std::vector<ChartShapes::Line> borders_of(const PatternMap& map) {
    std::vector<ChartShapes::Line> borders;
    for (const Pattern name : std::set<Pattern>(map.names.begin(), map.names.end())) {
        std::vector<float> inside(map.names.size());
        for (std::size_t i = 0; i < inside.size(); ++i)
            inside[i] = map.names[i] == name ? 1.0F : 0.0F;
        inside = smoothed(smoothed(inside, map, true), map, false);
        for (auto& line : level_lines(inside, map.columns, map.rows, 0.5F))
            borders.push_back(std::move(line));
    }
    return borders;
}

/// Runs of one name along each row of pixels.
std::vector<ChartShapes::Run> runs_of(const ChartFrame& frame, float scale) {
    std::vector<ChartShapes::Run> runs;
    const int left = static_cast<int>(frame.left), right = static_cast<int>(frame.right);
    const int step = std::max(1, static_cast<int>(scale));
    for (int row = static_cast<int>(frame.top); row < static_cast<int>(frame.bottom); row += step) {
        const auto y = static_cast<float>(row);
        const float high = std::min(static_cast<float>(step), frame.bottom - y);
        const auto name = [&](int x) {
            return smooth_name(frame.map,
                               frame.place(static_cast<float>(x) + 0.5F, y + 0.5F * high));
        };
        int start = left;
        Pattern now = name(left);
        for (int x = left + 1; x <= right; ++x) {
            const Pattern next = x < right ? name(x) : now;
            if (next == now && x < right) continue;
            runs.push_back(
                {static_cast<float>(start), y, static_cast<float>(x - start), high, now});
            start = x;
            now = next;
        }
    }
    return runs;
}

/// A name inside its area, the larger the better; nothing where none fits.
std::optional<ChartShapes::Name> name_inside(const ChartFrame& frame, const Theme& theme,
                                             const NamedArea& area) {
    const float per_column = (frame.right - frame.left) / static_cast<float>(frame.map.columns - 1);
    const float per_row = (frame.bottom - frame.top) / static_cast<float>(frame.map.rows - 1);
    const auto places = [](float px, float per_place) {
        return static_cast<int>(std::ceil(0.5F * px / per_place)) + 1;
    };
    const std::string words = pattern_words(area.name);
    // In the larger type, in the smaller, and running a little over the border at either side.
    for (const auto& [large, share] :
         {std::pair{true, 1.0F}, std::pair{false, 1.0F}, std::pair{false, 0.74F}}) {
        if (area.name == Pattern::none && (large || share < 1.0F)) continue;
        const ImFont* font = large ? theme.font.medium : theme.font.small;
        const float w = width_of(font, words), h = font->FontSize * 0.85F;
        const auto place =
            room_for(frame.map, area, places(share * w, per_column), places(share * h, per_row));
        if (!place) continue;
        const glm::vec2 at = frame.at(glm::vec2(*place));
        return ChartShapes::Name{words, large, {at.x - 0.5F * w, at.y - 0.5F * h, w, h}, {}};
    }
    return {};
}

/// The place of an area that is furthest from others, by its margins.
ImVec2 heart_of(const ChartFrame& frame, const NamedArea& area) {
    const auto margin = [&](std::size_t place) { return frame.map.margin_deg[place]; };
    const std::size_t best =
        *std::max_element(area.places.begin(), area.places.end(),
                          [&](auto a, auto b) { return margin(a) < margin(b); });
    const auto columns = static_cast<std::size_t>(frame.map.columns);
    const glm::vec2 at =
        frame.at(glm::vec2(static_cast<float>(best % columns), static_cast<float>(best / columns)));
    return {at.x, at.y};
}

std::vector<ChartShapes::Name> names_of(const ChartFrame& frame, const Rect& chart,
                                        const Theme& theme,
                                        const std::vector<ChartShapes::Line>& borders) {
    constexpr std::size_t least_places = 60;
    LabelMemory nothing_yet;
    LabelPlacer labels(inset(chart, theme.px(2)), nothing_yet);
    std::vector<ChartShapes::Name> names;
    std::vector<NamedArea> beside;
    for (NamedArea& area : areas_of(frame.map)) {
        if (auto name = name_inside(frame, theme, area)) {
            labels.avoid(name->box);
            names.push_back(*std::move(name));
        } else if (area.name != Pattern::none && area.places.size() >= least_places) {
            beside.push_back(std::move(area));
        }
    }
    for (const ChartShapes::Line& border : borders)
        for (std::size_t i = 4; i < border.size(); i += 4) {
            const glm::vec2 a = frame.at(border[i - 4]), b = frame.at(border[i]);
            labels.avoid_line({a.x, a.y}, {b.x, b.y});
        }
    for (const NamedArea& area : beside) {
        const std::string words = pattern_words(area.name);
        const ImVec2 heart = heart_of(frame, area);
        const float w = width_of(theme.font.small, words), h = theme.font.small->FontSize * 0.9F;
        const Rect box = labels.place(words + std::to_string(area.places.front()),
                                      {heart.x - 1, heart.y - 1, 2, 2}, w, h, theme.px(14),
                                      {heart.x - chart.centre_x(), 0.0F});
        names.push_back({words, false, box, heart});
    }
    return names;
}

void draw_line(Pen pen, const ChartFrame& frame, const ChartShapes::Line& line, ImU32 ink,
               float width, std::span<const float> pattern = {}) {
    Points points;
    for (const glm::vec2& place : line) {
        const glm::vec2 at = frame.at(place);
        points.emplace_back(at.x, at.y);
    }
    if (pattern.empty())
        stroke(pen, points, false, width, ink);
    else
        dashed(pen, points, false, pattern, width, ink);
}

/// Words for directions, beside the chart and below it.
void draw_axes(Pen pen, const ChartFrame& frame) {
    const Palette& c = pen.colour();
    const ImFont* font = pen.theme->font.small;
    for (double azimuth = -135; azimuth <= 135; azimuth += 45)
        line(pen, {frame.x(azimuth), frame.top}, {frame.x(azimuth), frame.bottom}, 1.0F,
             faded(c.ink2, azimuth == 0.0 ? 0.5F : 0.22F));
    const float below = frame.bottom + pen.px(11);
    const std::pair<double, const char*> across[] = {
        {-90, "side"}, {-45, "sitter's right"}, {0, "nose"}, {45, "sitter's left"}, {90, "side"}};
    for (const auto& [azimuth, words] : across)
        text_centre(pen, font, frame.x(azimuth), below, c.ink2, words);
    text_at(pen, font, frame.left, below, c.ink2, "behind");
    text_right(pen, font, frame.right, below, c.ink2, "behind");
    const std::pair<double, const char*> up[] = {
        {75, "overhead"}, {45, "high"}, {0, "eye level"}, {-30, "low"}, {-56, "floor"}};
    for (const auto& [elevation, words] : up) {
        if (elevation < frame.map.low_deg || elevation > frame.high_deg()) continue;
        const float y = frame.y(elevation);
        text_right(pen, font, frame.left - pen.px(6), y, c.ink2, words);
        line(pen, {frame.left, y}, {frame.right, y}, 1.0F,
             faded(c.ink2, elevation == 0.0 ? 0.5F : 0.22F));
    }
}

void draw_legend(Pen pen, const ChartFrame& frame) {
    const Palette& c = pen.colour();
    const ImFont* font = pen.theme->font.small;
    const float y = frame.bottom + pen.px(29);
    float x = frame.left;
    const auto sample = [&](std::span<const float> pattern, const char* words) {
        dashed(pen, {x, y}, {x + pen.px(26), y}, pattern, 1.6F, c.ink);
        x = text_at(pen, font, x + pen.px(32), y, c.ink2, words) + pen.px(20);
    };
    sample(dash::hidden, "here the sitter's left eye sees half of the lamp");
    sample(dash::dots, "right eye");
}

} // namespace

void keep_shapes(ChartShapes& shapes, const PatternMap& map, const Rect& chart,
                 const Theme& theme) {
    const ChartFrame frame = frame_of(chart, map);
    const bool same_map = shapes.map == &map;
    if (!same_map) {
        shapes.map = &map;
        shapes.borders = borders_of(map);
        for (const std::size_t eye : {0U, 1U})
            shapes.eyes[eye] = level_lines(map.eye_seen[eye], map.columns, map.rows, half_seen);
    }
    const Rect& was = shapes.chart;
    if (same_map && was.x == chart.x && was.y == chart.y && was.w == chart.w && was.h == chart.h &&
        shapes.scale == theme.scale)
        return;
    shapes.chart = chart;
    shapes.scale = theme.scale;
    shapes.runs = runs_of(frame, theme.scale);
    shapes.names = names_of(frame, chart, theme, shapes.borders);
}

void draw_chart(Pen pen, const Rect& view, const PatternMap& map, const ChartShapes& shapes,
                bool stale) {
    const Palette& c = pen.colour();
    const ChartFrame frame = frame_of(shapes.chart, map);
    const float alpha = stale ? 0.45F : 1.0F;
    for (const ChartShapes::Run& run : shapes.runs)
        if (run.name != Pattern::none)
            pen.list->AddRectFilled({run.x, run.y}, {run.x + run.w, run.y + run.h},
                                    tint(*pen.theme, run.name, stale));
    draw_axes(pen, frame);
    for (const ChartShapes::Line& each : shapes.borders)
        draw_line(pen, frame, each, faded(c.ink, 0.8F * alpha), 1.0F);
    if (has_legend(view, *pen.theme)) {
        for (const std::size_t eye : {0U, 1U})
            for (const ChartShapes::Line& each : shapes.eyes[eye])
                draw_line(pen, frame, each, faded(c.ink, 0.75F * alpha), 1.4F,
                          eye == 0 ? std::span<const float>(dash::hidden)
                                   : std::span<const float>(dash::dots));
        draw_legend(pen, frame);
    }
    frame_rect(pen, shapes.chart, c.ink2, 0.0F);
    for (const ChartShapes::Name& name : shapes.names) {
        if (name.about) {
            const ImVec2 from{std::clamp(name.about->x, name.box.x, name.box.right()),
                              std::clamp(name.about->y, name.box.y, name.box.bottom())};
            line(pen, from, *name.about, 1.0F, faded(c.ink, 0.7F * alpha));
            disc(pen, *name.about, pen.px(1.6F), faded(c.ink, alpha));
        }
        text_centre(pen, name.large ? pen.theme->font.medium : pen.theme->font.small,
                    name.box.centre_x(), name.box.centre_y(), faded(c.ink, alpha), name.words);
    }
}

Rect chart_rect(const Rect& view, const Theme& theme) {
    const float left = theme.px(66), top = theme.px(32), right = theme.px(14);
    const float below = theme.px(has_legend(view, theme) ? 42 : 24);
    return {std::floor(view.x + left), std::floor(view.y + top),
            std::floor(std::max(60.0F, view.w - left - right)),
            std::floor(std::max(40.0F, view.h - top - below))};
}

ImVec2 chart_point(const Rect& chart, const PatternMap& map, Angles direction) {
    const ChartFrame frame = frame_of(chart, map);
    return {frame.x(direction.azimuth_deg),
            frame.y(std::clamp(direction.elevation_deg, map.low_deg, frame.high_deg()))};
}

Angles chart_direction(const Rect& chart, const PatternMap& map, const ImVec2& at) {
    const glm::vec2 place = frame_of(chart, map).place(at.x, at.y);
    return {std::clamp(-180.0 + static_cast<double>(place.x), -180.0, 180.0),
            std::clamp(map.low_deg + static_cast<double>(place.y), map.low_deg,
                       map.low_deg + map.rows - 1)};
}

} // namespace keystead::ui
