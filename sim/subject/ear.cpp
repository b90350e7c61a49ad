// Ear: a plate with rim, inner fold, bowl and lobe, in its own frame (u back, v up, w out).
#include "sim/subject/head.h"

namespace keystead::sculpt {

namespace {

const Vec3 origin(71.0, -1.0, -8.0);

struct EarFrame {
    Vec3 u, v, w;
};

// Leaning back, its rear edge standing off the head, its top a little away from it.
EarFrame make_frame() {
    constexpr double pitch = 0.22, yaw = 0.44, roll = 0.10;
    const Vec3 v = glm::normalize(Vec3(std::sin(roll), std::cos(pitch), -std::sin(pitch)));
    Vec3 u(std::sin(yaw), 0.0, -std::cos(yaw));
    u = glm::normalize(u - v * glm::dot(u, v));
    return {u, v, glm::cross(u, v)};
}

// Egg outline: signed distance of a capsule with uneven ends, in the plate's plane.
double outline(double u, double v) {
    const Vec2 a(2.5, 13.0), b(-2.5, -22.5);
    const Vec2 axis = b - a, p(u, v);
    const double t = std::clamp(glm::dot(p - a, axis) / glm::dot(axis, axis), -0.2, 1.2);
    const double inside = std::clamp(t, 0.0, 1.0);
    return glm::length(p - (a + axis * inside)) - mix(17.6, 9.2, inside);
}

double ear_solid(const Vec3& p) {
    const double u = p.x, v = p.y;
    const double w = p.z - 0.1 * u - 1.8 * bump(v - 26.0, 9.0);
    const double d2 = outline(u, v);
    double d = smooth_max(d2, std::abs(w) - 1.7, 2.0);
    d += 0.45 * bump(d2 + 6.3, 1.6) * smooth_step(-2.0, 1.0, w) * smooth_step(-20.0, -8.0, v);
    // The rim fades into the lobe and is open at the front below the middle.
    const double open =
        smooth_step(-14.0, -2.0, v) * (1.0 - smooth_step(4.0, -4.0, v) * smooth_step(2.0, -6.0, u));
    const double rim = std::hypot(d2 + 2.4, w - 1.4) - mix(0.8, 2.7, open);
    d = smooth_min(d, rim, 2.5);
    const double fold_on = smooth_step(-17.0, -9.0, v) * smooth_step(25.0, 15.0, v) *
                           smooth_step(-6.0, 2.0, u + 0.25 * v);
    const double fold = std::hypot(d2 + 9.3, w - 0.8) - mix(0.4, 2.6, fold_on);
    d = smooth_min(d, fold, 3.0);
    d = smooth_min(d, ellipsoid(p, {-3, -3, -7}, {12, 15, 8}), 6);
    d = smooth_min(d, ellipsoid(p, {-5, -20, -7}, {7, 13, 8}), 6);
    return d;
}

// The bowl is cut into ear and head together; the flaps about it come last.
double with_bowl(const Vec3& p, double d) {
    d = carve(d, ellipsoid(p, {-2.5, -3.5, 5}, {8.5, 12, 9.5}), 3);
    d = smooth_min(d, capsule(p, {0, 1, -3}, {-13, 6.5, 1}, 1.8, 2.4), 2.5);
    d = smooth_min(d, ellipsoid(p, {-11.5, -4.5, 2.6}, {3.4, 6, 3.6}), 3);
    return smooth_min(d, ellipsoid(p, {1, -15.5, 1}, {5, 3.4, 2.6}), 3);
}

} // namespace

Vec3 ear_centre() {
    return origin;
}

double with_ear(const Shape& s, const Vec3& q, double d) {
    const Vec3 offset = q - origin;
    const double away = glm::length(offset) - ear_reach_mm;
    if (away - d > 6.0) return d; // too far to blend
    static const EarFrame frame = make_frame();
    // The document has no ear measures; the preset's length and breadth scale the plate.
    const double tall = s.measures.ear_length / 64.2 / (s.measures.female ? 0.955 : 1.0);
    const double wide = s.measures.ear_breadth / 36.1 / (s.measures.female ? 0.955 : 1.0);
    const Vec3 p(glm::dot(offset, frame.u) / wide, glm::dot(offset, frame.v) / tall,
                 glm::dot(offset, frame.w));
    const double size = std::min(tall, wide);
    d = smooth_min(d, ear_solid(p) * size, 5);
    return away > 0.0 ? d : with_bowl(p, d / size) * size;
}

} // namespace keystead::sculpt
