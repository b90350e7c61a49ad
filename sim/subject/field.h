// Signed fields and the operators that build them. Millimetres; negative inside.
#pragma once

#include "sim/base/vec.h"

#include <algorithm>
#include <cmath>

namespace keystead::sculpt {

/// A solid given by a signed function that grows about one per millimetre near its surface.
class Field {
public:
    virtual ~Field() = default;
    virtual double at(const Vec3& point_mm) const = 0;
};

/// Unit normal of the level set through a point: tetrahedral difference, which needs four values.
inline Vec3 gradient(const Field& field, const Vec3& p, double step_mm = 0.2) {
    const Vec3 a(1, -1, -1), b(-1, -1, 1), c(-1, 1, -1), d(1, 1, 1);
    const double e = step_mm;
    return (a * field.at(p + a * e) + b * field.at(p + b * e) + c * field.at(p + c * e) +
            d * field.at(p + d * e)) /
           (4.0 * e);
}

/// Cubic smooth minimum (second derivative continuous); at equality it bulges out by k/6.
inline double smooth_min(double a, double b, double k) {
    const double h = std::max(k - std::abs(a - b), 0.0) / k;
    return std::min(a, b) - k * h * h * h * (1.0 / 6.0);
}
inline double smooth_max(double a, double b, double k) {
    return -smooth_min(-a, -b, k);
}
inline double carve(double body, double cutter, double k) {
    return smooth_max(body, -cutter, k);
}

/// Quintic step from 0 at `low` to 1 at `high` (low may exceed high).
inline double smooth_step(double low, double high, double x) {
    const double t = std::clamp((x - low) / (high - low), 0.0, 1.0);
    return t * t * t * (t * (t * 6.0 - 15.0) + 10.0);
}

/// exp(-x²/2s²), zero beyond five s.
inline double bump(double x, double s) {
    const double t = x / s;
    return std::abs(t) > 5.0 ? 0.0 : std::exp(-0.5 * t * t);
}

inline double square(double x) {
    return x * x;
}
inline double mix(double a, double b, double t) {
    return a + (b - a) * t;
}

/// First-order distance to an ellipsoid with semi-axes r.
inline double ellipsoid(const Vec3& p, const Vec3& centre, const Vec3& r) {
    const Vec3 q = (p - centre) / r;
    const double k0 = glm::length(q);
    const double k1 = std::max(glm::length(q / r), 1e-9);
    return k0 * (k0 - 1.0) / k1;
}

/// Capsule whose radius varies linearly from a to b.
inline double capsule(const Vec3& p, const Vec3& a, const Vec3& b, double radius_a,
                      double radius_b) {
    const Vec3 axis = b - a;
    const double t = std::clamp(glm::dot(p - a, axis) / glm::dot(axis, axis), 0.0, 1.0);
    return glm::length(p - (a + axis * t)) - mix(radius_a, radius_b, t);
}

/// Distance from a segment in the plane z = 0 and how far along it (0..1).
struct AlongSegment {
    double distance = 0.0, t = 0.0;
};
inline AlongSegment along_segment(double x, double y, const Vec2& a, const Vec2& b) {
    const Vec2 axis = b - a, p(x, y);
    const double t = std::clamp(glm::dot(p - a, axis) / glm::dot(axis, axis), 0.0, 1.0);
    return {glm::length(p - (a + axis * t)), t};
}

/// |x| without the crease at the mirror plane.
inline double mirrored_x(double x) {
    return std::sqrt(x * x + 0.25);
}

} // namespace keystead::sculpt
