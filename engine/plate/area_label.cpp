#include "engine/plate/area_label.h"

#include <algorithm>
#include <cstdlib>
#include <vector>

namespace keystead {

namespace {

/// Places to the left and right of each that are of the area without a gap: the smaller count.
std::vector<int> room_aside(const PatternMap& map, const NamedArea& area) {
    std::vector<std::uint8_t> inside(map.names.size(), 0);
    for (const std::size_t place : area.places) inside[place] = 1;
    std::vector<int> room(map.names.size(), -1);
    for (int row = 0; row < map.rows; ++row) {
        int run = 0;
        for (int column = 0; column < map.columns; ++column) {
            const std::size_t place = map.place_at(column, row);
            run = inside[place] != 0 ? run + 1 : 0;
            room[place] = run - 1;
        }
        run = 0;
        for (int column = map.columns - 1; column >= 0; --column) {
            const std::size_t place = map.place_at(column, row);
            run = inside[place] != 0 ? run + 1 : 0;
            room[place] = std::min(room[place], run - 1);
        }
    }
    return room;
}

glm::dvec2 middle_of(const PatternMap& map, const NamedArea& area) {
    glm::dvec2 sum(0.0);
    for (const std::size_t place : area.places)
        sum += glm::dvec2(static_cast<int>(place) % map.columns,
                          static_cast<int>(place) / map.columns);
    return sum / static_cast<double>(area.places.size());
}

} // namespace

std::optional<glm::ivec2> room_for(const PatternMap& map, const NamedArea& area, int half_columns,
                                   int half_rows) {
    const std::vector<int> aside = room_aside(map, area);
    const glm::dvec2 middle = middle_of(map, area);
    std::optional<glm::ivec2> best;
    double best_worth = 0.0;
    for (const std::size_t place : area.places) {
        const int column = static_cast<int>(place) % map.columns;
        const int row = static_cast<int>(place) / map.columns;
        if (row < half_rows || row + half_rows >= map.rows) continue;
        int room = aside[place];
        for (int r = row - half_rows; r <= row + half_rows; ++r)
            room = std::min(room, aside[map.place_at(column, r)]);
        if (room < half_columns) continue;
        // Some room to spare is worth having; more than that is not worth leaving the middle for.
        const double spare = std::min(room - half_columns, half_columns / 2);
        const double worth = spare - 0.3 * glm::length(glm::dvec2(column, row) - middle);
        if (best && worth <= best_worth) continue;
        best = glm::ivec2(column, row);
        best_worth = worth;
    }
    return best;
}

} // namespace keystead
