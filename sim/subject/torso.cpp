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

struct Section {
    double half_width, centre, half_depth;
};

Section torso_section(double y) {
    static const TorsoCurves curves;
    const double front = curves.front(y), back = curves.back(y);
    return {curves.half_width(y), 0.5 * (front + back), 0.5 * (front - back)};
}

// |t|^2.5, without a general power.
double power_2_5(double t) {
    return t * t * std::sqrt(std::abs(t));
}

double torso_loft(const Vec3& q) {
    const Section here = torso_section(q.y), above = torso_section(q.y + 1.0);
    const double a = q.x / here.half_width, b = (q.z - here.centre) / here.half_depth;
    const double an = power_2_5(a), bn = power_2_5(b);
    const double sum = std::max(an + bn, 1e-4);
    const double r = std::pow(static_cast<float>(sum), 0.4F);
    const double higher_sum =
        power_2_5(q.x / above.half_width) + power_2_5((q.z - above.centre) / above.half_depth);
    const double higher = std::pow(static_cast<float>(higher_sum), 0.4F);
    const double common = r / sum;
    const double slope_x = common * an / (std::max(std::abs(a), 1e-6) * here.half_width);
    const double slope_z = common * bn / (std::max(std::abs(b), 1e-6) * here.half_depth);
    const double slope = std::sqrt(square(slope_x) + square(slope_z) + square(higher - r));
    const double d = (r - 1.0) / std::max(slope, 2e-3);
    return smooth_max(smooth_max(d, q.y + 178.0, 50.0), -q.y - 790.0, 60.0);
}

} // namespace

namespace {

double with_shoulder_slope(const Shape& s, const Vec3& q, double d) {
    d = smooth_min(d, torso_loft(q), 36);
    // From beside the neck to the tip of the collar bone.
    const Vec3 tip(168 + 0.7 * s.deltoid_out, -214, -56);
    return smooth_min(d, capsule(q, {14, -152, -60}, tip, 40, 30), 40);
}

double with_deltoid_and_chest(const Shape& s, const Vec3& q, double d) {
    const double out = s.deltoid_out, tip = s.acromion_out;
    d = smooth_min(d, ellipsoid(q, {186 + out + tip, -246, -55}, {50 - tip, 62, 48}), 36);
    d = smooth_min(d, ellipsoid(q, {78, -290, 8 + 6 * s.bust}, {90, 70, 44}), 50);
    if (s.bust > 0.0) d = smooth_min(d, ellipsoid(q, {74, -338, 26}, {64, 66, 50 * s.bust}), 70);
    return smooth_min(d, capsule(q, {20, -196, 6}, {150, -199, -32}, 5.5, 5), 22);
}

} // namespace

double with_trunk(const Shape& s, const Vec3& q, double d) {
    return with_deltoid_and_chest(s, q, with_shoulder_slope(s, q, d));
}

double with_torso(const Shape& s, const Vec3& q, double d) {
    const double out = s.deltoid_out;
    d = with_shoulder_slope(s, q, d);
    d = smooth_min(d, capsule(q, {184 + out, -238, -54}, {193 + out, -335, -56}, 46, 41), 46);
    return with_deltoid_and_chest(s, q, d);
}

double with_hollows(const Vec3& q, double d) {
    if (q.y < -240.0 || q.y > -120.0) return d;
    d = carve(d, ellipsoid(q, {64, -167, 13}, {34, 9, 9}), 28);
    return carve(d, ellipsoid(q, {0, -196, 21}, {11, 12, 5}), 18);
}

} // namespace keystead::sculpt
