// Lids around a rigid eyeball. The socket is never hollow: the opening is cut only down to a solid
// ball a little smaller than the eye, which then stands proud of it.
#include "sim/subject/head.h"

namespace keystead::sculpt {

Vec3 eye_relative(const Shape& s, const Vec3& p) {
    return Vec3(mirrored_x(p.x), p.y, p.z) - s.eye;
}

LidEdges lid_edges(const Shape& s, double u) {
    const double t = (u + 0.8) / 13.8;
    const double arch = std::max(1.0 - t * t, 0.0);
    LidEdges edges;
    edges.upper = 4.35 * s.lid_opening * arch * (0.8 + 0.25 * std::exp(-square(u + 1.5) / 120.0)) +
                  0.055 * u - 0.3;
    edges.lower = -4.8 * arch * (0.92 + 0.006 * u) + 0.055 * u - 0.5;
    return edges;
}

double with_lids(const Shape& s, const Vec3& e, double d) {
    if (std::abs(e.x) > 34.0 || std::abs(e.y) > 30.0 || e.z < -20.0) return d;
    d = carve(d, ellipsoid(e, {0, 1, 3}, {18, 12, 15}), 12);
    const double ball = glm::length(e);
    const double lid = std::min(ellipsoid(e, Vec3(0.0), {15.5, 13.8, 13.8}), ball - 13.8);
    d = smooth_min(d, lid, 9);
    const double u = e.x, v = e.y;
    const double crease_v = 8.6 - 0.026 * square(u + 1.0) + 0.05 * u;
    const double along = smooth_step(15.0, 10.0, std::abs(u)) * smooth_step(0.0, 4.0, e.z);
    d += along * (0.8 * bump(v - crease_v, 1.2) - 0.5 * bump(v - crease_v - 3.2, 2.0));
    const LidEdges edges = lid_edges(s, u);
    double opening = std::max(v - edges.upper, edges.lower - v);
    const double past_corner = std::abs(u + 0.8) - 13.8;
    opening = std::max({opening, past_corner, (eye_radius_mm - 1.2) - ball, 4.5 - e.z});
    d = carve(d, opening, 1.6);
    return smooth_min(d, ellipsoid(e, {-11.5, -0.8, 4.6}, {3, 2.2, 3.2}), 2);
}

} // namespace keystead::sculpt
