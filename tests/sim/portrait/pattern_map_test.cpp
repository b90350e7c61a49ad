// Names over all directions, against single readings and against symmetry.
#include "heads.h"
#include "plain_faces.h"
#include "sim/portrait/face_light.h"
#include "sim/portrait/moved_key.h"
#include "sim/portrait/pattern_map.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <random>
#include <set>
#include <stdexcept>
#include <string>

using namespace keystead;
using plain_faces::disc_at;
using plain_faces::posed;

namespace {

constexpr double lamp_m = 0.9, distance_m = 1.3;

const heads::Head& bald(const std::string& preset) {
    for (const heads::Head& head : heads::presets())
        if (head.name == preset) return head;
    throw std::runtime_error("no preset " + preset);
}

PatternMap map_of(const heads::Head& head) {
    return map_patterns(*head.chart, disc_at(head.form, 40, 35, lamp_m), Mat3(1.0), Vec3(0.0),
                        distance_m);
}

const PatternMap& map_of_preset(const std::string& preset) {
    static std::map<std::string, PatternMap> maps;
    const auto found = maps.find(preset);
    return found != maps.end() ? found->second
                               : maps.emplace(preset, map_of(bald(preset))).first->second;
}

/// Names of the map within so many degrees of a direction.
std::set<Pattern> names_near(const PatternMap& map, Angles angles, double within_deg) {
    std::set<Pattern> names{map.names[map.nearest(angles)]};
    const double cosine = std::cos(radians(within_deg));
    for (int row = 0; row < map.rows; ++row)
        for (int column = 0; column < map.columns; ++column)
            if (glm::dot(direction_from(map.angles_at(column, row)), direction_from(angles)) >
                cosine)
                names.insert(map.names[map.place_at(column, row)]);
    return names;
}

} // namespace

TEST_CASE("The map's borders agree with single readings within two degrees and a half",
          "[portrait][map]") {
    const heads::Head& head = bald("mean-male");
    const PatternMap& map = map_of_preset("mean-male");
    std::mt19937 random(20);
    std::uniform_real_distribution<double> azimuth(-180, 180), elevation(-60, 85);
    for (int i = 0; i < 20; ++i) {
        const Angles angles{azimuth(random), elevation(random)};
        const PatternReading single = read_pattern(
            *head.chart,
            disc_at(head.form, angles.azimuth_deg, angles.elevation_deg, lamp_m, distance_m),
            Mat3(1.0), Vec3(0.0));
        INFO("(" << angles.azimuth_deg << ", " << angles.elevation_deg
                 << "): " << name_of(single.pattern) << ", on the map "
                 << name_of(map.names[map.nearest(angles)]));
        CHECK(names_near(map, angles, 2.5).count(single.pattern) == 1);
    }
}

TEST_CASE("Single readings along a border's own row change name where the map does",
          "[portrait][map]") {
    // Every change of name in front of the face at 35 degrees: the readings 2.5 degrees before and
    // after it bear the two names.
    const heads::Head& head = bald("mean-male");
    const PatternMap& map = map_of_preset("mean-male");
    const int row = static_cast<int>(35.0 - map.low_deg);
    int changes = 0;
    for (int column = 181; column < 180 + 65; ++column) {
        const Pattern before = map.names[map.place_at(column, row)];
        const Pattern after = map.names[map.place_at(column + 1, row)];
        if (before == after) continue;
        ++changes;
        const double azimuth = map.angles_at(column, row).azimuth_deg + 0.5;
        const auto name_at = [&](double azimuth_deg) {
            return read_pattern(*head.chart, disc_at(head.form, azimuth_deg, 35, lamp_m), Mat3(1.0),
                                Vec3(0.0))
                .pattern;
        };
        CHECK(name_at(azimuth - 2.5) == before);
        CHECK(name_at(azimuth + 2.5) == after);
    }
    CHECK(changes >= 2); // butterfly to loop, loop to Rembrandt
}

TEST_CASE("No area of the map is too small to hang a lamp in, and hardly any had to be merged",
          "[portrait][map]") {
    for (const char* preset : {"mean-male", "small-female"}) {
        const PatternMap& map = map_of_preset(preset);
        INFO(preset << ": " << map.merged_places << " places merged");
        for (const NamedArea& area : areas_of(map))
            CHECK(static_cast<double>(area.places.size()) >= smallest_island_deg2);
        CHECK(map.merged_places < 0.005 * static_cast<double>(map.names.size()));
    }
}

TEST_CASE("All presets' maps have no area under twelve square degrees", "[.slow][map]") {
    for (const heads::Head& head : heads::presets()) {
        const PatternMap map = map_of(head);
        WARN(head.name << ": " << areas_of(map).size() << " areas, " << map.merged_places
                       << " places merged");
        for (const NamedArea& area : areas_of(map))
            CHECK(static_cast<double>(area.places.size()) >= smallest_island_deg2);
        CHECK(map.merged_places < 0.005 * static_cast<double>(map.names.size()));
    }
}

TEST_CASE("The map of a symmetric face is its own mirror image", "[portrait][map]") {
    const PatternMap& map = map_of_preset("small-female");
    int differ = 0;
    double eyes = 0.0;
    for (int row = 0; row < map.rows; ++row)
        for (int column = 0; column < map.columns; ++column) {
            const std::size_t here = map.place_at(column, row);
            const std::size_t there = map.place_at(map.columns - 1 - column, row);
            differ += map.names[here] != map.names[there] ? 1 : 0;
            eyes = std::max(eyes, double(std::abs(map.eye_seen[0][here] - map.eye_seen[1][there])));
        }
    // A measure that lies on a threshold may fall to either side of it by rounding.
    CHECK(differ <= 60);
    CHECK(eyes < 0.05); // one ray in 55 is 0.02
}

TEST_CASE("Head and key turned together have the same map", "[portrait][map]") {
    const heads::Head& head = heads::mean_male();
    const Emitter lamp = disc_at(head.form, 40, 35, lamp_m);
    const PatternMapRange front{-20, 60, 10};
    const PatternMap still =
        map_patterns(*head.chart, lamp, Mat3(1.0), Vec3(0.0), distance_m, front);
    const Mat3 axes = head_rotation(-25, 8, 4);
    const Vec3 place(0.2, 1.1, -0.3);
    const PatternMap turned =
        map_patterns(*head.chart, posed(lamp, axes, place), axes, place, distance_m, front);
    int differ = 0;
    for (std::size_t i = 0; i < still.names.size(); ++i)
        differ += still.names[i] != turned.names[i] ? 1 : 0;
    CHECK(differ <= 0.002 * double(still.names.size()));
    CHECK(turned.key.azimuth_deg == Approx(40.0).margin(0.01));
    CHECK(turned.key.elevation_deg == Approx(35.0).margin(0.01));
}

TEST_CASE("A margin on the map is the angle to the nearest place of another name",
          "[portrait][map]") {
    const PatternMap& map = map_of_preset("mean-male");
    for (const Angles from : {Angles{0, 40}, Angles{45, 35}, Angles{-90, 10}, Angles{150, 20}}) {
        const std::size_t here = map.nearest(from);
        double nearest_deg = 180.0;
        for (int row = 0; row < map.rows; ++row)
            for (int column = 0; column < map.columns; ++column)
                if (map.names[map.place_at(column, row)] != map.names[here])
                    nearest_deg = std::min(nearest_deg,
                                           degrees(std::acos(std::clamp(
                                               glm::dot(direction_from(from),
                                                        direction_from(map.angles_at(column, row))),
                                               -1.0, 1.0))));
        CHECK(map.margin_deg[here] == Approx(nearest_deg).margin(1.0));
        CHECK(map.beyond[here] != map.names[here]);
    }
}

TEST_CASE("A key carried round the face keeps its distance and its turn to it", "[portrait][map]") {
    const heads::Head& head = heads::mean_male();
    const FaceChart& chart = *head.chart;
    Emitter lamp = in_head_frame(chart, disc_at(head.form, 40, 35, lamp_m), Mat3(1.0), Vec3(0.0));
    // Feathered: its beam passes the face by 20 degrees.
    lamp.axes = head_rotation(20, 0, 0) * lamp.axes;
    const auto feather = [&](const Emitter& e) {
        return glm::dot(e.axes[2], glm::normalize(chart.landmarks.face - e.centre_m));
    };
    for (const Angles to : {Angles{40, 35}, Angles{-40, 35}, Angles{120, -20}, Angles{0, 60}}) {
        const Emitter moved = moved_key(chart, lamp, to, 1.7);
        CHECK(glm::length(moved.centre_m - chart.landmarks.face) == Approx(1.7));
        CHECK(feather(moved) == Approx(feather(lamp)).margin(1e-9));
    }
    const Emitter same = moved_key(chart, lamp, {40, 35}, 1.3);
    for (int axis = 0; axis < 3; ++axis)
        CHECK(glm::length(same.axes[axis] - lamp.axes[axis]) < 1e-9);
}
