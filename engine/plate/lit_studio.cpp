#include "engine/plate/plate_sets.h"
#include "sim/light/exposure.h"
#include "sim/light/meter.h"
#include "sim/set/catalogue.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// The front of a face gets less than a meter turned to the key: half a stop under a key at 45°,
/// and from the side so much less that photographers open up.
double over_reading_stops(const PlateCell& cell) {
    if (cell.over_stops) return *cell.over_stops;
    return std::abs(cell.key.azimuth_deg) < 80.0 ? 0.4 : 1.0;
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

/// The stand whose column reaches so far down: low ones for lamps under the face.
const char* stand_for(double height_m) {
    if (height_m < 0.8) return "low-90";
    return height_m < 1.5 ? "roller-15" : "roller-33";
}

/// Turned to the sitter, with a bag.
Support stand_at(const Vec3& bracket_m, const char* entry) {
    Support support = find_entry(catalogue().supports, entry)->value;
    support.base.position_m = {bracket_m.x, bracket_m.z};
    support.base.turn_deg = degrees(std::atan2(-bracket_m.x, -bracket_m.z));
    support.column.height_m = bracket_m.y;
    Bag bag = find_entry(catalogue().bags, "bag-11.3")->value;
    bag.place = BagPlace::column;
    support.bags.push_back(bag);
    return support;
}

/// On a stand below it; from a boom where the column would be in the camera's way.
Support support_below(const Vec3& bracket_m, double camera_z_m) {
    constexpr double boom_from_m = 1.5;
    const bool boom =
        std::abs(bracket_m.x) < 0.5 && bracket_m.z < camera_z_m && bracket_m.y >= boom_from_m;
    if (!boom) return stand_at(bracket_m, stand_for(bracket_m.y));
    Support support = stand_at(bracket_m, "boom-roller-200");
    // Along the room's width, over the leg that reaches toward the light.
    support.base.position_m.x += support.arm->reach_m;
    support.base.turn_deg = -90.0;
    return support;
}

struct Place {
    Vec3 direction; ///< from the face, unit
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
    light.support = support_below(face_m + away_m * place.direction, camera_z_m);
    return light;
}

/// A lamp behind the sitter is gridded, or it lights the paper more than the cheek.
std::string key_modifier(const PlateCell& cell) {
    if (!cell.modifier.empty()) return cell.modifier;
    if (!cell.hard) return "octa-90";
    return std::abs(cell.key.azimuth_deg) > 100.0 ? "reflector-18-grid-39" : "reflector-18";
}

/// Powers the light so that a flat meter where it aims, turned to it, reads so many stops over the
/// camera's f-number; at most what its head can give.
void set_power(Light& light, const Emitter& emitter, const Studio& studio, double stops) {
    Probe probe;
    probe.position_m = light.aim.point_m;
    probe.facing = glm::normalize(emitter.centre_m - probe.position_m);
    const Camera& camera = studio.set.camera;
    const double wanted =
        exposure_of_f_number(camera.f_number, camera.iso, studio.set.meter.flat_c_lx_s);
    const double over = std::log2(exposure_at(emitter, probe, nullptr) / wanted) - stops;
    light.head.power_stops_below =
        std::clamp(light.head.power_stops_below + over, 0.0, light.head.range_stops);
}

/// On a low stand that the sitter hides, turned to the background behind the head.
Light background_light(const Set& set, const Vec3& face_m) {
    constexpr double behind_m = 1.0, height_m = 0.75;
    Light light;
    light.id = light.role = "background light";
    light.head = find_entry(catalogue().heads, "monolight-400")->value;
    light.modifier = find_entry(catalogue().modifiers, "reflector-wide-28")->value;
    light.aim.kind = AimKind::point;
    light.aim.point_m = {0.0, face_m.y, -set.background.distance_m};
    light.support = stand_at({0.0, height_m, -behind_m}, stand_for(height_m));
    return light;
}

void turn_sitter(Subject& subject, const PlateCell& cell) {
    subject.head_turn_deg = cell.turn_deg;
    subject.body_turn_deg = cell.body_share * cell.turn_deg;
    subject.head_nod_deg = cell.nod_deg;
}

/// Keys and fill where they are to stand, at full power.
std::vector<Light> lights_about(const PlateCell& cell, const PosedSubject& sitter,
                                double camera_z_m) {
    const Vec3 face_m = sitter.landmarks.face;
    const auto key = [&](const char* id, const Angles& as_the_face_sees_it) {
        const Vec3 direction = sitter.head_axes * direction_from(as_the_face_sees_it);
        return light_at(id, key_modifier(cell), face_m, {direction, cell.key_distance_m},
                        camera_z_m);
    };
    std::vector<Light> lights{key("key", cell.key)};
    if (cell.second_key) lights.push_back(key("second key", *cell.second_key));
    if (cell.fill_below_stops)
        lights.push_back(light_at("fill", "umbrella-100", face_m,
                                  {direction_from({0.0, 12.0}), 3.4}, camera_z_m));
    if (cell.background_stops) lights.push_back(background_light(cell.set, face_m));
    for (Light& light : lights)
        if (light.modifier.barn_doors) {
            // Leaning in, so that their cut falls into the picture.
            BarnDoors& doors = *light.modifier.barn_doors;
            doors.top_deg = doors.bottom_deg = doors.left_deg = doors.right_deg = cell.doors_deg;
        }
    return lights;
}

} // namespace

std::shared_ptr<const Studio> lit_studio(const PlateCell& cell,
                                         const std::shared_ptr<const Studio>& previous) {
    Set set = cell.set;
    auto studio = make_studio(set, previous);
    frame_head(set.camera, studio->subject->landmarks, cell.picture_height_m);
    if (cell.key_follows) {
        turn_sitter(set.subject, cell);
        studio = make_studio(set, studio);
    }
    set.lights = lights_about(cell, *studio->subject, set.camera.position_m.z);
    const auto lit = make_studio(set, studio);
    const double over = over_reading_stops(cell);
    for (std::size_t i = 0; i < set.lights.size(); ++i) {
        const std::string& role = set.lights[i].role;
        set_power(set.lights[i], lit->emitters[i], *lit,
                  role == "fill"               ? over - *cell.fill_below_stops
                  : role == "background light" ? *cell.background_stops
                                               : over);
    }
    turn_sitter(set.subject, cell);
    return make_studio(set, lit);
}

} // namespace keystead
