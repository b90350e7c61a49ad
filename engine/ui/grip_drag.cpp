#include "engine/edit/move_subject.h"
#include "engine/ui/aim_point.h"
#include "engine/ui/grips.h"
#include "engine/ui/quantity.h"
#include "engine/ui/set_commands.h"
#include "engine/ui/words.h"
#include "sim/base/frames.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

/// One drag under way: everything its rules need.
struct Pull {
    const Grip& grip;
    const Drawn& start;
    Plane plane;
    Vec2 from_m, to_m;
    DragManner manner;

    Vec2 moved_m() const { return to_m - from_m; }
    double step_m() const {
        constexpr double inch_m = 0.0254;
        if (manner.units == Units::imperial) return manner.fine ? 0.5 * inch_m : 2.0 * inch_m;
        return manner.fine ? 0.01 : 0.05;
    }
    double step_deg() const { return manner.fine ? 1.0 : 5.0; }
    double snap(double value_m) const { return std::round(value_m / step_m()) * step_m(); }
    std::string metres(double value_m) const { return drawn_length(value_m, manner.units); }
    double snap_deg(double value) const { return std::round(value / step_deg()) * step_deg(); }
};

/// "at most 2.60 m" or "at least 1.00 m" when `wanted` had to be held back.
std::string held_back(const Pull& pull, double wanted, double kept, const char* unit, int decimals,
                      const char* whose) {
    if (std::abs(wanted - kept) < 1e-9) return {};
    return std::string(wanted > kept ? "at most " : "at least ") +
           in_units(number_text(kept, decimals) + unit, pull.manner.units) + ", " + whose;
}

Command place_base(const Light& light, const Vec2& at) {
    return set_place(light_path(light.id, "support.base.position_m"), at);
}

Vec2 floor_of(const Vec3& p) {
    return {p.x, p.z};
}

/// Where the base goes so that its lamp stays as far from the face, seen from above, in the
/// direction it is pulled to: the height does not change, so neither does the distance.
Vec2 on_its_circle(const Pull& pull, const SupportPose& pose, const Vec2& wanted) {
    const Vec2 face = floor_of(pull.start.landmarks.face), tip = floor_of(pose.tip_m);
    const Vec2 old = floor_of(pose.hub_m), out = wanted + (tip - old) - face;
    const double radius = glm::length(tip - face);
    if (radius < 0.05 || glm::length(out) < 0.05) return old;
    const double azimuth_deg = pull.snap_deg(degrees(std::atan2(out.x, out.y)));
    const Vec3 way = direction_from({azimuth_deg, 0.0});
    return face + radius * Vec2(way.x, way.z) - (tip - old);
}

Dragged roll_base(const Pull& pull, const Light& light, const SupportPose& pose) {
    const Vec2 old = light.support.base.position_m;
    Vec2 at = old;
    if (pull.plane == Plane::elevation)
        at.y = pull.snap(old.y + pull.moved_m().x);
    else if (pull.manner.keeps_distance)
        at = on_its_circle(pull, pose, old + pull.moved_m());
    else
        at = {pull.snap(old.x + pull.moved_m().x), pull.snap(old.y + pull.moved_m().y)};
    std::string words =
        "camera right " + pull.metres(at.x) + ", toward camera " + pull.metres(at.y);
    if (pull.plane == Plane::plan && pull.manner.keeps_distance) words += ", as far as it was";
    return {place_base(light, at), words, {}};
}

Dragged turn_base(const Pull& pull, const Light& light) {
    const Base& base = light.support.base;
    const Vec2 arm = pull.to_m - base.position_m;
    if (glm::length(arm) < 0.02) return {};
    const double azimuth =
        degrees(std::atan2(arm.x, arm.y)) - 360.0 * pull.grip.leg / std::max(1, base.legs);
    const double turn = wrapped_deg(pull.snap_deg(azimuth));
    return {set_number(light_path(light.id, "support.base.turn_deg"), turn),
            "base turn " + number_text(turn, 0) + "°",
            {}};
}

Dragged raise_column(const Pull& pull, const Light& light) {
    const Column& column = light.support.column;
    const double wanted = pull.snap(column.height_m + pull.moved_m().y);
    const double height = std::clamp(wanted, column.min_height_m, column.max_height_m);
    return {set_number(light_path(light.id, "support.column.height_m"), height),
            "column " + pull.metres(height),
            held_back(pull, wanted, height, " m", 2, "this column's limit")};
}

Command pose_arm(const Light& light, double reach, double rise, double turn) {
    return together("arm of " + light.id,
                    {set_number(light_path(light.id, "support.arm.reach_m"), reach),
                     set_number(light_path(light.id, "support.arm.rise_deg"), rise),
                     set_number(light_path(light.id, "support.arm.turn_deg"), turn)});
}

/// Seen from above: the arm swings to where the lamp is pulled and runs out as far.
Dragged swing_arm(const Pull& pull, const Light& light, const SupportPose& pose) {
    const Arm& arm = *light.support.arm;
    const Vec2 pivot(pose.column_top_m.x, pose.column_top_m.z);
    const Vec2 tip = Vec2(pose.tip_m.x, pose.tip_m.z) + pull.moved_m();
    const double azimuth = degrees(std::atan2(tip.x - pivot.x, tip.y - pivot.y));
    const double turn = wrapped_deg(pull.snap_deg(azimuth - light.support.base.turn_deg));
    const double wanted =
        pull.snap(glm::length(tip - pivot) / std::max(0.15, std::cos(radians(arm.rise_deg))));
    const double reach = std::clamp(wanted, arm.min_reach_m, most_reach_m(arm));
    return {pose_arm(light, reach, arm.rise_deg, turn),
            "arm " + pull.metres(reach) + ", turned " + number_text(turn, 0) + "°",
            held_back(pull, wanted, reach, " m", 2, whose_reach(arm))};
}

/// Seen from the side: the arm rises to the lamp's height and, where it runs along the page, out.
Dragged raise_arm(const Pull& pull, const Light& light, const SupportPose& pose) {
    const Arm& arm = *light.support.arm;
    const double level = std::cos(radians(arm.rise_deg));
    const double along = level > 1e-3 ? pose.arm_direction.z / level : 0.0;
    const double up = pose.tip_m.y - pose.column_top_m.y + pull.moved_m().y;
    double out = arm.reach_m * level;
    if (std::abs(along) > 0.4)
        out = (pose.tip_m.z - pose.column_top_m.z + pull.moved_m().x) / along;
    const bool runs_out = std::abs(along) > 0.4;
    const double wanted_rise = runs_out
                                   ? degrees(std::atan2(up, std::max(0.01, out)))
                                   : degrees(std::asin(std::clamp(up / arm.reach_m, -1.0, 1.0)));
    const double rise = std::clamp(pull.snap_deg(wanted_rise), arm.min_rise_deg, arm.max_rise_deg);
    const double wanted = runs_out ? pull.snap(std::hypot(out, up)) : arm.reach_m;
    const double reach = std::clamp(wanted, arm.min_reach_m, most_reach_m(arm));
    std::string pushed = held_back(pull, wanted, reach, " m", 2, whose_reach(arm));
    if (pushed.empty())
        pushed = held_back(pull, pull.snap_deg(wanted_rise), rise, "°", 0, "this clamp's limit");
    return {pose_arm(light, reach, rise, arm.turn_deg),
            "arm " + pull.metres(reach) + ", rise " + number_text(rise, 0) + "°", pushed};
}

/// The landmark that the pointer is on, seen in this plane; the nearest one.
const LandmarkName* landmark_near(const Pull& pull, const Vec2& at) {
    const LandmarkName* nearest = nullptr;
    double least = pull.grip.near_m;
    for (const LandmarkName& name : landmark_names()) {
        Vec3 p(0.0);
        if (!find_landmark(pull.start.landmarks, name.word, p)) continue;
        const double away = glm::length(on_plane(p, pull.plane) - at);
        if (away < least) nearest = &name, least = away;
    }
    return nearest;
}

/// A point pulled over the page; what the page does not show of it stays.
Vec3 pulled_point(const Pull& pull, const Vec3& from) {
    const Vec2 start = on_plane(from, pull.plane);
    const Vec2 at{pull.snap(start.x + pull.moved_m().x), pull.snap(start.y + pull.moved_m().y)};
    return pull.plane == Plane::plan ? Vec3(at.x, from.y, at.y) : Vec3(from.x, at.y, at.x);
}

std::string point_words(const Pull& pull, const Vec3& p) {
    return pull.plane == Plane::plan
               ? "camera right " + pull.metres(p.x) + ", toward camera " + pull.metres(p.z)
               : "height " + pull.metres(p.y) + ", toward camera " + pull.metres(p.z);
}

/// At a landmark where the pointer is on one, else at a point of the room.
Dragged aim_light(const Pull& pull, const Light& light, const SupportPose& pose) {
    const Vec3 from = aim_point(light, pose, pull.start.landmarks);
    if (const LandmarkName* name = landmark_near(pull, on_plane(from, pull.plane) + pull.moved_m()))
        return {together("aim of " + light.id,
                         {set_word(light_path(light.id, "aim.kind"), "landmark"),
                          set_word(light_path(light.id, "aim.landmark"), name->word)}),
                std::string("aimed at: ") + name->shown,
                {}};
    const Vec3 at = pulled_point(pull, from);
    return {together("aim of " + light.id, {set_word(light_path(light.id, "aim.kind"), "point"),
                                            set_point(light_path(light.id, "aim.point_m"), at)}),
            "aimed at: " + point_words(pull, at),
            {}};
}

Dragged drag_light(const Pull& pull) {
    const auto index = light_index(pull.start.set, pull.grip.what.id);
    if (!index) return {};
    const Light& light = pull.start.set.lights[*index];
    const SupportPose& pose = pull.start.poses[*index];
    switch (pull.grip.kind) {
    case GripKind::leg:
        return turn_base(pull, light);
    case GripKind::column:
        return raise_column(pull, light);
    case GripKind::body:
        if (light.support.arm)
            return pull.plane == Plane::plan ? swing_arm(pull, light, pose)
                                             : raise_arm(pull, light, pose);
        return pull.plane == Plane::plan ? roll_base(pull, light, pose) : raise_column(pull, light);
    case GripKind::aim:
        return aim_light(pull, light, pose);
    default:
        return roll_base(pull, light, pose);
    }
}

Dragged drag_camera(const Pull& pull) {
    if (pull.grip.kind == GripKind::aim) {
        const Vec3 target = pulled_point(pull, pull.start.set.camera.aim_m);
        return {set_point("camera.aim_m", target), "looks at: " + point_words(pull, target), {}};
    }
    Vec3 at = pull.start.set.camera.position_m;
    if (pull.plane == Plane::plan) {
        at.x = pull.snap(at.x + pull.moved_m().x);
        at.z = pull.snap(at.z + pull.moved_m().y);
        return {set_point("camera.position_m", at),
                "camera right " + pull.metres(at.x) + ", from the subject " + pull.metres(at.z),
                {}};
    }
    at.z = pull.snap(at.z + pull.moved_m().x);
    const double wanted = pull.snap(at.y + pull.moved_m().y);
    at.y = std::max(0.05, wanted);
    return {set_point("camera.position_m", at),
            "camera height " + pull.metres(at.y) + ", from the subject " + pull.metres(at.z),
            {}};
}

/// Turn about the vertical (plan) or about the ears (elevation) by the angle the pointer went
/// round.
Dragged turn_subject(const Pull& pull, bool head) {
    const Subject& s = pull.start.set.subject;
    if (pull.plane == Plane::elevation && !head) return {};
    Vec2 centre(0.0);
    if (pull.plane == Plane::elevation) {
        const Vec3 middle = 0.5 * (pull.start.landmarks.vertex + pull.start.landmarks.menton);
        centre = {middle.z, middle.y};
    }
    const Vec2 a = pull.from_m - centre, b = pull.to_m - centre;
    const double went = wrapped_deg(degrees(std::atan2(b.x, b.y) - std::atan2(a.x, a.y)));
    if (pull.plane == Plane::elevation) {
        const double wanted = pull.snap_deg(s.head_nod_deg - went),
                     nod = std::clamp(wanted, -60.0, 60.0);
        return {set_number("subject.head_nod_deg", nod), "chin up " + number_text(nod, 0) + "°",
                held_back(pull, wanted, nod, "°", 0, "as far as a neck goes here")};
    }
    const double old = head ? s.head_turn_deg : s.body_turn_deg;
    const double turn = wrapped_deg(pull.snap_deg(old + went));
    return {set_number(head ? "subject.head_turn_deg" : "subject.body_turn_deg", turn),
            (head ? "head turn " : "shoulders turn ") + number_text(turn, 0) + "°",
            {}};
}

Dragged drag_background(const Pull& pull) {
    const Background& b = pull.start.set.background;
    const double back = pull.plane == Plane::plan ? -pull.moved_m().y : -pull.moved_m().x;
    const double distance = std::max(0.2, pull.snap(b.distance_m + back));
    return {set_number("background.distance_m", distance),
            "background " + pull.metres(distance) + " behind",
            held_back(pull, b.distance_m + back, std::max(0.2, b.distance_m + back), " m", 2,
                      "behind the subject")};
}

Dragged drag_panel(const Pull& pull) {
    const auto index = panel_index(pull.start.set, pull.grip.what.id);
    if (!index) return {};
    Vec3 at = pull.start.set.panels[*index].position_m;
    if (pull.plane == Plane::plan)
        at.x = pull.snap(at.x + pull.moved_m().x), at.z = pull.snap(at.z + pull.moved_m().y);
    else
        at.z = pull.snap(at.z + pull.moved_m().x);
    return {set_point(panel_path(pull.grip.what.id, "position_m"), at),
            "camera right " + pull.metres(at.x) + ", toward camera " + pull.metres(at.z),
            {}};
}

Vec2 sitter_move(const Pull& pull) {
    if (pull.grip.kind != GripKind::sitter) return Vec2(0.0);
    const Vec2 pulled = pull.moved_m();
    const Vec2 wanted = pull.plane == Plane::plan ? Vec2(pull.snap(pulled.x), pull.snap(pulled.y))
                                                  : Vec2(0.0, pull.snap(pulled.x));
    return allowed_move(pull.start.set, wanted);
}

Dragged move_sitter(const Pull& pull) {
    const Vec2 by = sitter_move(pull);
    const Room& room = pull.start.set.room;
    return {move_subject(pull.start.set, by),
            "subject " + pull.metres(room.left_of_subject_m + by.x) + " from the left wall, " +
                pull.metres(room.behind_subject_m + by.y) + " from the back wall",
            {}};
}

} // namespace

double most_reach_m(const Arm& arm) {
    if (!arm.counterweight) return arm.max_reach_m;
    return std::max(arm.min_reach_m,
                    std::min(arm.max_reach_m, arm.length_m - arm.counterweight->place_m));
}

const char* whose_reach(const Arm& arm) {
    return most_reach_m(arm) < arm.max_reach_m ? "its counterweight is at the tail's end then"
                                               : "this arm's limit";
}

Vec2 sitter_moved_m(const Grip& grip, const Drawn& at_start, Plane plane, const Vec2& from_m,
                    const Vec2& to_m, const DragManner& manner) {
    return sitter_move({grip, at_start, plane, from_m, to_m, manner});
}

Dragged drag_grip(const Grip& grip, const Drawn& at_start, Plane plane, const Vec2& from_m,
                  const Vec2& to_m, const DragManner& manner) {
    const Pull pull{grip, at_start, plane, from_m, to_m, manner};
    if (grip.kind == GripKind::sitter) return move_sitter(pull);
    switch (grip.what.thing) {
    case Thing::light:
        return drag_light(pull);
    case Thing::camera:
        return drag_camera(pull);
    case Thing::subject:
        return turn_subject(pull, grip.kind == GripKind::head);
    case Thing::background:
        return drag_background(pull);
    case Thing::panel:
        return drag_panel(pull);
    case Thing::room:
        break;
    }
    return {};
}

} // namespace keystead::ui
