// Camera and panels on a drawing sheet.
#include "engine/ui/gear_drawing.h"
#include "engine/ui/gear_outline.h"
#include "engine/ui/quantity.h"
#include "engine/ui/type.h"
#include "sim/transport/view.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

/// Feet of the camera's tripod: a sketch, its statics are not computed.
void tripod(const Drawing& d, const Vec3& eye, ImU32 ink) {
    const bool plan = d.page.plane == Plane::plan;
    const double spread = plan ? 0.32 : 0.30 * std::min(1.0, eye.y / 1.4);
    for (const double azimuth : {60.0, 180.0, 300.0}) {
        const Vec3 foot(eye.x + spread * std::sin(radians(azimuth)), 0.0,
                        eye.z + spread * std::cos(radians(azimuth)));
        line(d.pen, d.page.at(eye - Vec3(0, plan ? 0.0 : 0.10, 0)), d.page.at(foot), 1.0F, ink);
    }
}

/// The two edges of the picture, from the lens to the background (or the back wall).
void field(const Drawing& d, const Camera& camera, ImU32 ink) {
    const bool upright = camera.orientation == Orientation::upright;
    const int wide = upright ? 1000 : 1500, high = upright ? 1500 : 1000;
    const View view = lens_view(camera, wide, high);
    const bool plan = d.page.plane == Plane::plan;
    const Background& b = d.set().background;
    const double far =
        b.kind == BackgroundKind::none ? -d.set().room.behind_subject_m : -b.distance_m;
    for (const double side : {-1.0, 1.0}) {
        const Vec3 edge = plan ? view.axes[0] * (side * view.tan_half_width)
                               : view.axes[1] * (side * view.tan_half_height);
        const Vec3 ray = edge - view.axes[2];
        if (ray.z > -0.05) continue;
        Vec3 end = camera.position_m + ray * ((far - camera.position_m.z) / ray.z);
        if (!plan && end.y < 0.0) end = camera.position_m + ray * (-camera.position_m.y / ray.y);
        dashed(d.pen, d.page.at(camera.position_m), d.page.at(end), dash::chain, 1.0F, ink);
        if (plan) d.labels.avoid_line(d.page.at(camera.position_m), d.page.at(end));
    }
}

} // namespace

void draw_camera(const Drawing& d) {
    const Camera& camera = d.set().camera;
    const Palette& c = d.colour();
    const Selection what{Thing::camera, {}};
    const bool chosen = d.selected(what) || d.hovered(what);
    const ImU32 ink = chosen ? c.accent : c.ink;
    if (d.page.plane == Plane::plan || chosen)
        field(d, camera, chosen ? faded(c.accent, 0.7F) : c.ink2);
    tripod(d, camera.position_m, c.ink2);
    const ImVec2 eye = d.page.at(camera.position_m);
    ImVec2 way = unit_of(d.page.along(camera.aim_m - camera.position_m));
    if (length_of(way) < 0.5F) way = {0, -1};
    const float body = std::max(d.pen.px(6), d.page.px(0.07)),
                lens = std::max(d.pen.px(4), d.page.px(0.045));
    const ImVec2 back = eye - way * (1.2F * body);
    solid(d.pen, bar(back - way * (0.9F * body), back, 2.0F * body), {}, 1.4F, ink);
    solid(d.pen, bar(back, eye, 1.5F * lens), {}, 1.4F, ink);
    const Rect about{back.x - body * 1.4F, back.y - body * 1.4F, 2.8F * body, 2.8F * body};
    d.labels.avoid(about);
    if (d.page.plane == Plane::elevation && !chosen) return;
    const ImFont* font = d.pen.theme->font.small;
    const std::string words = d.page.plane == Plane::plan
                                  ? "camera " + number_text(camera.focal_length_mm, 0) + " mm"
                                  : "lens " + d.metres(camera.position_m.y);
    const Rect box =
        d.labels.place("camera", about, width_of(font, words), font->FontSize, d.pen.px(8), {1, 0});
    text_knocked_out(d.pen, font, box.centre_x(), box.centre_y(), chosen ? c.accent : c.ink2,
                     words);
}

void draw_panel(const Drawing& d, const Panel& panel) {
    const Palette& c = d.colour();
    const Selection what{Thing::panel, panel.id};
    const bool chosen = d.selected(what) || d.hovered(what);
    const ImU32 ink = chosen ? c.accent : c.ink;
    const Points corners = projected(d.page, panel_points(panel));
    if (d.page.plane == Plane::elevation) {
        const Points hull = hull_of(corners);
        if (hull.size() >= 3) {
            dashed(d.pen, hull, true, dash::hidden, 1.0F, ink);
            for (std::size_t i = 0; i < hull.size(); ++i)
                d.labels.avoid_line(hull[i], hull[(i + 1) % hull.size()]);
        }
    } else {
        stroke(d.pen, std::span(corners).first(3), false, 3.0F, ink);
        // Twice: a label across a flat hides where it stands.
        for (int twice = 0; twice < 2; ++twice)
            for (std::size_t i = 0; i < 2; ++i) d.labels.avoid_line(corners[i], corners[i + 1]);
    }
    if (d.page.plane == Plane::elevation && !chosen) return;
    Bounds bounds;
    for (const ImVec2& p : corners) bounds.add({p.x, p.y});
    const Rect about{static_cast<float>(bounds.low.x), static_cast<float>(bounds.low.y),
                     static_cast<float>(bounds.high.x - bounds.low.x),
                     static_cast<float>(bounds.high.y - bounds.low.y)};
    const ImFont* font = d.pen.theme->font.small;
    const Rect box = d.labels.place(
        panel.id + "/name", about, width_of(font, panel.id), font->FontSize, d.pen.px(6),
        ImVec2(about.centre_x(), about.centre_y()) - d.page.at(Vec2(0.0)));
    text_knocked_out(d.pen, font, box.centre_x(), box.centre_y(), chosen ? c.accent : c.ink2,
                     panel.id);
}

} // namespace keystead::ui
