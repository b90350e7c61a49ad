#include "engine/ui/page.h"

#include "engine/ui/gear_outline.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

Vec2 on_plane(const Vec3& p, Plane plane) {
    return plane == Plane::plan ? Vec2(p.x, p.z) : Vec2(p.z, p.y);
}

namespace {

/// Room around what stands in the set.
constexpr double margin_m = 0.35;

/// Header line, gutter for the dimension chain at the left, scale bar below.
Rect drawing_area(const Rect& rect, Plane plane, const Theme& theme) {
    const float left = theme.px(plane == Plane::plan ? 64 : 56),
                top = theme.px(plane == Plane::plan ? 34 : 32);
    const float right = theme.px(16), bottom = theme.px(plane == Plane::plan ? 28 : 14);
    return {rect.x + left, rect.y + top, std::max(40.0F, rect.w - left - right),
            std::max(40.0F, rect.h - top - bottom)};
}

} // namespace

ImVec2 Page::at(const Vec3& p) const {
    return at(on_plane(p, plane));
}

ImVec2 Page::at(const Vec2& p) const {
    const float a = px(p.x), b = px(p.y);
    return plane == Plane::plan ? ImVec2(origin.x + a, origin.y + b)
                                : ImVec2(origin.x - a, origin.y - b);
}

Vec2 Page::plane_point(const ImVec2& p) const {
    const double a = (p.x - origin.x) / px_per_m, b = (p.y - origin.y) / px_per_m;
    return plane == Plane::plan ? Vec2(a, b) : Vec2(-a, -b);
}

ImVec2 Page::along(const Vec3& d) const {
    const Vec2 p = on_plane(d, plane);
    return plane == Plane::plan ? ImVec2(static_cast<float>(p.x), static_cast<float>(p.y))
                                : ImVec2(static_cast<float>(-p.x), static_cast<float>(-p.y));
}

Bounds bounds_of(const Drawn& drawn, Plane plane) {
    Bounds bounds;
    const Set& set = drawn.set;
    const auto add = [&](const Vec3& p) { bounds.add(on_plane(p, plane)); };
    for (std::size_t i = 0; i < set.lights.size(); ++i) {
        const SupportPose& pose = drawn.poses[i];
        for (const Vec3& foot : pose.feet_m) add(foot);
        add(pose.tail_end_m);
        for (const Vec3& p : modifier_points(set.lights[i], pose)) add(p);
        for (const Vec3& p : head_points(set.lights[i], pose)) add(p);
    }
    for (const Panel& panel : set.panels) add(panel.position_m);
    add(set.camera.position_m + Vec3(0.2, 0, 0.3));
    add(set.camera.position_m - Vec3(0.2, 0, 0));
    add(drawn.landmarks.vertex);
    add({0.35, 0, 0.3});
    add({-0.35, 0, -0.3});
    if (set.background.kind != BackgroundKind::none) {
        const Background& b = set.background;
        add({b.offset_m - 0.5 * b.width_m, 0, -b.distance_m});
        add({b.offset_m + 0.5 * b.width_m, b.height_m, -b.distance_m});
    }
    if (plane == Plane::elevation) {
        bounds.add({0.0, 0.0});
        bounds.add({0.0, set.room.ceiling_m});
    }
    return bounds;
}

void keep_fitted(Sheet& sheet, const Drawn& drawn, Plane plane, const Rect& rect, bool frozen) {
    const bool moved = rect.w != sheet.rect.w || rect.h != sheet.rect.h;
    sheet.rect = rect;
    if (frozen) return;
    Bounds now = bounds_of(drawn, plane);
    if (plane == Plane::plan) now.widen(0.12);
    // A little slack both ways: a set that shrank a lot is fitted again, one that barely changed
    // stays where it is.
    const Vec2 had = sheet.fitted.high - sheet.fitted.low, needs = now.high - now.low;
    const bool loose = !sheet.fitted.empty() && (had.x > needs.x + 1.0 && had.y > needs.y + 1.0);
    if (!sheet.fitted.empty() && sheet.fitted.holds(now) && !moved && !loose) return;
    sheet.fitted = now;
    if (plane == Plane::plan)
        sheet.fitted.widen(margin_m);
    else {
        sheet.fitted.low.x -= margin_m;
        sheet.fitted.high.x += margin_m;
        sheet.fitted.low.y -= 0.10;
        sheet.fitted.high.y += 0.10;
    }
}

Page page_of(const Sheet& sheet, Plane plane, const Rect& rect, const Theme& theme,
             const Room& room) {
    const Rect area = drawing_area(rect, plane, theme);
    Bounds shown = sheet.fitted;
    // A room that fits at the same scale is shown whole.
    if (plane == Plane::plan) {
        Bounds whole = shown;
        whole.add({-room.left_of_subject_m - 0.15, -room.behind_subject_m - 0.15});
        whole.add({room.width_m - room.left_of_subject_m + 0.15,
                   room.depth_m - room.behind_subject_m + 0.15});
        const Vec2 a = shown.high - shown.low, b = whole.high - whole.low;
        const double scale_a = std::min(area.w / a.x, area.h / a.y),
                     scale_b = std::min(area.w / b.x, area.h / b.y);
        if (scale_b > 0.93 * scale_a) shown = whole;
    }
    const Vec2 size = glm::max(shown.high - shown.low, Vec2(0.5));
    Page page;
    page.plane = plane;
    page.rect = rect;
    page.px_per_m = std::clamp(std::min(area.w / static_cast<float>(size.x),
                                        area.h / static_cast<float>(size.y)),
                               4.0F, 600.0F * theme.scale) *
                    sheet.zoom;
    const Vec2 middle = 0.5 * (shown.low + shown.high) + sheet.shift_m;
    const float sign = plane == Plane::plan ? 1.0F : -1.0F;
    page.origin.x = std::floor(area.centre_x() - sign * page.px(middle.x) + 0.5F);
    page.origin.y = std::floor(area.centre_y() - sign * page.px(middle.y) + 0.5F);
    return page;
}

} // namespace keystead::ui
