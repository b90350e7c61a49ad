#include "engine/ui/gear_drawing.h"
#include "engine/ui/gear_outline.h"
#include "engine/ui/marks.h"
#include "engine/ui/quantity.h"
#include "engine/ui/type.h"
#include "sim/base/frames.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

constexpr double wall_m = 0.12;

struct Walls {
    double left, right, back, front;
};

Walls walls_of(const Room& r) {
    return {-r.left_of_subject_m, r.width_m - r.left_of_subject_m, -r.behind_subject_m,
            r.depth_m - r.behind_subject_m};
}

void cut_wall(const Drawing& d, const Vec2& low, const Vec2& high) {
    const ImVec2 a = d.page.at(low), b = d.page.at(high);
    const float x0 = std::floor(a.x), y0 = std::floor(a.y), x1 = std::floor(b.x),
                y1 = std::floor(b.y);
    const Points corners{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
    fill_rect(d.pen, {x0, y0, x1 - x0, y1 - y0}, d.colour().wall);
    // Only what is on the sheet: a wall may be far outside.
    const Rect& r = d.page.rect;
    if (x1 < r.x || x0 > r.right() || y1 < r.y || y0 > r.bottom()) return;
    const Points seen{{std::max(x0, r.x), std::max(y0, r.y)},
                      {std::min(x1, r.right()), std::max(y0, r.y)},
                      {std::min(x1, r.right()), std::min(y1, r.bottom())},
                      {std::max(x0, r.x), std::min(y1, r.bottom())}};
    hatch(d.pen, seen, {-45.0F, 5.0F, faded(d.colour().ink2, 0.55F)});
}

void draw_walls(const Drawing& d) {
    const Walls w = walls_of(d.set().room);
    cut_wall(d, {w.left - wall_m, w.back - wall_m}, {w.right + wall_m, w.back});
    cut_wall(d, {w.left - wall_m, w.front}, {w.right + wall_m, w.front + wall_m});
    cut_wall(d, {w.left - wall_m, w.back}, {w.left, w.front});
    cut_wall(d, {w.right, w.back}, {w.right + wall_m, w.front});
    const ImVec2 a = d.page.at(Vec2(w.left, w.back)), b = d.page.at(Vec2(w.right, w.front));
    const ImU32 ink = d.colour().ink;
    line(d.pen, a, {b.x, a.y}, 1.0F, ink);
    line(d.pen, a, {a.x, b.y}, 1.0F, ink);
    line(d.pen, {b.x, a.y}, b, 1.0F, ink);
    line(d.pen, {a.x, b.y}, b, 1.0F, ink);
    d.labels.avoid_line(a, {b.x, a.y});
    d.labels.avoid_line(a, {a.x, b.y});
    d.labels.avoid_line({b.x, a.y}, b);
    d.labels.avoid_line({a.x, b.y}, b);
}

void draw_background(const Drawing& d) {
    const Background& b = d.set().background;
    if (b.kind == BackgroundKind::none) return;
    const Palette& c = d.colour();
    const Selection what{Thing::background, {}};
    const ImU32 ink = d.selected(what) || d.hovered(what) ? c.accent : c.ink;
    const ImVec2 left = d.page.at(Vec2(b.offset_m - 0.5 * b.width_m, -b.distance_m));
    const ImVec2 right = d.page.at(Vec2(b.offset_m + 0.5 * b.width_m, -b.distance_m));
    if (b.kind == BackgroundKind::paper) {
        const Rect roll{left.x, left.y - d.pen.px(4), right.x - left.x, d.pen.px(4)};
        fill_rect(d.pen, roll, c.page);
        line(d.pen, {roll.x, roll.y}, {roll.right(), roll.y}, 1.0F, ink);
        line(d.pen, {roll.x, roll.y}, {roll.x, left.y}, 1.0F, ink);
        line(d.pen, {roll.right(), roll.y}, right, 1.0F, ink);
    }
    line(d.pen, left, right, 2.0F, ink);
    d.labels.avoid_line(left, right);
    d.labels.avoid_line({left.x, left.y - d.pen.px(4)}, {right.x, right.y - d.pen.px(4)});
    if (b.sweep_m > 0.05) {
        const ImVec2 down =
            d.page.at(Vec2(b.offset_m - 0.5 * b.width_m, -b.distance_m + b.sweep_m));
        const Points sweep{left, {left.x, down.y}, {right.x, down.y}, right};
        dashed(d.pen, sweep, false, dash::hidden, 1.0F, c.ink2);
    }
    const ImFont* font = d.pen.theme->font.small;
    const std::string words =
        std::string(b.kind == BackgroundKind::paper ? "paper " : "cloth ") + d.metres(b.width_m);
    const float w = width_of(font, words);
    const Rect about{left.x, left.y - d.pen.px(6), right.x - left.x, d.pen.px(10)};
    const Rect box =
        d.labels.place("background", {0.5F * (left.x + right.x) - 1, about.y, 2, about.h}, w,
                       font->FontSize, d.pen.px(2), {0, -1});
    text_knocked_out(d.pen, font, box.centre_x(), box.centre_y(), ink == c.accent ? ink : c.ink2,
                     words);
}

Points on_page(const Drawing& d, const Outline& outline) {
    Points points;
    for (const Vec2& p : outline) points.push_back(d.page.at(p));
    return points;
}

/// Without a shaped subject: an ellipse of shoulders and one of the head, of average size.
Points oval(const Drawing& d, double rx_m, double rz_m, double turn_deg) {
    return ellipse(d.page.at(Vec2(0.0)), d.page.px(rx_m), d.page.px(rz_m),
                   static_cast<float>(-radians(turn_deg)));
}

void draw_subject(const Drawing& d) {
    const Palette& c = d.colour();
    const Selection what{Thing::subject, {}};
    const bool chosen = d.selected(what);
    const ImU32 ink = chosen || d.hovered(what) ? c.accent : c.ink;
    const Subject& s = d.set().subject;
    const SubjectOutline* shape = d.in.outline;
    const Points body =
        shape != nullptr ? on_page(d, shape->plan_body) : oval(d, 0.235, 0.125, s.body_turn_deg);
    const Points head =
        shape != nullptr ? on_page(d, shape->plan_head) : oval(d, 0.076, 0.098, s.head_turn_deg);
    solid(d.pen, body, {-45.0F, 6.0F, faded(ink, 0.28F)}, 1.5F, ink);
    const Vec3 middle = 0.5 * (d.in.drawn.landmarks.vertex + d.in.drawn.landmarks.menton);
    const Vec3 forward = direction_from({s.head_turn_deg, 0.0}),
               side = Vec3(forward.z, 0.0, -forward.x);
    // The nose is a mark, exaggerated: its true size would vanish at this scale.
    const auto about = [&](double f, double r) {
        return d.page.at(middle + forward * f + side * r);
    };
    const Points nose{about(0.075, -0.034), about(0.15, 0.0), about(0.075, 0.034)};
    solid(d.pen, nose, {}, 1.5F, ink);
    solid(d.pen, head, {}, 1.5F, ink);
    if (shape != nullptr && shape->plan_hair.size() > 2)
        hatch(d.pen, on_page(d, shape->plan_hair), {45.0F, 3.0F, faded(ink, 0.75F)});
    Bounds bounds;
    for (const ImVec2& p : body) bounds.add({p.x, p.y});
    d.labels.avoid({static_cast<float>(bounds.low.x), static_cast<float>(bounds.low.y),
                    static_cast<float>(bounds.high.x - bounds.low.x),
                    static_cast<float>(bounds.high.y - bounds.low.y)});
}

/// Wall – background – subject – camera, in the gutter at the left.
void draw_chain(const Drawing& d) {
    const Palette& c = d.colour();
    const Walls w = walls_of(d.set().room);
    std::vector<double> stops{w.back};
    if (d.set().background.kind != BackgroundKind::none)
        stops.push_back(-d.set().background.distance_m);
    stops.push_back(0.0);
    stops.push_back(d.set().camera.position_m.z);
    std::sort(stops.begin(), stops.end());
    const float outside = d.page.at(Vec2(w.left - wall_m, 0)).x - d.pen.px(24);
    const float x = std::floor(std::max(d.page.rect.x + d.pen.px(30), outside));
    const ImVec2 subject = d.page.at(Vec2(0.0));
    dashed(d.pen, {x + d.pen.px(8), subject.y}, {subject.x - d.page.px(0.3), subject.y},
           dash::chain, 1.0F, faded(c.ink2, 0.6F));
    for (std::size_t i = 0; i + 1 < stops.size(); ++i) {
        const float y0 = d.page.at(Vec2(0, stops[i])).y, y1 = d.page.at(Vec2(0, stops[i + 1])).y;
        const float first = d.page.rect.y + d.pen.px(28), last = d.page.rect.bottom();
        if (y1 - y0 < d.pen.px(3) || y0 < first || y1 > last) continue;
        DimensionLook look{c.ink2, c.ink, true, y1 - y0 > d.pen.px(18)};
        dimension(d.pen, {x, y0}, {x, y1}, d.metres(stops[i + 1] - stops[i]), look);
    }
}

/// Lamp to face, the one free dimension of the sheet.
void draw_distance(const Drawing& d, std::size_t light) {
    const Vec3 lamp = d.in.drawn.poses[light].emitter_m, face = d.in.drawn.landmarks.face;
    ImVec2 a = d.page.at(lamp), b = d.page.at(face);
    const ImVec2 way = unit_of(b - a);
    if (length_of(b - a) < d.pen.px(50)) return;
    const ImVec2 aside = normal_of(way) * d.pen.px(b.x > a.x ? -20 : 20);
    a = a + aside, b = b + aside;
    const ImU32 ink = d.colour().accent;
    const std::string words = d.metres(glm::length(lamp - face));
    dimension(d.pen, a, b, words, {ink, ink, true, true});
    d.labels.avoid_line(a, b);
    const ImVec2 middle = (a + b) * 0.5F;
    d.labels.avoid({middle.x - d.pen.px(16), middle.y - d.pen.px(8), d.pen.px(32), d.pen.px(16)});
}

} // namespace

void draw_plan(const Drawing& d) {
    const auto& lights = d.set().lights;
    draw_walls(d);
    register_obstacles(d);
    draw_chain(d);
    draw_background(d);
    for (std::size_t i = 0; i < lights.size(); ++i) draw_aim(d, i, look_of(d, i));
    draw_subject(d);
    for (const Panel& panel : d.set().panels) draw_panel(d, panel);
    draw_camera(d);
    std::size_t chosen = lights.size();
    const auto draw = [&](std::size_t i) {
        const GearLook look = look_of(d, i);
        draw_stand_plan(d, i, look);
        draw_arm(d, i, look);
        draw_body(d, i, look);
    };
    for (std::size_t i = 0; i < lights.size(); ++i) {
        if (is_light(d.in.selection, lights[i].id))
            chosen = i;
        else
            draw(i);
    }
    if (chosen < lights.size()) {
        draw(chosen);
        draw_distance(d, chosen);
    }
    draw_handles(d);
    for (std::size_t i = 0; i < lights.size(); ++i) draw_tag(d, i);
    const Rect& r = d.page.rect;
    scale_bar(d.pen, {r.right() - d.pen.px(12), r.bottom() - d.pen.px(10)}, d.page.px_per_m);
}

} // namespace keystead::ui
