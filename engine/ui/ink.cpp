#include "engine/ui/ink.h"

#include "engine/ui/triangulate.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

float length_of(const ImVec2& v) {
    return std::sqrt(v.x * v.x + v.y * v.y);
}

ImVec2 unit_of(const ImVec2& v) {
    const float length = length_of(v);
    return length > 1e-6F ? v * (1.0F / length) : ImVec2(0, 0);
}

namespace {

float whole_width(Pen pen, float width) {
    return std::max(1.0F, std::floor(width * pen.theme->scale + 0.5F));
}

float signed_area(std::span<const ImVec2> p) {
    float twice = 0.0F;
    for (std::size_t i = 0; i < p.size(); ++i) {
        const ImVec2 &a = p[i], &b = p[(i + 1) % p.size()];
        twice += a.x * b.y - b.x * a.y;
    }
    return 0.5F * twice;
}

} // namespace

void fill_rect(Pen pen, const Rect& r, ImU32 colour, float radius) {
    if (r.w <= 0.0F || r.h <= 0.0F) return;
    pen.list->AddRectFilled({r.x, r.y}, {r.right(), r.bottom()}, colour, pen.px(radius));
}

void frame_rect(Pen pen, const Rect& r, ImU32 colour, float radius, float width) {
    pen.list->AddRect({r.x, r.y}, {r.right(), r.bottom()}, colour, pen.px(radius), 0,
                      std::max(1.0F, width * pen.theme->scale));
}

void line(Pen pen, const ImVec2& a, const ImVec2& b, float width, ImU32 colour) {
    const float w = whole_width(pen, width);
    if (std::abs(a.y - b.y) < 0.05F) {
        const float y = std::floor(a.y - 0.5F * w + 0.51F);
        const float x0 = std::floor(std::min(a.x, b.x) + 0.5F),
                    x1 = std::floor(std::max(a.x, b.x) + 0.5F);
        pen.list->AddRectFilled({x0, y}, {std::max(x1, x0 + 1.0F), y + w}, colour);
    } else if (std::abs(a.x - b.x) < 0.05F) {
        const float x = std::floor(a.x - 0.5F * w + 0.51F);
        const float y0 = std::floor(std::min(a.y, b.y) + 0.5F),
                    y1 = std::floor(std::max(a.y, b.y) + 0.5F);
        pen.list->AddRectFilled({x, y0}, {x + w, std::max(y1, y0 + 1.0F)}, colour);
    } else {
        const ImVec2 points[] = {a, b};
        pen.list->AddPolyline(points, 2, colour, ImDrawFlags_None,
                              std::max(1.0F, width * pen.theme->scale));
    }
}

void dashed(Pen pen, const ImVec2& a, const ImVec2& b, std::span<const float> pattern, float width,
            ImU32 colour) {
    const ImVec2 points[] = {a, b};
    dashed(pen, points, false, pattern, width, colour);
}

void dashed(Pen pen, std::span<const ImVec2> points, bool closed, std::span<const float> pattern,
            float width, ImU32 colour) {
    std::size_t step = 0;
    float left = pattern[0] * pen.theme->scale;
    const std::size_t pieces = closed ? points.size() : points.size() - 1;
    for (std::size_t i = 0; i < pieces; ++i) {
        const ImVec2 a = points[i], b = points[(i + 1) % points.size()];
        const float whole = length_of(b - a);
        const ImVec2 along = unit_of(b - a);
        for (float at = 0.0F; at < whole;) {
            const float next = std::min(whole, at + left);
            if (step % 2 == 0) line(pen, a + along * at, a + along * next, width, colour);
            left -= next - at;
            at = next;
            if (left <= 1e-3F) {
                step = (step + 1) % pattern.size();
                left = std::max(0.5F, pattern[step] * pen.theme->scale);
            }
        }
    }
}

void stroke(Pen pen, std::span<const ImVec2> points, bool closed, float width, ImU32 colour) {
    if (points.size() < 2) return;
    pen.list->AddPolyline(points.data(), static_cast<int>(points.size()), colour,
                          closed ? ImDrawFlags_Closed : ImDrawFlags_None,
                          std::max(1.0F, width * pen.theme->scale));
}

void fill_convex(Pen pen, std::span<const ImVec2> points, ImU32 colour) {
    if (points.size() < 3) return;
    // The anti-aliased fringe is only right for clockwise points.
    Points ordered(points.begin(), points.end());
    if (signed_area(points) < 0.0F) std::reverse(ordered.begin(), ordered.end());
    pen.list->AddConvexPolyFilled(ordered.data(), static_cast<int>(ordered.size()), colour);
}

void fill_shape(Pen pen, std::span<const ImVec2> points, ImU32 colour) {
    for (const Triangle& t : triangulate(points))
        pen.list->AddTriangleFilled(points[t[0]], points[t[1]], points[t[2]], colour);
}

void disc(Pen pen, const ImVec2& centre, float radius_px, ImU32 colour) {
    pen.list->AddCircleFilled(centre, radius_px, colour);
}

void ring(Pen pen, const ImVec2& centre, float radius_px, float width, ImU32 colour) {
    pen.list->AddCircle(centre, radius_px, colour, 0, std::max(1.0F, width * pen.theme->scale));
}

void hatch(Pen pen, std::span<const ImVec2> points, const Hatch& how) {
    if (points.size() < 3) return;
    const float angle = how.angle_deg * 0.01745329252F;
    const ImVec2 along(std::cos(angle), std::sin(angle)), across = normal_of(along);
    const auto dot = [](const ImVec2& a, const ImVec2& b) { return a.x * b.x + a.y * b.y; };
    float low = 1e30F, high = -1e30F;
    for (const ImVec2& p : points) {
        low = std::min(low, dot(p, across));
        high = std::max(high, dot(p, across));
    }
    const float pitch = std::max(2.0F, how.pitch * pen.theme->scale);
    const float phase = dot(points[0], across);
    if ((high - low) / pitch > 2000.0F) return;
    std::vector<float> cuts;
    const int first = static_cast<int>(std::ceil((low - phase) / pitch));
    const int last = static_cast<int>(std::floor((high - phase) / pitch));
    for (int k = first; k <= last; ++k) {
        const float d = phase + static_cast<float>(k) * pitch;
        cuts.clear();
        for (std::size_t i = 0; i < points.size(); ++i) {
            const ImVec2 &a = points[i], &b = points[(i + 1) % points.size()];
            const float da = dot(a, across) - d, db = dot(b, across) - d;
            if ((da < 0.0F) == (db < 0.0F)) continue;
            const ImVec2 at = a + (b - a) * (da / (da - db));
            cuts.push_back(dot(at, along));
        }
        std::sort(cuts.begin(), cuts.end());
        for (std::size_t i = 0; i + 1 < cuts.size(); i += 2) {
            const ImVec2 ends[] = {along * cuts[i] + across * d, along * cuts[i + 1] + across * d};
            pen.list->AddPolyline(ends, 2, how.colour, ImDrawFlags_None, 1.0F);
        }
    }
}

void solid(Pen pen, std::span<const ImVec2> points, const Hatch& how, float outline_width,
           ImU32 outline) {
    fill_shape(pen, points, pen.colour().page);
    if (how.colour != 0) hatch(pen, points, how);
    stroke(pen, points, true, outline_width, outline);
}

Points hull_of(Points p) {
    const auto before = [](const ImVec2& a, const ImVec2& b) {
        return a.x < b.x || (a.x == b.x && a.y < b.y);
    };
    const auto turn = [](const ImVec2& o, const ImVec2& a, const ImVec2& b) {
        return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
    };
    std::sort(p.begin(), p.end(), before);
    if (p.size() < 3) return p;
    Points hull(2 * p.size());
    std::size_t k = 0;
    for (const ImVec2& each : p) {
        while (k >= 2 && turn(hull[k - 2], hull[k - 1], each) <= 0.0F) --k;
        hull[k++] = each;
    }
    const std::size_t lower = k + 1;
    for (std::size_t i = p.size() - 1; i-- > 0;) {
        while (k >= lower && turn(hull[k - 2], hull[k - 1], p[i]) <= 0.0F) --k;
        hull[k++] = p[i];
    }
    hull.resize(k > 1 ? k - 1 : k);
    return hull;
}

Points ellipse(const ImVec2& centre, float rx, float ry, float turn_rad, int count) {
    Points points;
    const float c = std::cos(turn_rad), s = std::sin(turn_rad);
    for (int i = 0; i < count; ++i) {
        const float angle = 6.2831853F * static_cast<float>(i) / static_cast<float>(count);
        const float x = rx * std::cos(angle), y = ry * std::sin(angle);
        points.push_back({centre.x + c * x - s * y, centre.y + s * x + c * y});
    }
    return points;
}

Points bar(const ImVec2& a, const ImVec2& b, float width_px) {
    const ImVec2 side = normal_of(unit_of(b - a)) * (0.5F * width_px);
    return {a + side, b + side, b - side, a - side};
}

bool inside(std::span<const ImVec2> points, const ImVec2& p) {
    bool in = false;
    for (std::size_t i = 0, j = points.size() - 1; i < points.size(); j = i++) {
        const ImVec2 &a = points[i], &b = points[j];
        if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x)
            in = !in;
    }
    return in;
}

void leader(Pen pen, float from, float to, float cy) {
    const float pitch = pen.px(4), dot = std::max(1.0F, pen.px(1));
    const int first = static_cast<int>(std::ceil((from + pen.px(6)) / pitch));
    const int last = static_cast<int>(std::ceil((to - pen.px(4)) / pitch));
    for (int k = first; k < last; ++k)
        fill_rect(pen, {static_cast<float>(k) * pitch, cy + pen.px(5), dot, dot},
                  pen.colour().line_strong);
}

float distance_to_segment(const ImVec2& p, const ImVec2& a, const ImVec2& b) {
    const ImVec2 ab = b - a, ap = p - a;
    const float whole = ab.x * ab.x + ab.y * ab.y;
    const float t =
        whole > 1e-9F ? std::clamp((ap.x * ab.x + ap.y * ab.y) / whole, 0.0F, 1.0F) : 0.0F;
    return length_of(p - (a + ab * t));
}

} // namespace keystead::ui
