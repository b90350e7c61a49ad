// Nose: dorsum, flanks, tip, wings, columella, nostrils.
#include "sim/subject/head.h"

namespace keystead::sculpt {

namespace {

constexpr double base_z = 97.0; ///< protrusion is stretched about this depth

Vec3 nose_space(const Shape& s, const Vec3& q) {
    return {q.x / s.nose_breadth, q.y, base_z + (q.z - base_z) / s.nose_protrusion};
}

double nose_scale(const Shape& s) {
    return std::min({1.0, s.nose_breadth, s.nose_protrusion});
}

bool near_nose(const Vec3& q) {
    return q.z > 55.0 && q.y < 50.0 && q.y > -52.0 && q.x < 55.0;
}

double nostril(Vec3 p) {
    p -= Vec3(6.6, -26.3, 106.0);
    const double cy = std::cos(-0.4), sy = std::sin(-0.4), cp = std::cos(0.22), sp = std::sin(0.22);
    p = Vec3(cy * p.x - sy * p.z, p.y, sy * p.x + cy * p.z);
    p = Vec3(p.x, cp * p.y - sp * p.z, sp * p.y + cp * p.z);
    return ellipsoid(p, Vec3(0.0), {3.0, 4.6, 5.4});
}

} // namespace

double nose_solid(const Shape& s, const Vec3& q) {
    const Vec3 p = nose_space(s, q);
    double d = capsule(p, {0, 22, 86.8}, {0, -13, 109}, 4.6, 7.2);
    d = smooth_min(d, capsule(p, {0, 20, 76}, {0, -15.4, 92}, 5.5, 14), 13);
    d = smooth_min(d, ellipsoid(p, {0, -15.6, 111.4}, {8.8, 8.2, 9.6}), 9);
    d = smooth_min(d, ellipsoid(p, {10.4, -19.6, 100.5}, {7.4, 7.4, 11.2}), 10);
    d = smooth_min(d, capsule(p, {0, -21.3, 113}, {0, -25.9, 101.5}, 3.4, 3.2), 7);
    return d * nose_scale(s);
}

double with_nose(const Shape& s, const Vec3& q, double d) {
    if (!near_nose(q)) return d;
    const double blend = mix(6.0, 9.5, smooth_step(-12.0, 20.0, q.y));
    d = smooth_min(d, nose_solid(s, q), blend);
    const Vec3 p = nose_space(s, q);
    d = carve(d, nostril(p) * nose_scale(s), 2.2);
    // Crease round the wing's outer and upper side.
    const Vec2 from_wing(p.x - 12.0, p.y + 19.0);
    const double ring = bump(glm::length(from_wing) - 9.3, 1.9);
    const double side = smooth_step(-4.0, 4.0, from_wing.x + 0.5 * from_wing.y);
    const double depth = smooth_step(88.0, 93.0, p.z) * smooth_step(105.0, 100.0, p.z);
    return d + 0.7 * ring * side * depth * smooth_step(-33.0, -26.0, p.y);
}

} // namespace keystead::sculpt
