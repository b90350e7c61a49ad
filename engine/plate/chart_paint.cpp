#include "engine/plate/chart_paint.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

namespace keystead {

using namespace chart_colour;

namespace {

/// An eye counts as lit where its pupil sees half of the lamp, as dark where a tenth.
constexpr float half_seen = 0.5F, hardly_seen = 0.1F;

/// Weights of six places in a row about `t` between the middle two: a bell a little over a place
/// wide, so that borders run smoothly where names step from place to place.
constexpr int reach = 3;
std::array<float, 2 * reach> bell(float t) {
    constexpr float sigma = 1.15F;
    std::array<float, 2 * reach> weights{};
    for (int i = 0; i < 2 * reach; ++i) {
        const float away = (static_cast<float>(i - reach + 1) - t) / sigma;
        weights[static_cast<std::size_t>(i)] = std::exp(-0.5F * away * away);
    }
    return weights;
}

/// By place: are all that smooth_name weighs in its square of one name? Asked once a place: a
/// picture has a hundred dots in each.
std::vector<std::uint8_t> places_inside(const PatternMap& map) {
    std::vector<std::uint8_t> inside(map.names.size(), 0);
    for (int row = reach - 1; row + reach < map.rows; ++row)
        for (int column = reach - 1; column + reach < map.columns; ++column) {
            const std::size_t place = map.place_at(column, row);
            bool same = true;
            for (int j = 1 - reach; j <= reach && same; ++j)
                for (int i = 1 - reach; i <= reach; ++i)
                    same = same && map.names[map.place_at(column + i, row + j)] == map.names[place];
            inside[place] = same ? 1 : 0;
        }
    return inside;
}

float seen_at(const PatternMap& map, std::size_t eye, const glm::vec2& place) {
    const int column = std::clamp(static_cast<int>(place.x), 0, map.columns - 2);
    const int row = std::clamp(static_cast<int>(place.y), 0, map.rows - 2);
    const float u = place.x - static_cast<float>(column), v = place.y - static_cast<float>(row);
    const auto at = [&](int i, int j) {
        return map.eye_seen[eye][map.place_at(column + i, row + j)];
    };
    return glm::mix(glm::mix(at(0, 0), at(1, 0), u), glm::mix(at(0, 1), at(1, 1), u), v);
}

} // namespace

Pattern smooth_name(const PatternMap& map, const glm::vec2& place) {
    const int column = static_cast<int>(std::floor(place.x));
    const int row = static_cast<int>(std::floor(place.y));
    const auto name = [&](int i, int j) {
        return map.names[map.place_at(std::clamp(column + i - reach + 1, 0, map.columns - 1),
                                      std::clamp(row + j - reach + 1, 0, map.rows - 1))];
    };
    const Pattern first = name(0, 0);
    bool same = true;
    for (int j = 0; j < 2 * reach && same; ++j)
        for (int i = 0; i < 2 * reach; ++i) same = same && name(i, j) == first;
    if (same) return first;
    const auto u = bell(place.x - std::floor(place.x)), v = bell(place.y - std::floor(place.y));
    std::array<float, 16> weights{};
    for (int j = 0; j < 2 * reach; ++j)
        for (int i = 0; i < 2 * reach; ++i)
            weights[static_cast<std::size_t>(name(i, j))] +=
                u[static_cast<std::size_t>(i)] * v[static_cast<std::size_t>(j)];
    const auto most = std::max_element(weights.begin(), weights.end()) - weights.begin();
    return static_cast<Pattern>(most);
}

/// The more of the face is dark, the darker; warm in front, cool above, below and behind. Without
/// colour the order still holds.
glm::u8vec3 tint_of(Pattern pattern) {
    switch (pattern) {
    case Pattern::flat:
        return {242, 237, 224};
    case Pattern::butterfly:
        return {230, 217, 192};
    case Pattern::loop:
        return {213, 196, 164};
    case Pattern::rembrandt:
        return {188, 166, 130};
    case Pattern::split:
        return {160, 146, 132};
    case Pattern::rim:
        return {168, 180, 192};
    case Pattern::underlight:
        return {206, 214, 216};
    case Pattern::toplight:
        return {190, 200, 208};
    default:
        return paper;
    }
}

/// Areas in their tints, hatched where both eyes are dark, and the borders between names.
void paint_areas(FineCanvas& canvas, const ChartFrame& frame, float scale) {
    constexpr int fine = FineCanvas::fineness;
    const int left = static_cast<int>(frame.left * fine);
    const int top = static_cast<int>(frame.top * fine);
    const int width = static_cast<int>(frame.right * fine) - left;
    const int height = static_cast<int>(frame.bottom * fine) - top;
    const std::vector<std::uint8_t> inside = places_inside(frame.map);
    std::vector<Pattern> names(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    const auto index = [&](int x, int y) {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
               static_cast<std::size_t>(x);
    };
    const int pitch = static_cast<int>(8.0F * scale * fine);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const glm::vec2 place = frame.place((static_cast<float>(left + x) + 0.5F) / fine,
                                                (static_cast<float>(top + y) + 0.5F) / fine);
            const int column = std::clamp(static_cast<int>(place.x), 0, frame.map.columns - 1);
            const int row = std::clamp(static_cast<int>(place.y), 0, frame.map.rows - 1);
            const std::size_t here = frame.map.place_at(column, row);
            const Pattern name = names[index(x, y)] =
                inside[here] != 0 ? frame.map.names[here] : smooth_name(frame.map, place);
            glm::u8vec3 colour = tint_of(name);
            const bool on_line = (x + y) % pitch < fine;
            if (on_line && seen_at(frame.map, 0, place) < hardly_seen &&
                seen_at(frame.map, 1, place) < hardly_seen)
                colour = glm::u8vec3(glm::vec3(colour) * 0.87F);
            canvas.put(left + x, top + y, colour);
        }
    const float line = 0.8F * scale;
    for (int y = 0; y + 1 < height; ++y)
        for (int x = 0; x + 1 < width; ++x)
            if (names[index(x, y)] != names[index(x + 1, y)] ||
                names[index(x, y)] != names[index(x, y + 1)])
                canvas.disc(
                    {static_cast<float>(left + x) / fine, static_cast<float>(top + y) / fine}, line,
                    ink);
}

void paint_grid(FineCanvas& canvas, const ChartFrame& frame, float scale) {
    const glm::u8vec3 over(120, 118, 112);
    constexpr std::array<float, 2> dots{1.0F, 5.0F};
    for (double azimuth = -150; azimuth <= 150; azimuth += 30)
        canvas.line({frame.x(azimuth), frame.top}, {frame.x(azimuth), frame.bottom}, 0.8F * scale,
                    over, dots);
    for (double elevation = std::ceil(frame.map.low_deg / 15.0) * 15.0;
         elevation <= frame.high_deg(); elevation += 15)
        canvas.line({frame.left, frame.y(elevation)}, {frame.right, frame.y(elevation)},
                    (elevation == 0.0 ? 1.2F : 0.8F) * scale, over, dots);
}

void paint_eye_lines(FineCanvas& canvas, const ChartFrame& frame, float scale) {
    for (const std::size_t eye : {0U, 1U})
        for (const auto& line :
             level_lines(frame.map.eye_seen[eye], frame.map.columns, frame.map.rows, half_seen)) {
            float along = 0.0F;
            for (std::size_t i = 1; i < line.size(); ++i)
                along = canvas.line(frame.at(line[i - 1]), frame.at(line[i]), 1.9F * scale,
                                    eye == 0 ? left_eye : right_eye,
                                    eye == 0 ? std::span<const float>(left_eye_dash)
                                             : std::span<const float>(right_eye_dash),
                                    along);
        }
}

void paint_frame(FineCanvas& canvas, const ChartFrame& frame, float scale) {
    const std::array<glm::vec2, 4> corners{
        glm::vec2(frame.left, frame.top), glm::vec2(frame.right, frame.top),
        glm::vec2(frame.right, frame.bottom), glm::vec2(frame.left, frame.bottom)};
    for (std::size_t i = 0; i < 4; ++i)
        canvas.line(corners[i], corners[(i + 1) % 4], 1.4F * scale, ink);
    for (double azimuth = -180; azimuth <= 180; azimuth += 30)
        canvas.line({frame.x(azimuth), frame.bottom}, {frame.x(azimuth), frame.bottom + 6 * scale},
                    1.2F * scale, ink);
    for (double elevation = std::ceil(frame.map.low_deg / 15.0) * 15.0;
         elevation <= frame.high_deg(); elevation += 15)
        canvas.line({frame.left - 6 * scale, frame.y(elevation)}, {frame.left, frame.y(elevation)},
                    1.2F * scale, ink);
}

glm::vec2 key_place(const ChartFrame& frame) {
    return {frame.x(frame.map.key.azimuth_deg),
            frame.y(std::clamp(frame.map.key.elevation_deg, frame.map.low_deg, frame.high_deg()))};
}

void paint_key(FineCanvas& canvas, const glm::vec2& at, float scale) {
    canvas.disc(at, 9.0F * scale, paper);
    canvas.disc(at, 7.5F * scale, ink);
    canvas.disc(at, 5.7F * scale, paper);
    canvas.disc(at, 3.6F * scale, ink);
}

} // namespace keystead
