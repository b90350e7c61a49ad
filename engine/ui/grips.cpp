#include "engine/ui/grips.h"

#include "engine/ui/aim_point.h"
#include "engine/ui/gear_outline.h"
#include "sim/base/frames.h"

#include <algorithm>

namespace keystead::ui {

namespace {

Points circle(const Page& page, const Vec3& centre, double radius_m) {
    const float r = page.px(radius_m);
    return ellipse(page.at(centre), r, r, 0.0F, 16);
}

Points outline_px(const Page& page, const Outline& outline_m) {
    Points points;
    for (const Vec2& p : outline_m) points.push_back(page.at(p));
    return points;
}

Points footprint(const Page& page, const SupportPose& pose) {
    Points feet = projected(page, pose.feet_m);
    if (page.plane == Plane::elevation) feet.push_back(page.at(pose.hub_m));
    return hull_of(feet);
}

void add_light(std::vector<Grip>& grips, const Drawn& drawn, const Page& page, std::size_t i) {
    const Light& light = drawn.set.lights[i];
    const SupportPose& pose = drawn.poses[i];
    const Selection what{Thing::light, light.id};
    std::vector<Vec3> body = modifier_points(light, pose);
    const std::vector<Vec3> head = head_points(light, pose);
    body.insert(body.end(), head.begin(), head.end());
    grips.push_back(
        {GripKind::body, what, 0, hull_of(projected(page, body)), page.at(pose.tip_m), 8.0F});
    if (page.plane == Plane::plan)
        for (std::size_t leg = 0; leg < pose.feet_m.size(); ++leg)
            grips.push_back(
                {GripKind::leg, what, static_cast<int>(leg), {}, page.at(pose.feet_m[leg]), 7.0F});
    else
        grips.push_back({GripKind::column, what, 0,
                         bar(page.at(pose.hub_m), page.at(pose.column_top_m), 14.0F),
                         page.at(pose.column_top_m), 9.0F});
    grips.push_back({GripKind::base, what, 0, footprint(page, pose), page.at(pose.hub_m), 10.0F});
}

void add_subject(std::vector<Grip>& grips, const Drawn& drawn, const SubjectOutline* outline,
                 const Page& page) {
    const Selection what{Thing::subject, {}};
    if (page.plane == Plane::plan)
        grips.push_back({GripKind::sitter, what, 0, {}, page.at(sitter_handle_m(drawn.set)), 9.0F});
    const Vec3 head = 0.5 * (drawn.landmarks.vertex + drawn.landmarks.menton);
    grips.push_back({GripKind::head, what, 0, circle(page, head, 0.16), {}, 0.0F});
    if (outline != nullptr)
        grips.push_back(
            {page.plane == Plane::plan ? GripKind::shoulders : GripKind::sitter,
             what,
             0,
             outline_px(page, page.plane == Plane::plan ? outline->plan_body : outline->side),
             {},
             0.0F});
}

void add_background(std::vector<Grip>& grips, const Set& set, const Page& page) {
    const Background& b = set.background;
    if (b.kind == BackgroundKind::none) return;
    const Vec3 a(b.offset_m - 0.5 * b.width_m, 0.0, -b.distance_m);
    const Vec3 end =
        page.plane == Plane::plan ? a + Vec3(b.width_m, 0, 0) : a + Vec3(0, b.height_m, 0);
    grips.push_back({GripKind::background,
                     {Thing::background, {}},
                     0,
                     bar(page.at(a), page.at(end), 10.0F),
                     {},
                     0.0F});
}

/// What it looks at: small, and on top of what it looks at.
void add_aim(std::vector<Grip>& grips, const Drawn& drawn, const Page& page,
             const Selection& selection) {
    const auto add = [&](const Selection& what, const Vec3& from, const Vec3& target) {
        Grip grip{GripKind::aim, what, 0, {}, page.at(aim_handle(from, target)), 8.0F};
        grip.near_m = 10.0 / static_cast<double>(page.px_per_m);
        grips.push_back(std::move(grip));
    };
    if (selection.thing == Thing::camera)
        add(selection, drawn.set.camera.position_m, drawn.set.camera.aim_m);
    const auto index = light_index(drawn.set, selection.id);
    if (selection.thing != Thing::light || !index) return;
    const Light& light = drawn.set.lights[*index];
    const SupportPose& pose = drawn.poses[*index];
    if (light.on) add(selection, pose.emitter_m, aim_point(light, pose, drawn.landmarks));
}

} // namespace

Vec2 sitter_handle_m(const Set& set) {
    const Vec3 back = direction_from({set.subject.body_turn_deg + 180.0, 0.0});
    return 0.30 * Vec2(back.x, back.z);
}

std::vector<Grip> grips_of(const Drawn& drawn, const SubjectOutline* outline, const Page& page,
                           const Selection& selection) {
    std::vector<Grip> grips;
    const Set& set = drawn.set;
    add_aim(grips, drawn, page, selection);
    // The selected light is drawn last and so is on top.
    for (std::size_t i = 0; i < set.lights.size(); ++i)
        if (is_light(selection, set.lights[i].id)) add_light(grips, drawn, page, i);
    for (std::size_t i = set.lights.size(); i-- > 0;)
        if (!is_light(selection, set.lights[i].id)) add_light(grips, drawn, page, i);
    grips.push_back({GripKind::camera,
                     {Thing::camera, {}},
                     0,
                     circle(page, set.camera.position_m, 0.16),
                     page.at(set.camera.position_m),
                     12.0F});
    add_subject(grips, drawn, outline, page);
    for (const Panel& panel : set.panels) {
        const Points corners = projected(page, panel_points(panel));
        Grip grip{GripKind::panel,  {Thing::panel, panel.id},  0,
                  hull_of(corners), page.at(panel.position_m), 10.0F};
        if (page.plane == Plane::plan && corners.size() >= 3) {
            grip.outline = bar(corners[0], corners[1], 12.0F);
            Grip other = grip;
            other.outline = bar(corners[1], corners[2], 12.0F);
            grips.push_back(other);
        }
        grips.push_back(grip);
    }
    add_background(grips, set, page);
    return grips;
}

std::optional<Grip> grip_at(const std::vector<Grip>& grips, const ImVec2& pointer) {
    for (const Grip& grip : grips) {
        if (grip.radius > 0.0F && length_of(pointer - grip.spot) <= grip.radius) return grip;
        if (grip.outline.size() >= 3 && inside(grip.outline, pointer)) return grip;
    }
    return std::nullopt;
}

} // namespace keystead::ui
