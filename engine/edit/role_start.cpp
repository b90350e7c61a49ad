#include "engine/edit/role_start.h"

#include "sim/base/frames.h"
#include "sim/set/catalogue.h"
#include "sim/subject/rough_landmarks.h"
#include "sim/support/pose.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead {

namespace {

/// A direction from the face and a distance to the lamp's face. Azimuths count from the nose (key)
/// or from the room's axis, + toward the key's side.
struct Place {
    double azimuth_deg, elevation_deg, distance_m;
};

struct Start {
    const char* role;
    const char *support, *head, *modifier, *bag;
    double power_stops_below;
    bool from_nose;       ///< azimuths count from the nose
    const char* landmark; ///< looked at; null: the middle of the background
    double modifier_turn_deg;
    std::array<Place, 5> places; ///< the first that fits is taken
};

/// Common practice: loop light from 40° beside the nose and some 30° up; fill from beside the
/// camera; edges from behind; a boom over the hair; a low lamp for the background.
constexpr std::array<Start, 5> starts{
    {{"key",
      "roller-33",
      "monolight-400",
      "octa-90",
      "bag-11.3",
      2.6,
      true,
      "face",
      0.0,
      {{{37, 30, 1.4}, {36, 30, 1.2}, {40, 28, 1.7}, {30, 30, 1.4}, {46, 30, 1.4}}}},
     {"fill",
      "standard-30",
      "monolight-200",
      "umbrella-100",
      "bag-15.9",
      2.0,
      false,
      "face",
      0.0,
      {{{-24, 6, 2.3}, {-34, 6, 2.2}, {-28, 6, 1.8}, {-45, 6, 1.9}, {-20, 6, 2.8}}}},
     {"rim light",
      "standard-30",
      "monolight-400",
      "strip-30x90-grid",
      "bag-15.9",
      2.8,
      false,
      "face",
      0.0,
      {{{-140, 20, 1.6}, {-130, 20, 1.5}, {-122, 20, 1.5}, {-115, 20, 1.5}, {-132, 20, 2.0}}}},
     {"hair light",
      "boom-roller-200",
      "battery-head-400",
      "reflector-18-grid-39",
      "bag-11.3",
      5.2,
      false,
      "hair_top",
      0.0,
      {{{-165, 50, 0.8}, {165, 50, 0.8}, {-150, 50, 0.8}, {150, 46, 0.8}, {180, 42, 0.8}}}},
     {"background light",
      "low-90",
      "monolight-600",
      "reflector-18-grid-39",
      "bag-6.8",
      0.6,
      false,
      nullptr,
      0.0,
      {{{0, 0, 0}, {0, 0, 0}, {0, 0, 0}, {0, 0, 0}, {0, 0, 0}}}}}};

const Start* find_start(const std::string& role) {
    const auto found = std::find_if(starts.begin(), starts.end(),
                                    [&](const Start& start) { return role == start.role; });
    return found == starts.end() ? nullptr : &*found;
}

template <class T>
void take(T& target, const std::vector<CatalogueEntry<T>>& entries, const char* id) {
    if (const CatalogueEntry<T>* entry = find_entry(entries, id)) {
        target = entry->value;
        target.from = entry->id;
    }
}

/// The side the light begins on: the nose's, so that the key is short; left for a nose that looks
/// straight ahead. +1 = camera right.
double key_side(const Set& set) {
    for (const Light& light : set.lights)
        if (light.role == "key" && std::abs(light.support.base.position_m.x) > 0.05)
            return light.support.base.position_m.x > 0.0 ? 1.0 : -1.0;
    return set.subject.head_turn_deg > 1.0 ? 1.0 : -1.0;
}

bool in_room(const Room& room, const Vec2& p, double margin_m) {
    return p.x > -room.left_of_subject_m + margin_m &&
           p.x < room.width_m - room.left_of_subject_m - margin_m &&
           p.y > -room.behind_subject_m + margin_m &&
           p.y < room.depth_m - room.behind_subject_m - margin_m;
}

/// None of the usual places fits: as near to the wanted one as the walls let it stand.
void keep_in_room(const Room& room, Light& light) {
    constexpr double margin_m = 0.4;
    Vec2& at = light.support.base.position_m;
    const auto between = [](double value, double low, double high) {
        return low > high ? 0.5 * (low + high) : std::clamp(value, low, high);
    };
    at.x = between(at.x, margin_m - room.left_of_subject_m,
                   room.width_m - room.left_of_subject_m - margin_m);
    at.y = between(at.y, margin_m - room.behind_subject_m,
                   room.depth_m - room.behind_subject_m - margin_m);
}

bool clear_of_stands(const Set& set, const Vec2& p) {
    const auto far = [&](const Vec2& other, double least_m) {
        return glm::length(other - p) >= least_m;
    };
    return far({set.camera.position_m.x, set.camera.position_m.z}, 0.6) && far(Vec2(0.0), 0.5) &&
           std::all_of(set.lights.begin(), set.lights.end(), [&](const Light& light) {
               return far(light.support.base.position_m, 0.75);
           });
}

/// Whether a ball of `radius_m` about `p` is outside what the camera sees.
bool out_of_frame(const Camera& camera, const Vec3& p, double radius_m) {
    const Vec3 ahead = camera.aim_m - camera.position_m;
    if (glm::length(ahead) < 1e-6) return true;
    const Mat3 frame = upright_frame(glm::normalize(ahead));
    const Vec3 seen = glm::transpose(frame) * (p - camera.position_m);
    if (seen.z < 0.05) return true;
    const bool upright = camera.orientation == Orientation::upright;
    const double wide = upright ? camera.sensor_height_mm : camera.sensor_width_mm;
    const double high = upright ? camera.sensor_width_mm : camera.sensor_height_mm;
    return std::abs(seen.x) > seen.z * 0.5 * wide / camera.focal_length_mm + radius_m ||
           std::abs(seen.y) > seen.z * 0.5 * high / camera.focal_length_mm + radius_m;
}

/// Hangs the light so that its bracket is at `bracket_m`, as far as column and arm go.
void hang(Light& light, const Vec3& bracket_m, double side) {
    Support& support = light.support;
    const auto clamped = [&](double height_m) {
        return std::clamp(height_m, support.column.min_height_m, support.column.max_height_m);
    };
    Vec2 foot(bracket_m.x, bracket_m.z);
    if (support.arm) {
        Arm& arm = *support.arm;
        arm.reach_m = std::clamp(1.28, arm.min_reach_m, arm.max_reach_m);
        arm.rise_deg = 8.0;
        arm.turn_deg = 0.0;
        const double out = arm.reach_m * std::cos(radians(arm.rise_deg));
        // Beside and a little behind: stand and feet stay out of the frame.
        const Vec3 away = direction_from({side * 105.0, 0.0});
        foot += out * Vec2(away.x, away.z);
        support.column.height_m =
            clamped(bracket_m.y - arm.reach_m * std::sin(radians(arm.rise_deg)));
        support.base.turn_deg = angles_of(-away).azimuth_deg;
    } else {
        support.column.height_m = clamped(bracket_m.y);
        support.base.turn_deg = angles_of(Vec3(-foot.x, 0.0, -foot.y)).azimuth_deg;
    }
    support.base.position_m = foot;
}

/// Half the diagonal of what hangs at the bracket.
double body_radius_m(const Modifier& modifier) {
    return 0.5 * std::hypot(modifier.width_m, modifier.height_m);
}

void place_toward_face(const Set& set, const Start& start, Light& light) {
    const Landmarks marks = rough_landmarks(set.subject);
    const double side = key_side(set);
    const double nose_deg = start.from_nose ? set.subject.head_turn_deg : 0.0;
    const double head_ahead = face_ahead_m(light);
    bool placed = false;
    for (const Place& place : start.places) {
        const Vec3 way = direction_from({nose_deg + side * place.azimuth_deg, place.elevation_deg});
        Light tried = light;
        hang(tried, marks.face + way * (place.distance_m + head_ahead),
             side * (start.from_nose ? 1.0 : -1.0));
        const Vec2 foot = tried.support.base.position_m;
        const bool fits = in_room(set.room, foot, 0.4) && clear_of_stands(set, foot) &&
                          out_of_frame(set.camera, marks.face + way * place.distance_m,
                                       body_radius_m(light.modifier) * 0.8);
        if (!placed || fits) light = tried;
        placed = true;
        if (fits) return;
    }
    keep_in_room(set.room, light);
}

/// Low, between sitter and background, out of the frame, looking at the middle of what is seen.
void place_toward_background(const Set& set, Light& light) {
    const Background& b = set.background;
    const double behind = b.kind == BackgroundKind::none ? set.room.behind_subject_m : b.distance_m;
    const double eyes = rough_landmarks(set.subject).face.y;
    light.aim.kind = AimKind::point;
    light.aim.point_m = {0.1, std::max(0.6, eyes - 0.1), -behind};
    const double side = key_side(set);
    bool placed = false;
    for (const double x : {0.85, 1.05, 1.25, 0.65, 0.45}) {
        Light tried = light;
        hang(tried, {side * x, 0.5, -0.42 * behind}, side);
        tried.support.base.turn_deg =
            angles_of(light.aim.point_m - Vec3(side * x, 0.0, -0.42 * behind)).azimuth_deg;
        const Vec2 foot = tried.support.base.position_m;
        const bool fits = in_room(set.room, foot, 0.3) && clear_of_stands(set, foot) &&
                          out_of_frame(set.camera, {foot.x, 0.55, foot.y}, 0.25);
        if (!placed || fits) light = tried;
        placed = true;
        if (fits) return;
    }
    keep_in_room(set.room, light);
}

} // namespace

std::span<const char* const> starting_roles() {
    static constexpr std::array<const char*, 5> roles{
        starts[0].role, starts[1].role, starts[2].role, starts[3].role, starts[4].role};
    return roles;
}

bool start_of_role(const Set& set, const std::string& role, Light& light) {
    const Start* start = find_start(role);
    if (start == nullptr) return false;
    const Catalogue& gear = catalogue();
    take(light.support, gear.supports, start->support);
    take(light.head, gear.heads, start->head);
    take(light.modifier, gear.modifiers, start->modifier);
    light.modifier.turn_deg = start->modifier_turn_deg;
    light.head.power_stops_below = std::min(start->power_stops_below, light.head.range_stops);
    Bag bag;
    take(bag, gear.bags, start->bag);
    bag.place = BagPlace::column;
    light.support.bags = {bag};
    if (start->landmark == nullptr) {
        place_toward_background(set, light);
    } else {
        light.aim.kind = AimKind::landmark;
        light.aim.landmark = start->landmark;
        place_toward_face(set, *start, light);
    }
    return true;
}

} // namespace keystead
