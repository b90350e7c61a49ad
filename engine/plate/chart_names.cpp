#include "engine/plate/chart_names.h"

#include "engine/plate/area_label.h"
#include "sim/portrait/decide.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>

namespace keystead {

namespace {

using ui::Lettering;
using Face = Lettering::Face;

std::string written(Pattern pattern) {
    if (pattern == Pattern::none) return "no name";
    if (pattern == Pattern::rembrandt) return "Rembrandt";
    return name_of(pattern);
}

/// A piece of the picture: top left and size.
struct Box {
    glm::vec2 corner{0.0F}, size{0.0F};
    bool meets(const Box& other) const {
        return corner.x < other.corner.x + other.size.x && other.corner.x < corner.x + size.x &&
               corner.y < other.corner.y + other.size.y && other.corner.y < corner.y + size.y;
    }
};

Box around_key(const ChartFrame& frame, float scale) {
    const glm::vec2 half(13.0F * scale);
    return {key_place(frame) - half, 2.0F * half};
}

/// Do the corners of a box lie in an area of that name?
bool lies_in(const ChartFrame& frame, const Box& box, Pattern name) {
    const std::array<glm::vec2, 4> corners{glm::vec2(0, 0), glm::vec2(1, 0), glm::vec2(0, 1),
                                           glm::vec2(1, 1)};
    return std::all_of(corners.begin(), corners.end(), [&](const glm::vec2& at) {
        const glm::vec2 corner = box.corner + at * box.size;
        return smooth_name(frame.map, frame.place(corner.x, corner.y)) == name;
    });
}

/// Out of the key's way, up or down, where the area has room there; false where it has none.
bool leave_key_free(const ChartFrame& frame, float scale, PlacedName& name) {
    const Box key = around_key(frame, scale);
    if (!Box{name.corner, name.size}.meets(key)) return true;
    const float below = key.corner.y + key.size.y, above = key.corner.y - name.size.y;
    const bool lower = std::abs(below - name.corner.y) <= std::abs(above - name.corner.y);
    const glm::vec2 margin(6.0F * scale, 0.0F); // no name touches a border
    for (const float y : {lower ? below : above, lower ? above : below})
        for (const float aside : {0.0F, -6.0F, 6.0F, -12.0F, 12.0F}) {
            const glm::vec2 corner(name.corner.x + aside * scale, y);
            if (!lies_in(frame, {corner - margin, name.size + 2.0F * margin}, name.name)) continue;
            name.corner = corner;
            return true;
        }
    return false;
}

/// Beside an area that is too small for its name: below, above or outward, where nothing has a name
/// and none is written yet.
std::optional<PlacedName> name_outside(const Lettering& letters, const ChartFrame& frame,
                                       const NamedArea& area, float scale,
                                       const std::vector<PlacedName>& taken) {
    glm::vec2 low(std::numeric_limits<float>::max()), high(std::numeric_limits<float>::lowest());
    for (const std::size_t place : area.places) {
        const auto columns = static_cast<std::size_t>(frame.map.columns);
        const glm::vec2 at =
            frame.at({static_cast<float>(place % columns), static_cast<float>(place / columns)});
        low = glm::min(low, at);
        high = glm::max(high, at);
    }
    const glm::vec2 middle = 0.5F * (low + high);
    if (smooth_name(frame.map, frame.place(middle.x, middle.y)) != area.name) return {};
    PlacedName name{written(area.name), Face::small, area.name};
    name.size = {static_cast<float>(letters.width_px(name.text, Face::small)),
                 static_cast<float>(letters.line_px(Face::small))};
    name.leader_to = middle;
    const float away = 8.0F * scale, left = middle.x - 0.5F * name.size.x;
    const bool rightward = middle.x > 0.5F * (frame.left + frame.right);
    const std::array<glm::vec2, 3> corners{
        glm::vec2(left, high.y + away), glm::vec2(left, low.y - away - name.size.y),
        glm::vec2(rightward ? high.x + away : low.x - away - name.size.x,
                  middle.y - 0.5F * name.size.y)};
    for (const glm::vec2& corner : corners) {
        const Box box{corner, name.size};
        const bool free = std::none_of(taken.begin(), taken.end(), [&](const PlacedName& other) {
            return box.meets({other.corner, other.size});
        });
        if (!free || box.meets(around_key(frame, scale)) || !lies_in(frame, box, Pattern::none))
            continue;
        name.corner = corner;
        return name;
    }
    return {};
}

/// What is written beside the dot.
std::string key_words(const PatternMap& map) {
    const std::size_t here = map.nearest(map.key);
    std::string words = "key: " + written(map.names[here]);
    if (map.beyond[here] != map.names[here])
        words += ", " + number_text(static_cast<double>(map.margin_deg[here]), 0) + "° from " +
                 written(map.beyond[here]);
    return words;
}

} // namespace

std::vector<PlacedName> placed_names(const Lettering& letters, const ChartFrame& frame,
                                     float scale) {
    const float per_column = (frame.right - frame.left) / static_cast<float>(frame.map.columns - 1);
    const float per_row = (frame.bottom - frame.top) / static_cast<float>(frame.map.rows - 1);
    const auto places = [](float px, float per_place) {
        return static_cast<int>(std::ceil(0.5F * px / per_place)) + 1;
    };
    std::vector<PlacedName> names;
    std::vector<NamedArea> small;
    for (const NamedArea& area : areas_of(frame.map)) {
        const std::size_t before = names.size();
        for (const Face face : {Face::title, Face::body, Face::small}) {
            if (area.name == Pattern::none && face != Face::small) continue;
            PlacedName placed{written(area.name), face, area.name};
            placed.size = {static_cast<float>(letters.width_px(placed.text, face)),
                           static_cast<float>(letters.line_px(face))};
            const auto place = room_for(frame.map, area, places(placed.size.x, per_column),
                                        places(placed.size.y, per_row));
            if (!place) continue;
            placed.corner = frame.at(glm::vec2(*place)) - 0.5F * placed.size;
            if (!leave_key_free(frame, scale, placed) && face != Face::small) continue;
            names.push_back(std::move(placed));
            break;
        }
        constexpr std::size_t worth_a_name = 100; // square degrees
        if (names.size() == before && area.name != Pattern::none &&
            area.places.size() >= worth_a_name)
            small.push_back(area);
    }
    for (const NamedArea& area : small)
        if (auto name = name_outside(letters, frame, area, scale, names))
            names.push_back(std::move(*name));
    return names;
}

KeyLabel key_label(const Lettering& letters, const ChartFrame& frame,
                   const std::vector<PlacedName>& names, float scale) {
    KeyLabel label{key_words(frame.map)};
    const glm::vec2 at = key_place(frame);
    const glm::vec2 size(static_cast<float>(letters.width_px(label.words, Face::body)),
                         static_cast<float>(letters.line_px(Face::body)));
    const float away = 16.0F * scale, beside = at.y - 0.5F * size.y;
    const std::array<glm::vec2, 8> corners{
        glm::vec2(at.x + away, beside),
        glm::vec2(at.x - away - size.x, beside),
        glm::vec2(at.x + away, at.y + away),
        glm::vec2(at.x + away, at.y - away - size.y),
        glm::vec2(at.x - away - size.x, at.y + away),
        glm::vec2(at.x - away - size.x, at.y - away - size.y),
        glm::vec2(at.x - 0.5F * size.x, at.y + 1.4F * away),
        glm::vec2(at.x - 0.5F * size.x, at.y - 1.4F * away - size.y)};
    const auto on_chart = [&](const glm::vec2& corner) {
        constexpr float edge = 4.0F;
        return corner.x >= frame.left + edge && corner.x + size.x <= frame.right - edge &&
               corner.y >= frame.top + edge && corner.y + size.y <= frame.bottom - edge;
    };
    const auto covered = [&](const glm::vec2& corner) {
        const glm::vec2 edge(6.0F * scale, 2.0F * scale);
        const Box box{corner - edge, size + 2.0F * edge};
        return std::count_if(names.begin(), names.end(), [&](const PlacedName& name) {
            return box.meets({name.corner, name.size});
        });
    };
    std::ptrdiff_t least = std::numeric_limits<std::ptrdiff_t>::max();
    label.corner = {std::clamp(at.x + away, frame.left, std::max(frame.left, frame.right - size.x)),
                    std::clamp(beside, frame.top + 4.0F, frame.bottom - size.y - 4.0F)};
    for (const glm::vec2& corner : corners)
        if (on_chart(corner) && covered(corner) < least) {
            least = covered(corner);
            label.corner = corner;
        }
    return label;
}

} // namespace keystead
