// A sheet of drawing paper: which plane of the room it shows and at what scale.
#pragma once

#include "engine/ui/drawn.h"
#include "engine/ui/ink.h"

namespace keystead::ui {

enum class Plane { plan, elevation };

/// Plan: page up is the background (−Z), page right is +X. Elevation, seen from camera right: page
/// left is the camera (+Z), page right the background, page up is up.
struct Page {
    Plane plane = Plane::plan;
    Rect rect;
    ImVec2 origin; ///< page point of the room's origin
    float px_per_m = 100.0F;

    ImVec2 at(const Vec3& point_m) const;
    ImVec2 at(const Vec2& plane_m) const;      ///< plan (x, z), elevation (z, y)
    Vec2 plane_point(const ImVec2& px) const;  ///< plan (x, z), elevation (z, y)
    ImVec2 along(const Vec3& direction) const; ///< page direction of a room direction, not unit
    float px(double metres) const { return static_cast<float>(metres) * px_per_m; }
};

/// A point of the room on that plane: plan (x, z), elevation (z, y).
Vec2 on_plane(const Vec3& point_m, Plane plane);

/// Bounds on a plane, metres: plan (x, z), elevation (z, y).
struct Bounds {
    Vec2 low{1e9}, high{-1e9};
    void add(const Vec2& p) {
        low = glm::min(low, p);
        high = glm::max(high, p);
    }
    void widen(double margin_m) {
        low -= Vec2(margin_m);
        high += Vec2(margin_m);
    }
    bool empty() const { return low.x > high.x; }
    bool holds(const Bounds& other) const {
        return other.low.x >= low.x && other.low.y >= low.y && other.high.x <= high.x &&
               other.high.y <= high.y;
    }
};

/// Everything that stands in the set, seen in that plane.
Bounds bounds_of(const Drawn& drawn, Plane plane);

/// What a page shows: kept from frame to frame so that it does not jump while something is dragged.
struct Sheet {
    Bounds fitted; ///< what was fitted last
    float zoom = 1.0F;
    Vec2 shift_m{0.0}; ///< of the middle, plane metres
    Rect rect;         ///< the view it was fitted to
};

/// Fits again when the view changed or something left the sheet, unless `frozen`.
void keep_fitted(Sheet& sheet, const Drawn& drawn, Plane plane, const Rect& rect, bool frozen);
Page page_of(const Sheet& sheet, Plane plane, const Rect& rect, const Theme& theme,
             const Room& room);

} // namespace keystead::ui
