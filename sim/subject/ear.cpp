// Ear: a plate with rim, inner fold, bowl and lobe, in its own frame (u back, v up, w out).
#include "sim/subject/head.h"

namespace keystead::sculpt {

namespace {

constexpr double front_u = -13.0; ///< the flap before the ear hole

double smallest(const Vec3& v) {
    return std::min({v.x, v.y, v.z});
}

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

// Breadth and length of the plate that give an ear of these measures. Found by measuring finished
// meshes of many sizes: blends add to the length, the head buries some of the breadth, and a wide
// head, whose side runs straighter back, less of it.
Vec2 plate_scale(const Shape& s) {
    const double buried = 4.0 - (s.ear_out > 0.0 ? 0.4 : 0.17) * s.ear_out;
    return {(s.measures.ear_breadth + buried) / 30.5, (s.measures.ear_length - 5.5) / 59.6};
}

} // namespace

Vec3 ear_centre(const Shape& s) {
    return {71.0 + s.ear_out, ear_y, ear_z};
}

double ear_reach_mm(const Shape& s) {
    const Vec2 scale = plate_scale(s);
    return 47.0 * std::max({1.0, scale.x, scale.y}) / std::min(1.0, smallest(s.ear_space));
}

double with_ear(const Shape& s, const Vec3& q, double d) {
    const Vec3 from_centre = q - ear_centre(s);
    const double away = glm::length(from_centre) - ear_reach_mm(s);
    if (away - d > 6.0) return d; // too far to blend
    static const EarFrame frame = make_frame();
    // The plate has the subject's millimetres, whatever the head is bent to. It grows backward
    // from the flap before the ear hole.
    const Vec3 offset = from_centre * s.ear_space;
    const Vec2 scale = plate_scale(s);
    const Vec3 p((glm::dot(offset, frame.u) - front_u) / scale.x + front_u,
                 glm::dot(offset, frame.v) / scale.y, glm::dot(offset, frame.w));
    const double size = std::min(scale.x, scale.y) / smallest(s.ear_space);
    d = smooth_min(d, ear_solid(p) * size, 5);
    return away > 0.0 ? d : with_bowl(p, d / size) * size;
}

} // namespace keystead::sculpt
