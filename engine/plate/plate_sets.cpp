#include "engine/plate/plate_sets.h"

#include "sim/light/exposure.h"
#include "sim/light/meter.h"
#include "sim/set/catalogue.h"
#include "sim/subject/measures.h"
#include "sim/subject/skin_scale.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead {

namespace {

/// The front of a face gets less than a meter turned to the key: half a stop under a key at 45°,
/// and from the side so much less that photographers open up.
double over_reading_stops(const Angles& key) {
    return std::abs(key.azimuth_deg) < 80.0 ? 0.4 : 1.0;
}

struct Sitter {
    const char* preset;
    const char* label;
    double skin_luminance;
    Vec3 hair, clothing;
    HairStyle cut; ///< where only one is shown
};

constexpr std::array<Sitter, 4> sitters{{{"mean-male",
                                          "mean male",
                                          0.33,
                                          {0.030, 0.019, 0.013},
                                          {0.055, 0.062, 0.075},
                                          HairStyle::cropped},
                                         {"mean-female",
                                          "mean female",
                                          0.40,
                                          {0.060, 0.034, 0.019},
                                          {0.080, 0.050, 0.045},
                                          HairStyle::tied},
                                         {"small-female",
                                          "small female",
                                          0.24,
                                          {0.018, 0.013, 0.011},
                                          {0.050, 0.070, 0.062},
                                          HairStyle::tied},
                                         {"large-male",
                                          "large male",
                                          0.15,
                                          {0.014, 0.012, 0.011},
                                          {0.110, 0.105, 0.095},
                                          HairStyle::cropped}}};

struct Cut {
    HairStyle style;
    const char* label;
};
constexpr std::array<Cut, 3> cuts{
    {{HairStyle::cropped, "cropped"}, {HairStyle::bob, "bob"}, {HairStyle::tied, "tied up"}}};

struct Side {
    double turn_deg;
    const char* label;
};
constexpr std::array<Side, 4> sides{
    {{0.0, "front"}, {38.0, "three-quarter"}, {90.0, "profile"}, {180.0, "back"}}};

constexpr std::array<Angles, 5> reference_directions{
    {{0.0, 45.0}, {30.0, 25.0}, {50.0, 40.0}, {90.0, 10.0}, {135.0, 20.0}}};

Set sitter_set(const Sitter& sitter, HairStyle style) {
    Set set;
    set.name = "plate";
    set.room.width_m = 8.0;
    set.room.depth_m = 8.0;
    set.room.ceiling_m = 3.6;
    set.room.left_of_subject_m = 4.0;
    set.room.behind_subject_m = 3.2;
    set.room.walls.rgb = set.room.ceiling.rgb = Vec3(0.45);
    set.background.distance_m = 1.8;
    set.background.height_m = 3.0;
    set.background.reflectance.rgb = Vec3(0.26, 0.26, 0.27);
    Subject& subject = set.subject;
    subject.proportions.preset = sitter.preset;
    subject.stature_m = preset_stature_m(sitter.preset);
    subject.hair_style = style;
    subject.skin.rgb = skin_of_luminance(sitter.skin_luminance);
    subject.hair.rgb = sitter.hair;
    subject.clothing.rgb = sitter.clothing;
    set.camera.orientation = Orientation::upright;
    return set;
}

/// A level camera, so that verticals stay upright; the lens follows from what the picture takes in.
/// All sitters are drawn to one scale; the camera stands higher where hair would be cut off.
void frame_head(Camera& camera, const Landmarks& marks, double picture_height_m) {
    constexpr double distance_m = 2.3, picture_mm = 30.0; // 4:5 of a 36 by 24 mm frame held upright
    constexpr double over_hair_m = 0.018;
    const double height_m =
        std::max(marks.menton.y + 0.063, marks.hair_top.y + over_hair_m - 0.5 * picture_height_m);
    camera.position_m = Vec3(0.0, height_m, distance_m);
    camera.aim_m = Vec3(0.0, height_m, 0.0);
    camera.focal_length_mm = picture_mm * distance_m / picture_height_m;
}

/// On a wheeled stand below it; from a boom where the column would be in the camera's way.
Support support_below(const Vec3& bracket_m, double camera_z_m) {
    const bool boom = std::abs(bracket_m.x) < 0.5 && bracket_m.z < camera_z_m;
    Support support =
        find_entry(catalogue().supports, boom ? "boom-roller-200" : "roller-33")->value;
    support.base.position_m = {bracket_m.x, bracket_m.z};
    support.base.turn_deg = degrees(std::atan2(-bracket_m.x, -bracket_m.z));
    support.column.height_m = bracket_m.y;
    if (boom) {
        // Along the room's width, over the leg that reaches toward the light.
        support.base.position_m.x += support.arm->reach_m;
        support.base.turn_deg = -90.0;
    }
    Bag bag = find_entry(catalogue().bags, "bag-11.3")->value;
    bag.place = BagPlace::column;
    support.bags.push_back(bag);
    return support;
}

struct Place {
    Angles direction;
    double distance_m;
};

/// Turned sitters keep the lamp where it stood for the frontal one, so it aims at a point.
Light light_at(const char* id, const std::string& modifier, const Vec3& face_m, const Place& place,
               double camera_z_m) {
    Light light;
    light.id = light.role = id;
    light.head = find_entry(catalogue().heads, "monolight-400")->value;
    light.modifier = find_entry(catalogue().modifiers, modifier)->value;
    light.aim.kind = AimKind::point;
    light.aim.point_m = face_m;
    const double away_m = place.distance_m + face_ahead_m(light);
    light.support = support_below(face_m + away_m * direction_from(place.direction), camera_z_m);
    return light;
}

/// A lamp behind the sitter is gridded, or it lights the paper more than the cheek.
std::string key_modifier(const PlateCell& cell) {
    if (!cell.modifier.empty()) return cell.modifier;
    if (!cell.hard) return "octa-90";
    return std::abs(cell.key.azimuth_deg) > 100.0 ? "reflector-18-grid-39" : "reflector-18";
}

/// Powers the light so that a flat meter at the face turned to it reads so many stops over the
/// camera's f-number; at most what its head can give.
void set_power(Light& light, const Emitter& emitter, const Studio& studio, double stops) {
    Probe probe;
    probe.position_m = studio.subject->landmarks.face;
    probe.facing = glm::normalize(emitter.centre_m - probe.position_m);
    const Camera& camera = studio.set.camera;
    const double wanted =
        exposure_of_f_number(camera.f_number, camera.iso, studio.set.meter.flat_c_lx_s);
    const double over = std::log2(exposure_at(emitter, probe, nullptr) / wanted) - stops;
    light.head.power_stops_below =
        std::clamp(light.head.power_stops_below + over, 0.0, light.head.range_stops);
}

Plate heads_plate(bool hard) {
    Plate plate;
    for (const Cut& cut : cuts) {
        plate.groups.emplace_back(cut.label);
        for (const Side& side : sides) plate.columns.emplace_back(side.label);
    }
    for (const Sitter& sitter : sitters) {
        plate.rows.emplace_back(sitter.label);
        for (const Cut& cut : cuts)
            for (const Side& side : sides)
                plate.cells.push_back(
                    {sitter_set(sitter, cut.style), {45.0, 35.0}, hard, side.turn_deg, 0.47, 3.6});
    }
    return plate;
}

Plate patterns_plate() {
    Plate plate;
    plate.name_patterns = true;
    for (const Angles& at : reference_directions)
        plate.columns.push_back(std::to_string(std::lround(at.azimuth_deg)) + "° round, " +
                                std::to_string(std::lround(at.elevation_deg)) + "° up");
    for (const Sitter& sitter : sitters) {
        plate.rows.emplace_back(sitter.label);
        for (const Angles& at : reference_directions)
            plate.cells.push_back({sitter_set(sitter, sitter.cut), at, true, 0.0, 0.365, 4.5});
    }
    return plate;
}

struct Shaper {
    const char* modifier;
    const char* caption;
};
constexpr std::array<Shaper, 12> shapers{{{"bare", "bare lamp"},
                                          {"reflector-18", "reflector, 18 cm"},
                                          {"reflector-18-grid-17", "with a 17° honeycomb"},
                                          {"reflector-18-doors", "with barn doors"},
                                          {"snoot-7", "snoot"},
                                          {"dish-55", "dish, 55 cm"},
                                          {"octa-135", "octa, 135 cm"},
                                          {"octa-90-grid", "octa, 90 cm, gridded"},
                                          {"strip-30x120", "strip, 30 × 120 cm"},
                                          {"umbrella-through-100", "shoot-through, 1 m"},
                                          {"lantern-65", "cloth ball, 65 cm"},
                                          {"ring-45", "ring light, 45 cm"}}};

Plate modifiers_plate() {
    Plate plate;
    plate.captioned = true;
    plate.columns = {"", "", "", ""};
    plate.rows = {"", "", ""};
    for (const Shaper& shaper : shapers)
        plate.cells.push_back({sitter_set(sitters[1], HairStyle::tied),
                               {38.0, 30.0},
                               true,
                               0.0,
                               0.42,
                               5.0,
                               shaper.modifier,
                               shaper.caption,
                               -24.0});
    return plate;
}

} // namespace

Plate make_plate(PlateKind kind, bool hard) {
    switch (kind) {
    case PlateKind::patterns:
        return patterns_plate();
    case PlateKind::modifiers:
        return modifiers_plate();
    case PlateKind::heads:
        break;
    }
    return heads_plate(hard);
}

std::shared_ptr<const Studio> lit_studio(const PlateCell& cell,
                                         const std::shared_ptr<const Studio>& previous) {
    Set set = cell.set;
    const auto unlit = make_studio(set, previous);
    const Landmarks& marks = unlit->subject->landmarks;
    frame_head(set.camera, marks, cell.picture_height_m);
    const double camera_z_m = set.camera.position_m.z;
    set.lights = {light_at("key", key_modifier(cell), marks.face, {cell.key, 1.4}, camera_z_m),
                  light_at("fill", "umbrella-100", marks.face, {{0.0, 12.0}, 3.4}, camera_z_m)};
    if (set.lights[0].modifier.barn_doors) {
        // Leaning in, so that their cut falls into the picture.
        BarnDoors& doors = *set.lights[0].modifier.barn_doors;
        doors.top_deg = doors.bottom_deg = doors.left_deg = doors.right_deg = cell.doors_deg;
    }
    const auto lit = make_studio(set, unlit);
    const double over = over_reading_stops(cell.key);
    set_power(set.lights[0], lit->emitters[0], *lit, over);
    set_power(set.lights[1], lit->emitters[1], *lit, over - cell.fill_below_stops);
    set.subject.head_turn_deg = set.subject.body_turn_deg = cell.turn_deg;
    return make_studio(set, lit);
}

} // namespace keystead
