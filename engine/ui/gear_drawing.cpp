#include "engine/ui/gear_drawing.h"

#include "engine/ui/aim_point.h"
#include "engine/ui/gear_outline.h"
#include "engine/ui/marks.h"
#include "engine/ui/quantity.h"
#include "engine/ui/type.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace keystead::ui {

GearLook look_of(const Drawing& d, std::size_t light) {
    const Palette& c = d.colour();
    const Light& each = d.set().lights[light];
    GearLook look;
    look.selected = is_light(d.in.selection, each.id);
    look.ink = look.selected ? c.accent : each.on ? c.ink : c.ink2;
    look.ink2 = look.selected ? c.accent : c.ink2;
    look.body_width = look.selected ? 1.8F : 1.4F;
    return look;
}

namespace {

/// A label that covers more than this is left out.
constexpr float crowded_cost = 7.0F;

float page_angle(const Drawing& d, const Vec3& direction) {
    const ImVec2 v = d.page.along(direction);
    return length_of(v) > 1e-4F ? std::atan2(v.y, v.x) : 0.0F;
}

/// A tube drawn as an outlined bar, or as one line where the scale is too small.
void tube(const Drawing& d, const ImVec2& a, const ImVec2& b, double width_m, ImU32 ink) {
    const float width = d.page.px(width_m);
    if (width < 2.6F) return line(d.pen, a, b, 1.4F, ink);
    const Points outline = bar(a, b, width);
    fill_convex(d.pen, outline, d.colour().page);
    stroke(d.pen, outline, true, 1.0F, ink);
}

void wheel(const Drawing& d, const ImVec2& hub, const ImVec2& foot, const Base& base, ImU32 ink) {
    const ImVec2 out = unit_of(foot - hub);
    const ImVec2 at = foot + normal_of(out) * d.page.px(0.6 * base.caster_offset_m);
    fill_convex(d.pen,
                bar(at - out * d.page.px(0.035), at + out * d.page.px(0.035),
                    std::max(2.5F, d.page.px(0.032))),
                ink);
}

void bags(const Drawing& d, std::size_t light, const GearLook& look) {
    const Light& each = d.set().lights[light];
    const SupportPose& pose = d.in.drawn.poses[light];
    for (std::size_t i = 0; i < pose.bags_m.size(); ++i) {
        const bool hanging = each.support.bags[i].hanging, plan = d.page.plane == Plane::plan;
        const ImVec2 at = d.page.at(pose.bags_m[i]);
        const float rx = std::max(4.0F, d.page.px(plan ? 0.13 : 0.09));
        const float ry = std::max(2.5F, d.page.px(plan ? 0.08 : hanging ? 0.11 : 0.05));
        solid(d.pen, ellipse(at, rx, ry, plan ? 0.35F : 0.0F, 18),
              {20.0F, 3.0F, faded(look.ink2, hanging ? 1.0F : 0.4F)}, 1.0F, look.ink2);
        if (look.selected && plan && d.page.px_per_m > 60.0F) {
            const std::string words =
                in_units(number_text(each.support.bags[i].mass_kg, 1) + " kg", d.pen.theme->units);
            const ImFont* font = d.pen.theme->font.small;
            const Rect box = d.labels.place(
                each.id + "/bag" + std::to_string(i), {at.x - rx, at.y - ry, 2 * rx, 2 * ry},
                width_of(font, words), font->FontSize, d.pen.px(4), at - d.page.at(pose.hub_m));
            text_knocked_out(d.pen, font, box.centre_x(), box.centre_y(), look.ink2, words);
        }
    }
}

/// From the emitting face to a little before what it looks at; none when off or too short.
std::optional<std::pair<ImVec2, ImVec2>> aim_line(const Drawing& d, std::size_t light) {
    const Light& each = d.set().lights[light];
    const SupportPose& pose = d.in.drawn.poses[light];
    if (!each.on) return std::nullopt;
    double length = 1.2;
    Vec3 target(0.0);
    if (each.aim.kind == AimKind::point) target = each.aim.point_m;
    if (each.aim.kind == AimKind::landmark &&
        !find_landmark(d.in.drawn.landmarks, each.aim.landmark, target))
        target = d.in.drawn.landmarks.face;
    if (each.aim.kind != AimKind::angles) length = glm::length(target - pose.emitter_m) - 0.27;
    if (length < 0.2) return std::nullopt;
    const ImVec2 a = d.page.at(pose.emitter_m);
    const ImVec2 b = d.page.at(pose.emitter_m + length * pose.beam_direction);
    if (length_of(b - a) < d.pen.px(16)) return std::nullopt;
    return std::pair{a, b};
}

std::vector<Vec3> whole_body(const Light& light, const SupportPose& pose) {
    std::vector<Vec3> all = modifier_points(light, pose);
    const std::vector<Vec3> head = head_points(light, pose);
    all.insert(all.end(), head.begin(), head.end());
    return all;
}

Rect box_of(const Points& points) {
    Bounds bounds;
    for (const ImVec2& p : points) bounds.add({p.x, p.y});
    return {static_cast<float>(bounds.low.x), static_cast<float>(bounds.low.y),
            static_cast<float>(bounds.high.x - bounds.low.x),
            static_cast<float>(bounds.high.y - bounds.low.y)};
}

} // namespace

void register_obstacles(const Drawing& d) {
    for (std::size_t i = 0; i < d.set().lights.size(); ++i) {
        const SupportPose& pose = d.in.drawn.poses[i];
        const ImVec2 hub = d.page.at(pose.hub_m);
        for (const Vec3& foot : pose.feet_m) d.labels.avoid_line(hub, d.page.at(foot));
        if (d.page.plane == Plane::elevation)
            d.labels.avoid_line(hub, d.page.at(pose.column_top_m));
        if (d.set().lights[i].support.arm)
            d.labels.avoid_line(d.page.at(pose.tip_m), d.page.at(pose.tail_end_m));
        if (const auto ends = aim_line(d, i)) d.labels.avoid_line(ends->first, ends->second);
        d.labels.avoid(inset(box_of(projected(d.page, whole_body(d.set().lights[i], pose))), 3.0F));
    }
}

void draw_stand_plan(const Drawing& d, std::size_t light, const GearLook& look) {
    const Support& support = d.set().lights[light].support;
    const SupportPose& pose = d.in.drawn.poses[light];
    const ImVec2 hub = d.page.at(pose.hub_m);
    const Points feet = projected(d.page, pose.feet_m);
    if (look.selected) {
        Points polygon;
        for (const Vec2& p : d.in.drawn.stability[light].polygon_m) polygon.push_back(d.page.at(p));
        fill_shape(d.pen, polygon, faded(d.colour().accent, 0.10F));
        if (polygon.size() > 2) dashed(d.pen, polygon, true, dash::polygon, 1.0F, look.ink);
    }
    for (const ImVec2& foot : feet) {
        tube(d, hub, foot, support.base.wheels ? 0.035 : 0.022, look.ink2);
        const ImVec2 across = normal_of(unit_of(foot - hub)) * d.page.px(0.03);
        if (support.base.wheels)
            wheel(d, hub, foot, support.base, look.ink2);
        else
            line(d.pen, foot - across, foot + across, 2.0F, look.ink2);
    }
    bags(d, light, look);
    const float r = std::max(2.5F, d.page.px(0.6 * support.column.tube_diameter_m));
    disc(d.pen, hub, r, d.colour().page);
    ring(d.pen, hub, r, look.selected ? 1.8F : 1.2F, look.ink);
    const Stability& s = d.in.drawn.stability[light];
    if (look.selected && d.page.px_per_m > 84.0F)
        plumb_mark(d.pen, d.page.at(Vec3(s.com_m.x, 0.0, s.com_m.z)), 4.0F, look.ink,
                   d.colour().page);
}

void draw_stand_elevation(const Drawing& d, std::size_t light, const GearLook& look) {
    const Support& support = d.set().lights[light].support;
    const SupportPose& pose = d.in.drawn.poses[light];
    const ImVec2 hub = d.page.at(pose.hub_m), top = d.page.at(pose.column_top_m);
    for (const Vec3& foot_m : pose.feet_m) {
        const ImVec2 foot = d.page.at(foot_m);
        if (!support.base.wheels) {
            line(d.pen, hub, foot, 1.0F, look.ink2);
            continue;
        }
        // Wheeled legs run low, from the hub's foot to the pivot above the wheel.
        const float wheel_radius = std::max(2.0F, d.page.px(0.035));
        const ImVec2 pivot{foot.x, foot.y - 2.2F * wheel_radius};
        tube(d, {hub.x, pivot.y - d.page.px(0.03)}, pivot, 0.03, look.ink2);
        ring(d.pen, {foot.x, foot.y - wheel_radius}, wheel_radius, 1.2F, look.ink2);
    }
    const int sections = std::clamp(support.column.sections, 1, 5);
    for (int i = 0; i < sections; ++i) {
        const float t0 = static_cast<float>(i) / static_cast<float>(sections),
                    t1 = static_cast<float>(i + 1) / static_cast<float>(sections);
        const ImVec2 start =
            support.base.wheels ? ImVec2(hub.x, d.page.at(Vec3(pose.hub_m.x, 0.09, pose.hub_m.z)).y)
                                : hub;
        const ImVec2 a = start + (top - start) * t0, b = start + (top - start) * t1;
        tube(d, a, b, support.column.tube_diameter_m * (1.0 - 0.18 * i), look.ink);
        if (i > 0)
            fill_rect(d.pen,
                      {std::floor(a.x - d.pen.px(3)), std::floor(a.y - d.pen.px(2)), d.pen.px(6),
                       d.pen.px(4)},
                      look.ink);
    }
    bags(d, light, look);
}

void draw_arm(const Drawing& d, std::size_t light, const GearLook& look) {
    const auto& arm = d.set().lights[light].support.arm;
    if (!arm) return;
    const SupportPose& pose = d.in.drawn.poses[light];
    const ImVec2 tip = d.page.at(pose.tip_m), tail = d.page.at(pose.tail_end_m),
                 pivot = d.page.at(pose.column_top_m);
    tube(d, tail, tip, 0.032, look.ink);
    disc(d.pen, pivot, std::max(2.5F, d.page.px(0.028)), look.ink);
    if (!arm->counterweight || arm->counterweight->mass_kg <= 0.0) return;
    const ImVec2 at = d.page.at(pose.counterweight_m), along = unit_of(tip - tail);
    const float half = std::max(3.0F, d.page.px(0.06));
    if (length_of(tip - tail) > 4.0F)
        fill_convex(d.pen, bar(at - along * half, at + along * half, 1.5F * half), look.ink);
    else
        disc(d.pen, at, half, look.ink);
}

void draw_body(const Drawing& d, std::size_t light, const GearLook& look) {
    const Light& each = d.set().lights[light];
    const SupportPose& pose = d.in.drawn.poses[light];
    const float axis_deg = page_angle(d, pose.beam_direction) * 57.29578F;
    const Hatch how{axis_deg + 45.0F, 4.0F, faded(look.ink, look.selected ? 0.75F : 0.6F)};
    solid(d.pen, hull_of(projected(d.page, head_points(each, pose))), {}, look.body_width,
          look.ink);
    const Points body = hull_of(projected(d.page, modifier_points(each, pose)));
    if (body.size() < 3) return;
    if (each.modifier.shape == ModifierShape::umbrella) {
        line(d.pen, d.page.at(pose.tip_m), d.page.at(pose.emitter_m), 1.4F, look.ink);
        solid(d.pen, body, how, look.body_width, look.ink);
    } else {
        solid(d.pen, body, how, look.body_width, look.ink);
    }
    // The lit face, heavier; seen edge-on it is a line.
    const Points face = hull_of(projected(d.page, face_points(each, pose)));
    if (face.size() >= 3)
        stroke(d.pen, face, true, look.selected ? 2.2F : 2.0F, look.ink);
    else if (face.size() == 2)
        line(d.pen, face[0], face[1], 2.5F, look.ink);
}

void draw_aim(const Drawing& d, std::size_t light, const GearLook& look) {
    const auto ends = aim_line(d, light);
    if (!ends) return;
    const auto [a, b] = *ends;
    dashed(d.pen, a, b, dash::aim, 1.0F, look.selected ? look.ink : d.colour().ink2);
    arrow_head(d.pen, b, b - a, look.selected ? look.ink : d.colour().ink2);
}

void draw_handles(const Drawing& d) {
    const Selection& picked = d.in.selection;
    const ImU32 accent = d.colour().accent;
    const auto cross = [&](const ImVec2& at, float reach) {
        line(d.pen, {at.x - d.pen.px(reach), at.y}, {at.x + d.pen.px(reach) + 1, at.y}, 1.0F,
             accent);
        line(d.pen, {at.x, at.y - d.pen.px(reach)}, {at.x, at.y + d.pen.px(reach) + 1}, 1.0F,
             accent);
    };
    const auto target = [&](const Vec3& from, const Vec3& point) {
        const ImVec2 at = d.page.at(aim_handle(from, point)), end = d.page.at(point);
        const ImVec2 whole{std::floor(at.x), std::floor(at.y)};
        dashed(d.pen, whole, end, dash::polygon, 1.0F, faded(accent, 0.7F));
        disc(d.pen, whole, d.pen.px(4.5F), d.colour().page);
        ring(d.pen, whole, d.pen.px(4.5F), 1.4F, accent);
        cross(whole, 7.0F);
    };
    if (picked.thing == Thing::camera) target(d.set().camera.position_m, d.set().camera.aim_m);
    const auto index = light_index(d.set(), picked.id);
    if (picked.thing == Thing::light && index && d.set().lights[*index].on) {
        const SupportPose& pose = d.in.drawn.poses[*index];
        target(pose.emitter_m, aim_point(d.set().lights[*index], pose, d.in.drawn.landmarks));
    }
    if (picked.thing != Thing::subject || d.page.plane != Plane::plan) return;
    const ImVec2 at = d.page.at(sitter_handle_m(d.set())),
                 whole{std::floor(at.x), std::floor(at.y)};
    disc(d.pen, whole, d.pen.px(8), d.colour().page);
    cross(whole, 6.0F);
    for (const ImVec2& way : {ImVec2(1, 0), ImVec2(-1, 0), ImVec2(0, 1), ImVec2(0, -1)})
        arrow_head(d.pen, whole + way * d.pen.px(9), way, accent);
}

void draw_tag(const Drawing& d, std::size_t light) {
    const Light& each = d.set().lights[light];
    const SupportPose& pose = d.in.drawn.poses[light];
    const Selection what{Thing::light, each.id};
    TagLook look;
    look.selected = d.selected(what), look.hovered = d.hovered(what), look.muted = !each.on;
    const std::vector<Vec3> all = whole_body(each, pose);
    const Rect about = box_of(projected(d.page, all));
    bool words = !each.role.empty() &&
                 (d.page.px_per_m > 45.0F * d.pen.theme->scale || look.selected || look.hovered);
    const ImFont* font = d.pen.theme->font.small;
    const float size = d.pen.px(24);
    float text = words ? width_of(font, each.role) + d.pen.px(6) : 0.0F;
    const ImVec2 outward =
        ImVec2(about.centre_x(), about.centre_y()) - d.page.at(Vec3(0, pose.tip_m.y, 0));
    Rect box = d.labels.place(each.id + "/tag", about, size + text, size, d.pen.px(6), outward);
    // Where the role would cover too much, the letter has to do.
    if (words && !look.selected && !look.hovered && d.labels.last_cost() > crowded_cost) {
        d.labels.forget_last();
        words = false, text = 0.0F;
        box = d.labels.place(each.id + "/letter", about, size, size, d.pen.px(6), outward);
    }
    // Words on the side away from the body, so that the leader reaches the letter.
    const bool right = box.centre_x() >= about.centre_x();
    const ImVec2 centre{right ? box.x + 0.5F * size : box.right() - 0.5F * size, box.centre_y()};
    const ImVec2 middle{about.centre_x(), about.centre_y()};
    const ImVec2 way = unit_of(centre - middle);
    const Points hull = hull_of(projected(d.page, all));
    ImVec2 edge = centre - way * d.pen.px(11);
    while (length_of(edge - middle) > 2.0F && !inside(hull, edge)) edge = edge - way;
    if (length_of(edge - centre) > d.pen.px(12))
        line(d.pen, edge, centre - way * d.pen.px(9), 1.0F,
             look.selected ? d.colour().accent : d.colour().ink2);
    if (words) {
        const float x = right ? box.x + size + d.pen.px(2) : box.x;
        fill_rect(d.pen,
                  {x - d.pen.px(1), centre.y - d.pen.px(8), text - d.pen.px(4), d.pen.px(16)},
                  d.colour().page);
        text_at(d.pen, font, x, centre.y, look.selected ? d.colour().accent : d.colour().ink2,
                each.role);
    }
    tag(d.pen, centre, letter_of(light), look);
}

} // namespace keystead::ui
