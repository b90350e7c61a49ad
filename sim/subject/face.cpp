// Skull, face loft and the bones under the face.
#include "sim/subject/head.h"

namespace keystead::sculpt {

namespace {

// Single precision is ten times finer than the projection needs, and much quicker.
double power(double base, double exponent) {
    return static_cast<double>(std::pow(static_cast<float>(base), static_cast<float>(exponent)));
}

struct FaceCurves {
    Curve half_width{{{80, 60},
                      {60, 68},
                      {40, 70},
                      {20, 70.5},
                      {0, 69.5},
                      {-20, 67.5},
                      {-40, 64.8},
                      {-60, 59.5},
                      {-76, 50},
                      {-90, 37},
                      {-100, 26},
                      {-110, 14}}};
    Curve front{{{90, 70},
                 {70, 84},
                 {40, 92.5},
                 {17, 87.6},
                 {0, 90.2},
                 {-20, 95},
                 {-36, 99},
                 {-53, 99},
                 {-70, 94.5},
                 {-84, 93.5},
                 {-96, 88},
                 {-110, 74}}};
    Curve centre{{{80, 10}, {40, 12}, {0, 12}, {-40, 6}, {-66, 4}, {-90, 18}, {-110, 33}}};
    Curve exponent{{{80, 2.2},
                    {40, 2.3},
                    {14, 2.2},
                    {-12, 2.32},
                    {-35, 1.98},
                    {-55, 2.00},
                    {-80, 1.96},
                    {-110, 1.95}}};
};

const FaceCurves& face_curves() {
    static const FaceCurves curves;
    return curves;
}

struct Section {
    double half_width, front_depth, centre, exponent;
};

constexpr double depth_behind = 60.0;

Section section_at(const Shape& s, double y) {
    const FaceCurves& c = face_curves();
    const double jaw = bump(y + 58.0, y > -58.0 ? 26.0 : 20.0);
    const double shifted = y + 4.0 * bump(y - 20.0, 12.0);
    Section section{};
    section.centre = c.centre(y);
    section.half_width = c.half_width(y) * (1.0 - s.chin_taper * smooth_step(-60.0, -94.0, y)) +
                         s.gonion * jaw + s.zygoma * bump(y + 2.0, 17.0);
    section.front_depth = c.front(shifted) - section.centre;
    section.exponent = c.exponent(y);
    return section;
}

struct LoftPoint {
    double radius, slope_x, slope_z; ///< 1 on the section; its derivatives
};

LoftPoint on_section(const Section& c, double x, double z) {
    const double depth = z > c.centre ? c.front_depth : depth_behind;
    const double a = std::max(std::abs(x) / c.half_width, 1e-6);
    const double b = std::max(std::abs(z - c.centre) / depth, 1e-6);
    const double an = power(a, c.exponent), bn = power(b, c.exponent);
    const double r = power(an + bn, 1.0 / c.exponent);
    const double common = r / (an + bn); // r^(1-n)
    return {r, common * an / (a * c.half_width), common * bn / (b * depth)};
}

double face_loft(const Shape& s, const Vec3& q) {
    const LoftPoint here = on_section(section_at(s, q.y), q.x, q.z);
    const LoftPoint above = on_section(section_at(s, q.y + 1.0), q.x, q.z);
    const double slope =
        std::sqrt(square(here.slope_x) + square(here.slope_z) + square(above.radius - here.radius));
    const double d = (here.radius - 1.0) / std::max(slope, 1e-3);
    const double under_jaw = -0.906 * (q.y + 99.2) - 0.423 * (q.z - 80.0);
    const double top = q.y - 56.0 + 0.12 * q.z;
    return smooth_max(smooth_max(d, under_jaw, 12.0), top, 26.0);
}

// Superellipsoid, a little fuller than an egg; level sections have their own exponent.
double cranium(const Shape& s, const Vec3& q) {
    constexpr double n = 2.15;
    const double level = s.cranium_fullness;
    const Vec3 p = q - Vec3(0.0, 46.0, -13.0);
    const Vec3 r(s.cranium_half_breadth, p.y > 0.0 ? s.cranium_up : 80.0,
                 p.z > 0.0 ? 104.0 : s.cranium_back);
    const Vec3 t = glm::max(glm::abs(p) / r, Vec3(1e-6));
    const double xl = power(t.x, level), zl = power(t.z, level);
    const double ring = power(xl + zl, n / level), yn = power(t.y, n);
    const double sum = ring + yn;
    const double k = std::max(power(sum, 1.0 / n), 1e-3);
    const Vec3 power(ring * xl / (xl + zl), yn, ring * zl / (xl + zl));
    const Vec3 slope = (k / sum) * power / (t * r);
    return (k - 1.0) / std::max(glm::length(slope), 1e-3);
}

} // namespace

double skull(const Shape& s, const Vec3& q) {
    const double head = cranium(s, q);
    if (q.y > 110.0) return head;
    return smooth_min(head, face_loft(s, q), 16.0);
}

double with_bones(const Shape& s, const Vec3& q, double d) {
    if (q.y > 110.0 || q.y < -125.0) return d;
    d = carve(d, ellipsoid(q, {95, 32, 50}, {26, 36, 42}), 26);
    const double brow = s.brow_forward;
    d = smooth_min(
        d, capsule(q, {0, 36, 85.5 + brow}, {40, 39 + s.brow_outer_lift, 70 + brow}, 7.5, 6), 18);
    const double wide = s.face_breadth;
    d = smooth_min(d, ellipsoid(q, {38 * wide, -9, 59}, {22, 15, 19}), 22);
    d = smooth_min(d, capsule(q, {50, -6, 50}, {60.5 + s.zygoma, 0, 6}, 7, 6), 22);
    d = carve(d, ellipsoid(q, {s.cheek_hollow_x * wide, -42, 72}, {15, 20, 26}), 26);
    if (q.z < 30.0) return d;
    const Vec3 eye = s.eye_canonical;
    d = carve(d, ellipsoid(q, {eye.x, eye.y + 2.0, eye.z + 19.0}, {17, 11, 13}), 14);
    d = smooth_min(d, ellipsoid(q, {0, -86, 81}, {19 * (1.0 - 1.2 * s.chin_taper), 13, 13.5}), 14);
    return smooth_min(d, ellipsoid(q, {0, -51, 79}, {37 * wide, 28, 22}), 21);
}

double folds_at(const Shape& s, const Vec3& q) {
    if (q.z < 30.0 || q.y > 130.0 || q.y < -125.0) return 0.0;
    double out = 0.0;
    const Vec2 eye(s.eye_canonical.x, s.eye_canonical.y);
    const AlongSegment trough =
        along_segment(q.x, q.y, eye + Vec2(-17.0, -8.0), eye + Vec2(9.0, -23.0));
    out -= 0.45 * bump(trough.distance, 5.0);
    out += 1.2 * bump(q.x - 27.0, 16.0) * bump(q.y - 78.0, 17.0);
    out += 0.9 * bump(q.x, 24.0) * bump(q.y + 53.0, 13.0);
    // The ridge over the eye: it ends sharply above the lid and fades into the forehead.
    const double above = q.y - 37.0;
    out += s.ridge * bump(q.x - eye.x + 1.0, 15.0) * bump(above, above < 0.0 ? 6.5 : 18.0);
    // The nose root's saddle, so that its deepest point lies where sellion should.
    out -= 1.3 * bump(q.x, 8.0) * bump(q.y - 19.5, 7.0);
    // The hollow between lower lip and chin.
    out -= 1.5 * bump(q.x, 18.0) * bump(q.y + 71.5, 5.6);
    // Fat over the cheek, below its bone.
    const Vec3 cheek = (q - Vec3(49.0 * s.face_breadth, -37.0, 54.0)) / Vec3(14.0, 17.0, 22.0);
    out += s.cheek_fullness * std::exp(-0.5 * glm::dot(cheek, cheek));
    const double philtrum = smooth_step(-31.0, -36.0, q.y) * smooth_step(-47.0, -42.0, q.y);
    out += philtrum * (0.25 * bump(q.x - 4.8, 1.6) - 0.75 * bump(q.x, 2.4));
    const AlongSegment fold = along_segment(q.x, q.y, {19.5, -24.0}, {31.0, -52.0});
    out -= 0.9 * bump(fold.distance, 4.0) * smooth_step(0.0, 0.25, fold.t) *
           smooth_step(1.0, 0.6, fold.t);
    return out * smooth_step(30.0, 50.0, q.z);
}

} // namespace keystead::sculpt
