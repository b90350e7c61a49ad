#include "engine/edit/move_subject.h"

#include "engine/edit/set_value.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// Nearer to a wall or to the background than this is refused by the document's ranges.
constexpr double least_gap_m = 0.2;

/// A meter held at the sitter goes where the sitter goes.
bool at_the_body(const Vec3& p) {
    return std::hypot(p.x, p.z) < 0.6;
}

} // namespace

Vec2 allowed_move(const Set& set, const Vec2& by_m) {
    const Room& room = set.room;
    const auto between = [](double wanted, double low, double high) {
        return low > high ? 0.0 : std::clamp(wanted, low, high);
    };
    double back = least_gap_m - room.behind_subject_m;
    if (set.background.kind != BackgroundKind::none)
        back = std::max(back, least_gap_m - set.background.distance_m);
    return {between(by_m.x, least_gap_m - room.left_of_subject_m,
                    room.width_m - room.left_of_subject_m - least_gap_m),
            between(by_m.y, back, room.depth_m - room.behind_subject_m - least_gap_m)};
}

Command move_subject(const Set& set, const Vec2& by_m) {
    Batch batch{"move the subject", {}};
    const auto add = [&](Command command) { batch.commands.emplace_back(std::move(command)); };
    const Vec3 by(by_m.x, 0.0, by_m.y);
    add(set_number("room.left_of_subject_m", set.room.left_of_subject_m + by_m.x));
    add(set_number("room.behind_subject_m", set.room.behind_subject_m + by_m.y));
    if (set.background.kind != BackgroundKind::none) {
        add(set_number("background.distance_m", set.background.distance_m + by_m.y));
        add(set_number("background.offset_m", set.background.offset_m - by_m.x));
    }
    add(set_point("camera.position_m", set.camera.position_m - by));
    for (const Light& light : set.lights) {
        const std::string path = "lights[" + light.id + "].";
        add(set_place(path + "support.base.position_m", light.support.base.position_m - by_m));
        if (light.aim.kind == AimKind::point)
            add(set_point(path + "aim.point_m", light.aim.point_m - by));
    }
    for (const Panel& panel : set.panels) {
        const std::string path = "panels[" + panel.id + "].";
        add(set_point(path + "position_m", panel.position_m - by));
        if (panel.support)
            add(set_place(path + "support.base.position_m", panel.support->base.position_m - by_m));
    }
    for (const Prop& prop : set.props)
        add(set_point("props[" + prop.id + "].position_m", prop.position_m - by));
    for (const MeterPoint& each : set.meter_points)
        if (!at_the_body(each.position_m))
            add(set_point("meter_points[" + each.id + "].position_m", each.position_m - by));
    return batch;
}

} // namespace keystead
