#include "sim/portrait/pattern_map.h"

#include "sim/portrait/face_light.h"
#include "sim/portrait/moved_key.h"
#include "sim/portrait/pattern_nodes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <queue>
#include <tbb/parallel_for.h>

namespace keystead {

namespace {

/// Calls `visit` with every place that touches `place` by a side; azimuth goes round. The first and
/// the last column are the same direction: they touch each other's neighbours.
template <class Visit>
void for_sides(const PatternMap& map, std::size_t place, Visit visit) {
    const int column = static_cast<int>(place % static_cast<std::size_t>(map.columns));
    const int row = static_cast<int>(place / static_cast<std::size_t>(map.columns));
    const int last = map.columns - 1;
    visit(map.place_at(column > 0 ? column - 1 : last, row));
    visit(map.place_at(column < last ? column + 1 : 0, row));
    if (row > 0) visit(map.place_at(column, row - 1));
    if (row + 1 < map.rows) visit(map.place_at(column, row + 1));
}

void name_places(const PatternNet& net, PatternMap& map) {
    map.names.resize(static_cast<std::size_t>(map.columns) * static_cast<std::size_t>(map.rows));
    tbb::parallel_for(0, map.rows, [&](int row) {
        for (int column = 0; column < map.columns; ++column)
            map.names[map.place_at(column, row)] = net.name_at(map.angles_at(column, row));
    });
}

/// The name that an area borders on most.
Pattern name_around(const PatternMap& map, const NamedArea& area) {
    std::map<Pattern, int> borders;
    for (const std::size_t place : area.places)
        for_sides(map, place, [&](std::size_t next) {
            if (map.names[next] != area.name) ++borders[map.names[next]];
        });
    Pattern most = area.name;
    int length = 0;
    for (const auto& [name, count] : borders)
        if (count > length) most = name, length = count;
    return most;
}

/// Smallest first, again and again: what is left of one island may have been another's border.
void merge_islands(PatternMap& map) {
    for (bool merged = true; merged;) {
        merged = false;
        std::vector<NamedArea> areas = areas_of(map);
        std::stable_sort(areas.begin(), areas.end(), [](const NamedArea& a, const NamedArea& b) {
            return a.places.size() < b.places.size();
        });
        for (const NamedArea& area : areas) {
            if (static_cast<double>(area.places.size()) >= smallest_island_deg2) break;
            const Pattern name = name_around(map, area);
            if (name == area.name) continue;
            for (const std::size_t place : area.places) map.names[place] = name;
            map.merged_places += static_cast<int>(area.places.size());
            merged = true;
            break;
        }
    }
}

/// Spreads from every border over the places on its two sides, nearest first.
void find_margins(PatternMap& map) {
    struct Step {
        float margin_deg;
        std::size_t place, border; ///< the place beyond the border that it came from
        bool operator<(const Step& other) const {
            return margin_deg != other.margin_deg ? margin_deg > other.margin_deg
                                                  : place > other.place;
        }
    };
    const auto direction = [&](std::size_t place) {
        return direction_from(map.angles_at(static_cast<int>(place) % map.columns,
                                            static_cast<int>(place) / map.columns));
    };
    const auto apart_deg = [&](std::size_t a, std::size_t b) {
        const Vec3 one = direction(a), other = direction(b);
        return static_cast<float>(
            degrees(std::atan2(glm::length(glm::cross(one, other)), glm::dot(one, other))));
    };
    map.margin_deg.assign(map.names.size(), 180.0F);
    map.beyond = map.names;
    std::priority_queue<Step> front;
    const auto offer = [&](std::size_t place, std::size_t border) {
        const float margin = apart_deg(place, border);
        if (margin >= map.margin_deg[place]) return;
        map.margin_deg[place] = margin;
        map.beyond[place] = map.names[border];
        front.push({margin, place, border});
    };
    for (std::size_t place = 0; place < map.names.size(); ++place)
        for_sides(map, place, [&](std::size_t next) {
            if (map.names[next] != map.names[place]) offer(place, next);
        });
    while (!front.empty()) {
        const Step step = front.top();
        front.pop();
        if (step.margin_deg > map.margin_deg[step.place]) continue;
        for_sides(map, step.place, [&](std::size_t next) {
            if (map.names[next] == map.names[step.place]) offer(next, step.border);
        });
    }
}

/// Eyes are looked from at the net's nodes; in between in proportion.
void look_from_eyes(const FaceChart& chart, const Emitter& key, const PatternMapRange& range,
                    PatternMap& map) {
    const int step = static_cast<int>(std::lround(range.node_step_deg));
    const int columns = (map.columns - 1) / step + 1, rows = (map.rows - 1) / step + 1;
    const auto index = [&](int column, int row) {
        return static_cast<std::size_t>(row * columns + column);
    };
    std::vector<std::array<double, 2>> nodes(index(0, rows));
    tbb::parallel_for(0, rows, [&](int row) {
        for (int column = 0; column < columns; ++column) {
            const Angles angles = map.angles_at(column * step, row * step);
            const Emitter lamp = moved_key(chart, key, angles, map.distance_m);
            for (const std::size_t eye : {0U, 1U})
                nodes[index(column, row)][eye] = eye_view(chart, lamp, eye == 0).seen;
        }
    });
    for (const std::size_t eye : {0U, 1U}) {
        map.eye_seen[eye].resize(map.names.size());
        for (int row = 0; row < map.rows; ++row)
            for (int column = 0; column < map.columns; ++column) {
                const int c = std::min(column / step, columns - 2);
                const int r = std::min(row / step, rows - 2);
                const double u = double(column - c * step) / step,
                             v = double(row - r * step) / step;
                const auto at = [&](int i, int j) { return nodes[index(c + i, r + j)][eye]; };
                map.eye_seen[eye][map.place_at(column, row)] =
                    static_cast<float>((1.0 - v) * ((1.0 - u) * at(0, 0) + u * at(1, 0)) +
                                       v * ((1.0 - u) * at(0, 1) + u * at(1, 1)));
            }
    }
}

} // namespace

std::size_t PatternMap::nearest(Angles direction) const {
    const double column = std::clamp(direction.azimuth_deg + 180.0, 0.0, columns - 1.0);
    const double row = std::clamp(direction.elevation_deg - low_deg, 0.0, rows - 1.0);
    return place_at(static_cast<int>(std::lround(column)), static_cast<int>(std::lround(row)));
}

PatternMap map_patterns(const FaceChart& chart, const Emitter& key, const Mat3& head_axes,
                        const Vec3& head_origin_m, double distance_m, const PatternMapRange& range,
                        const std::function<bool()>& stop) {
    Emitter lamp = in_head_frame(chart, key, head_axes, head_origin_m);
    lamp.power = lamp.exitance = 1.0;
    PatternMap map;
    map.distance_m = distance_m;
    map.size_m = {lamp.width_m, lamp.height_m};
    map.key = angles_of(lamp.centre_m - chart.landmarks.face);
    map.columns = 361;
    map.rows = static_cast<int>(std::lround(range.high_deg - range.low_deg)) + 1;
    map.low_deg = range.low_deg;
    PatternNet net(chart, lamp, distance_m, range.node_step_deg, range.low_deg, range.high_deg);
    net.measure(range.fine, stop);
    if (stop && stop()) return {};
    name_places(net, map);
    merge_islands(map);
    find_margins(map);
    look_from_eyes(chart, lamp, range, map);
    return map;
}

std::vector<NamedArea> areas_of(const PatternMap& map) {
    std::vector<NamedArea> areas;
    std::vector<std::uint8_t> seen(map.names.size(), 0);
    for (std::size_t start = 0; start < map.names.size(); ++start) {
        if (seen[start] != 0) continue;
        NamedArea area{map.names[start], {start}};
        seen[start] = 1;
        for (std::size_t i = 0; i < area.places.size(); ++i)
            for_sides(map, area.places[i], [&](std::size_t next) {
                if (seen[next] != 0 || map.names[next] != area.name) return;
                seen[next] = 1;
                area.places.push_back(next);
            });
        areas.push_back(std::move(area));
    }
    return areas;
}

} // namespace keystead
