// Neck: a leaning cylinder, its two ropes of muscle, larynx and throat notch.
#include "sim/subject/body.h"
#include "sim/subject/head.h"

namespace keystead::sculpt {

namespace {

double neck_cylinder(const Shape& s, const Vec3& q) {
    const Vec3 a(0, -20, -12), b(0, -205, -48);
    const Vec3 axis = b - a;
    const double t = glm::dot(q - a, axis) / glm::dot(axis, axis);
    const double clamped = std::clamp(t, -0.1, 1.2);
    const Vec3 across = q - (a + axis * clamped);
    const double rx = 51.0 + 7.0 * clamped * clamped + s.neck_radius;
    const double rz = 54.0 + 4.0 * clamped + s.neck_radius;
    const double k = std::hypot(across.x / rx, across.z / rz);
    return (k - 1.0) * std::min(rx, rz);
}

} // namespace

double with_neck(const Shape& s, const Vec3& q, double d) {
    if (q.y > 40.0) return d;
    const double girth = s.neck_radius;
    d = smooth_min(d, neck_cylinder(s, q), 16);
    if (q.y > 0.0 || q.y < -260.0) return d;
    d = smooth_min(d, capsule(q, {51 + 0.3 * girth, -22, -24}, {14, -192, 4 + girth}, 9, 7), 11);
    return smooth_min(d, ellipsoid(q, {0, -128, 16 + s.larynx_forward + girth}, {9, 14, 12}), 20);
}

double SkinField::at(const Vec3& p) const {
    const Shape& s = shape_;
    const Vec3 q = s.canonical(p);
    double d = 1e9;
    if (q.y > -150.0) {
        d = with_bones(s, q, skull(s, q));
        d = with_nose(s, q, d);
        d -= folds_at(s, q) + lips_at(s, q).out_mm;
        d = with_ear(s, q, d);
    }
    if (q.y < 40.0) d = with_neck(s, q, d);
    if (q.y < -60.0) d = with_hollows(q, with_torso(s, q, d));
    d *= s.scale_at(q.y);
    return with_lids(s, eye_relative(s, p), d);
}

} // namespace keystead::sculpt
