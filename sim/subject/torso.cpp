// Bare torso and shoulders.
#include "sim/subject/body.h"

namespace keystead::sculpt {

namespace {

struct TorsoCurves {
    Curve half_width{{{-150, 70},
                      {-180, 112},
                      {-215, 138},
                      {-270, 152},
                      {-330, 158},
                      {-420, 154},
                      {-520, 146},
                      {-620, 154},
                      {-720, 172},
                      {-780, 168}}};
    Curve front{{{-150, -20},
                 {-180, 4},
                 {-215, 24},
                 {-270, 46},
                 {-330, 58},
                 {-420, 58},
                 {-520, 54},
                 {-620, 56},
                 {-720, 58},
                 {-780, 40}}};
    Curve back{{{-150, -95},
                {-180, -112},
                {-215, -128},
                {-270, -144},
                {-330, -150},
                {-420, -144},
                {-520, -130},
                {-620, -140},
                {-720, -160},
                {-780, -150}}};
};

double torso_radius(const Vec3& q) {
    static const TorsoCurves curves;
    constexpr double n = 2.5;
    const double front = curves.front(q.y), back = curves.back(q.y);
    const double a = q.x / curves.half_width(q.y);
    const double b = (q.z - 0.5 * (front + back)) / (0.5 * (front - back));
    return std::pow(std::pow(std::abs(a), n) + std::pow(std::abs(b), n), 1.0 / n);
}

double torso_loft(const Vec3& q) {
    const double r = std::max(torso_radius(q), 0.05);
    const double e = 1.0;
    const double gx = torso_radius(q + Vec3(e, 0, 0)) - r;
    const double gy = torso_radius(q + Vec3(0, e, 0)) - r;
    const double gz = torso_radius(q + Vec3(0, 0, e)) - r;
    const double d = (r - 1.0) / std::max(std::sqrt(gx * gx + gy * gy + gz * gz), 2e-3);
    return smooth_max(smooth_max(d, q.y + 178.0, 50.0), -q.y - 790.0, 60.0);
}

} // namespace

double with_torso(const Shape& s, const Vec3& q, double d) {
    const double out = s.deltoid_out;
    d = smooth_min(d, torso_loft(q), 36);
    // Slope of the shoulder: from beside the neck to the tip of the collar bone.
    d = smooth_min(d, capsule(q, {14, -152, -60}, {168 + 0.7 * out, -214, -56}, 40, 30), 40);
    d = smooth_min(d, capsule(q, {182 + out, -236, -54}, {200 + out, -330, -56}, 47, 43), 46);
    d = smooth_min(d, ellipsoid(q, {78, -290, 8 + 12 * s.bust}, {90, 70, 44}), 50);
    if (s.bust > 0.0) d = smooth_min(d, ellipsoid(q, {80, -345, 34}, {62, 62, 52 * s.bust}), 60);
    d = smooth_min(d, capsule(q, {20, -196, 6}, {160, -190, -28}, 5.5, 5), 16);
    d = carve(d, ellipsoid(q, {66, -170, 6}, {36, 12, 16}), 26);
    return carve(d, ellipsoid(q, {0, -196, 16}, {11, 13, 10}), 14);
}

} // namespace keystead::sculpt
