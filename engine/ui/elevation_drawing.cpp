#include "engine/ui/gear_drawing.h"
#include "engine/ui/gear_outline.h"
#include "engine/ui/marks.h"
#include "engine/ui/quantity.h"
#include "engine/ui/type.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

void band(const Drawing& d, float y, float height, bool line_below) {
    const Rect& r = d.page.rect;
    const Rect strip{r.x, std::floor(y), r.w, height};
    fill_rect(d.pen, strip, d.colour().wall);
    const Points corners{{strip.x, strip.y},
                         {strip.right(), strip.y},
                         {strip.right(), strip.bottom()},
                         {strip.x, strip.bottom()}};
    hatch(d.pen, corners, {-45.0F, 5.0F, faded(d.colour().ink2, 0.55F)});
    const float edge = line_below ? strip.bottom() : strip.y;
    line(d.pen, {r.x, edge}, {r.right(), edge}, 1.0F, d.colour().ink);
}

void draw_shell(const Drawing& d) {
    const Room& room = d.set().room;
    const float floor_y = d.page.at(Vec2(0.0, 0.0)).y,
                ceiling_y = d.page.at(Vec2(0.0, room.ceiling_m)).y;
    const float thick = d.pen.px(6);
    const Rect& sheet = d.page.rect;
    d.labels.avoid({sheet.x, floor_y, sheet.w, sheet.h});
    d.labels.avoid({sheet.x, ceiling_y - sheet.h, sheet.w, sheet.h});
    band(d, floor_y, thick, false);
    band(d, ceiling_y - thick, thick, true);
    const ImFont* font = d.pen.theme->font.small;
    const std::string words = "ceiling " + d.metres(room.ceiling_m);
    const float left = d.page.rect.x + d.pen.px(72), cy = ceiling_y + d.pen.px(13);
    const float right = left + width_of(font, words);
    text_knocked_out(d.pen, font, 0.5F * (left + right), cy, d.colour().ink2, words);
    d.labels.avoid({left, cy - d.pen.px(8), right - left, d.pen.px(16)});
    // Back wall, where it is on the sheet.
    const float wall = d.page.at(Vec2(-room.behind_subject_m, 0)).x;
    const bool wall_seen = wall < d.page.rect.right() - 2.0F;
    if (!wall_seen) return;
    d.labels.avoid_line({wall, ceiling_y}, {wall, floor_y});
    line(d.pen, {wall, ceiling_y}, {wall, floor_y}, 1.0F, d.colour().ink2);
}

void draw_background(const Drawing& d) {
    const Background& b = d.set().background;
    if (b.kind == BackgroundKind::none) return;
    const Palette& c = d.colour();
    const Selection what{Thing::background, {}};
    const ImU32 ink = d.selected(what) || d.hovered(what) ? c.accent : c.ink;
    const double z = -b.distance_m,
                 bend = b.sweep_m > 0.05 ? std::min({0.35, b.sweep_m, 0.5 * b.height_m}) : 0.0;
    Points cloth{d.page.at(Vec2(z, b.height_m)), d.page.at(Vec2(z, bend))};
    if (bend > 0.0) {
        for (int i = 1; i <= 10; ++i) {
            const double angle = 0.5 * pi * i / 10.0;
            cloth.push_back(d.page.at(
                Vec2(z + bend * (1.0 - std::cos(angle)), bend * (1.0 - std::sin(angle)))));
        }
        cloth.push_back(d.page.at(Vec2(z + b.sweep_m, 0.0)));
    }
    stroke(d.pen, cloth, false, 2.0F, ink);
    if (b.kind == BackgroundKind::paper) {
        disc(d.pen, cloth[0], std::max(3.0F, d.page.px(0.04)), c.page);
        ring(d.pen, cloth[0], std::max(3.0F, d.page.px(0.04)), 1.4F, ink);
    }
    for (std::size_t i = 0; i + 1 < cloth.size(); ++i) d.labels.avoid_line(cloth[i], cloth[i + 1]);
}

Points on_page(const Drawing& d, const Outline& outline) {
    Points points;
    for (const Vec2& p : outline) points.push_back(d.page.at(p));
    return points;
}

/// Below the modelled torso: where the subject stands or sits, dashed because it is not modelled.
void draw_lower_body(const Drawing& d, ImU32 ink) {
    const SubjectOutline& shape = *d.in.outline;
    if (shape.lowest_m < 0.05) return;
    double front = -1e9, back = 1e9;
    for (const Vec2& p : shape.side)
        if (p.y < shape.lowest_m + 0.06) front = std::max(front, p.x), back = std::min(back, p.x);
    if (front <= back) return;
    if (d.set().subject.posture == Posture::seated) {
        const double seat = d.set().subject.seat_height_m;
        const ImVec2 a = d.page.at(Vec2(0.18, seat)), b = d.page.at(Vec2(-0.18, seat));
        line(d.pen, a, b, 2.0F, ink);
        for (const double z : {0.14, -0.14})
            dashed(d.pen, d.page.at(Vec2(z, seat)), d.page.at(Vec2(z, 0.0)), dash::hidden, 1.0F,
                   ink);
        return;
    }
    dashed(d.pen, d.page.at(Vec2(front, shape.lowest_m)), d.page.at(Vec2(front - 0.02, 0.0)),
           dash::hidden, 1.0F, ink);
    dashed(d.pen, d.page.at(Vec2(back, shape.lowest_m)), d.page.at(Vec2(back + 0.02, 0.0)),
           dash::hidden, 1.0F, ink);
}

void draw_subject(const Drawing& d) {
    const Palette& c = d.colour();
    const Selection what{Thing::subject, {}};
    const ImU32 ink = d.selected(what) || d.hovered(what) ? c.accent : c.ink;
    const double eyes =
        0.5 * (d.in.drawn.landmarks.pupil_left.y + d.in.drawn.landmarks.pupil_right.y);
    const ImVec2 level = d.page.at(Vec2(d.in.drawn.landmarks.pupil_left.z, eyes));
    const float left = d.page.rect.x + d.pen.px(72);
    const std::string words = "eyes " + d.metres(eyes);
    const ImFont* font = d.pen.theme->font.small;
    const float end = left + width_of(font, words) + d.pen.px(8);
    dashed(d.pen, {end, level.y}, {level.x, level.y}, dash::chain, 1.0F, faded(c.ink2, 0.7F));
    text_knocked_out(d.pen, font, left + 0.5F * width_of(font, words), level.y, c.ink2, words);
    d.labels.avoid_line({end, level.y}, {level.x, level.y});
    d.labels.avoid({left, level.y - d.pen.px(8), end - left, d.pen.px(16)});
    if (d.in.outline == nullptr || d.in.outline->side.size() < 3) return;
    draw_lower_body(d, c.ink2);
    const Points body = on_page(d, d.in.outline->side);
    solid(d.pen, body, {-45.0F, 6.0F, faded(ink, 0.28F)}, 1.5F, ink);
    if (d.in.outline->side_hair.size() > 2)
        hatch(d.pen, on_page(d, d.in.outline->side_hair), {45.0F, 3.0F, faded(ink, 0.75F)});
    Bounds bounds;
    for (const ImVec2& p : body) bounds.add({p.x, p.y});
    d.labels.avoid({static_cast<float>(bounds.low.x), static_cast<float>(bounds.low.y),
                    static_cast<float>(bounds.high.x - bounds.low.x),
                    static_cast<float>(bounds.high.y - bounds.low.y)});
}

/// Floor – lamp – ceiling at the left, and the clearance over the body's highest corner.
void draw_heights(const Drawing& d, std::size_t light) {
    const ImU32 ink = d.colour().accent;
    const Light& each = d.set().lights[light];
    const SupportPose& pose = d.in.drawn.poses[light];
    const double lamp = pose.emitter_m.y, ceiling = d.set().room.ceiling_m;
    const float x = d.page.rect.x + d.pen.px(34);
    const float floor_y = d.page.at(Vec2(0, 0)).y, lamp_y = d.page.at(Vec2(0, lamp)).y,
                top_y = d.page.at(Vec2(0, ceiling)).y;
    const ImVec2 at = d.page.at(pose.emitter_m);
    line(d.pen, {x, lamp_y}, {at.x, lamp_y}, 1.0F, faded(ink, 0.45F));
    const float least = d.pen.px(18);
    dimension(d.pen, {x, floor_y}, {x, lamp_y}, d.metres(lamp),
              {ink, ink, true, floor_y - lamp_y > least});
    dimension(d.pen, {x, lamp_y}, {x, top_y}, d.metres(ceiling - lamp),
              {ink, ink, true, lamp_y - top_y > least});
    std::vector<Vec3> body = modifier_points(each, pose);
    for (const Vec3& p : head_points(each, pose)) body.push_back(p);
    const Vec3 highest = *std::max_element(body.begin(), body.end(),
                                           [](const Vec3& a, const Vec3& b) { return a.y < b.y; });
    const ImVec2 corner = d.page.at(highest);
    if (corner.y - top_y > d.pen.px(6))
        dimension(d.pen, {corner.x, top_y}, corner, {}, {ink, ink, false, false});
    const std::string words = highest.y > ceiling
                                  ? d.metres(highest.y - ceiling) + " through the ceiling"
                                  : d.metres(ceiling - highest.y) + " clear";
    const ImFont* font = d.pen.theme->font.small_medium;
    const Rect about{corner.x - 2, top_y + d.pen.px(4), 4,
                     std::max(4.0F, corner.y - top_y - d.pen.px(8))};
    const Rect box = d.labels.place("clearance", about, width_of(font, words), font->FontSize,
                                    d.pen.px(6), {1, 0});
    text_knocked_out(d.pen, font, box.centre_x(), box.centre_y(),
                     highest.y > ceiling ? d.colour().danger : ink, words);
}

/// Height of a light under the pointer that is not the selected one.
void draw_hovered_height(const Drawing& d, std::size_t light) {
    const SupportPose& pose = d.in.drawn.poses[light];
    const ImVec2 at = d.page.at(pose.emitter_m),
                 down = d.page.at(Vec3(pose.emitter_m.x, 0.0, pose.emitter_m.z));
    dimension(d.pen, {at.x, down.y}, at, d.metres(pose.emitter_m.y),
              {d.colour().ink2, d.colour().ink, false, true});
}

} // namespace

void draw_elevation(const Drawing& d) {
    const auto& lights = d.set().lights;
    draw_shell(d);
    register_obstacles(d);
    draw_background(d);
    draw_subject(d);
    for (const Panel& panel : d.set().panels) draw_panel(d, panel);
    draw_camera(d);
    for (std::size_t i = 0; i < lights.size(); ++i) draw_aim(d, i, look_of(d, i));
    std::size_t chosen = lights.size();
    const auto draw = [&](std::size_t i) {
        const GearLook look = look_of(d, i);
        draw_stand_elevation(d, i, look);
        draw_arm(d, i, look);
        draw_body(d, i, look);
    };
    for (std::size_t i = 0; i < lights.size(); ++i) {
        if (is_light(d.in.selection, lights[i].id))
            chosen = i;
        else
            draw(i);
    }
    for (std::size_t i = 0; i < lights.size(); ++i)
        if (i != chosen && d.hovered({Thing::light, lights[i].id})) draw_hovered_height(d, i);
    if (chosen < lights.size()) {
        draw(chosen);
        draw_heights(d, chosen);
    }
    draw_handles(d);
    for (std::size_t i = 0; i < lights.size(); ++i) draw_tag(d, i);
}

} // namespace keystead::ui
