// Drawing primitives: crisp lines, dashes, hatch, knocked-out shapes. Points are framebuffer
// pixels; widths and lengths of dashes are logical pixels.
#pragma once

#include "engine/ui/layout.h"
#include "engine/ui/theme.h"

#include <span>
#include <vector>

namespace keystead::ui {

using Points = std::vector<ImVec2>;

/// Where and how something is drawn; passed by value, holds no state of its own.
struct Pen {
    ImDrawList* list = nullptr;
    const Theme* theme = nullptr;

    float px(float logical) const { return theme->px(logical); }
    const Palette& colour() const { return theme->colour; }
};

inline ImVec2 operator+(const ImVec2& a, const ImVec2& b) {
    return {a.x + b.x, a.y + b.y};
}
inline ImVec2 operator-(const ImVec2& a, const ImVec2& b) {
    return {a.x - b.x, a.y - b.y};
}
inline ImVec2 operator*(const ImVec2& a, float k) {
    return {a.x * k, a.y * k};
}
float length_of(const ImVec2& v);
ImVec2 unit_of(const ImVec2& v); ///< zero stays zero
inline ImVec2 normal_of(const ImVec2& v) {
    return {-v.y, v.x};
}

/// Alternating lengths of stroke and gap.
namespace dash {
inline constexpr float aim[] = {9, 3, 2, 3};
inline constexpr float chain[] = {12, 3, 2, 3};
inline constexpr float hidden[] = {6, 3};
inline constexpr float polygon[] = {3, 3};
inline constexpr float arm[] = {4, 3};
inline constexpr float dots[] = {1, 3};
} // namespace dash

void fill_rect(Pen pen, const Rect& rect, ImU32 colour, float radius = 0.0F);
void frame_rect(Pen pen, const Rect& rect, ImU32 colour, float radius, float width = 1.0F);
/// Pixel rectangles when level or upright, anti-aliased otherwise.
void line(Pen pen, const ImVec2& a, const ImVec2& b, float width, ImU32 colour);
void dashed(Pen pen, const ImVec2& a, const ImVec2& b, std::span<const float> pattern, float width,
            ImU32 colour);
void dashed(Pen pen, std::span<const ImVec2> points, bool closed, std::span<const float> pattern,
            float width, ImU32 colour);
void stroke(Pen pen, std::span<const ImVec2> points, bool closed, float width, ImU32 colour);
/// Convex points in either winding.
void fill_convex(Pen pen, std::span<const ImVec2> points, ImU32 colour);
/// Any simple polygon.
void fill_shape(Pen pen, std::span<const ImVec2> points, ImU32 colour);
void disc(Pen pen, const ImVec2& centre, float radius_px, ImU32 colour);
void ring(Pen pen, const ImVec2& centre, float radius_px, float width, ImU32 colour);

struct Hatch {
    float angle_deg = 45.0F; ///< of the lines, on the page
    float pitch = 4.0F;      ///< logical pixels
    ImU32 colour = 0;
};
/// Even-odd scan lines inside the shape, their phase tied to the shape's first point.
void hatch(Pen pen, std::span<const ImVec2> points, const Hatch& how);

/// Knock-out with page colour, hatch, outline: how every solid is drawn.
void solid(Pen pen, std::span<const ImVec2> points, const Hatch& how, float outline_width,
           ImU32 outline);

/// Convex hull, clockwise on the page.
Points hull_of(Points points);
Points ellipse(const ImVec2& centre, float rx, float ry, float turn_rad, int count = 28);
/// The four corners of a bar of that width from a to b.
Points bar(const ImVec2& a, const ImVec2& b, float width_px);
/// Dots a little below the line, from a label to its value.
void leader(Pen pen, float from, float to, float cy);
bool inside(std::span<const ImVec2> points, const ImVec2& p);
float distance_to_segment(const ImVec2& p, const ImVec2& a, const ImVec2& b);

} // namespace keystead::ui
