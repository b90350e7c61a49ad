#include "engine/plate/ten_patterns.h"

#include "engine/plate/plate_sitters.h"

#include <array>
#include <cmath>

namespace keystead {

namespace {

/// How a pattern is shown. Directions as the face sees them are the trade's, well inside its
/// ranges. Small lamps draw the shadows that make a name; fill is left out where darkness does.
struct Shown {
    Pattern pattern;
    Angles key;
    const char* modifier;
    double distance_m;
    std::optional<double> fill_below_stops = {};
    double over_stops = 0.0;
    std::optional<Angles> second_key = {};
    std::optional<double> background_stops = {};
    bool broad = false; ///< on a turned head the lamp stands on the side that the camera sees
};

const std::array<Shown, 10>& shown() {
    static const std::array<Shown, 10> all{
        {{Pattern::butterfly, {0, 45}, "reflector-18", 1.4, 4.5, 0.5},
         {Pattern::loop, {32, 32}, "reflector-18", 1.4, 5.0, 0.4},
         {Pattern::rembrandt, {50, 40}, "reflector-18", 1.4, {}, 0.6},
         {Pattern::split, {90, 5}, "reflector-18", 1.4, {}, 1.2},
         {.pattern = Pattern::rim,
          .key = {138, 20},
          .modifier = "reflector-18-grid-39",
          .distance_m = 1.4,
          .over_stops = 1.6,
          .broad = true},
         {Pattern::underlight, {0, -35}, "reflector-18", 1.3, {}, 0.2},
         {Pattern::toplight, {0, 75}, "reflector-18", 1.05, {}, 0.9},
         {Pattern::flat, {0, 12}, "octa-135", 2.9, {}, 0.0},
         {Pattern::crossed, {38, 42}, "reflector-18", 1.4, {}, -0.4, Angles{-38, 42}},
         // From behind and above the hair takes it all; the lit background shows the dark face.
         {.pattern = Pattern::none,
          .key = {180, 50},
          .modifier = "reflector-18-grid-39",
          .distance_m = 1.15,
          .over_stops = 0.6,
          .background_stops = 1.0}}};
    return all;
}

struct Pose {
    const char* label;
    double turn_deg, nod_deg;
};
constexpr std::array<Pose, 3> poses{
    {{"frontal", 0.0, 0.0}, {"turned 30°", 30.0, 0.0}, {"chin down 15°", 0.0, -15.0}}};

/// Heads turn to camera right, so a lamp at positive azimuth is the far cheek's.
Angles key_of(const Shown& shown, const Pose& pose) {
    Angles key = shown.key;
    if (shown.broad && pose.turn_deg > 0.0) key.azimuth_deg = -key.azimuth_deg;
    return key;
}

std::string degrees_text(double angle_deg) {
    return std::to_string(std::lround(std::abs(angle_deg))) + "°";
}

std::string direction_text(const Shown& shown) {
    return (shown.second_key ? "±" : "") + degrees_text(shown.key.azimuth_deg) + " round, " +
           degrees_text(shown.key.elevation_deg) +
           (shown.key.elevation_deg < 0.0 ? " down" : " up");
}

} // namespace

Plate ten_patterns_plate() {
    const Sitter& sitter = plate_sitters()[0];
    Set set = sitter_set(sitter, sitter.cut);
    set.background.distance_m = 2.6; // room for stands behind the sitter
    Plate plate;
    plate.name_patterns = true;
    plate.skin_look = false; // a red seam down the nose would be taken for part of split
    for (const Shown& each : shown()) {
        plate.groups.emplace_back(name_of(each.pattern));
        plate.columns.push_back(direction_text(each));
    }
    for (const Pose& pose : poses) {
        plate.rows.emplace_back(pose.label);
        for (const Shown& each : shown())
            plate.cells.push_back({.set = set,
                                   .key = key_of(each, pose),
                                   .turn_deg = pose.turn_deg,
                                   .nod_deg = pose.nod_deg,
                                   .body_share = 0.5,
                                   .key_follows = true,
                                   .picture_height_m = 0.32,
                                   .fill_below_stops = each.fill_below_stops,
                                   .modifier = each.modifier,
                                   .key_distance_m = each.distance_m,
                                   .second_key = each.second_key,
                                   .over_stops = each.over_stops,
                                   .background_stops = each.background_stops,
                                   .meant = each.pattern});
    }
    return plate;
}

} // namespace keystead
