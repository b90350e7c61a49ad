// Lips: a displacement of the face, so that they never look pasted on.
#include "sim/subject/head.h"

namespace keystead::sculpt {

namespace {

// s^a (1-s)^c, scaled to a peak of one.
double lip_profile(double s, double a, double c) {
    if (s <= 0.0 || s >= 1.0) return 0.0;
    const double peak = a / (a + c);
    return std::pow(s, a) * std::pow(1.0 - s, c) / (std::pow(peak, a) * std::pow(1.0 - peak, c));
}

} // namespace

Lips lips_at(const Shape& shape, const Vec3& q) {
    Lips lips;
    if (q.z < 55.0 || q.y > -38.0 || q.y < -70.0 || q.x > 36.0) return lips;
    const double half = 25.5 * shape.measures.lip_length / 51.0 / shape.scale_x(q.y);
    const double x = q.x * 25.5 / half; // in a mouth of nominal length
    const double base = canonical_y::stomion;
    const double t = x / 25.5;
    const double seam_y = base - 0.6 * bump(x, 3.2) + 0.4 * bump(x - 8.0, 4.0) -
                          0.3 * bump(x - 17.0, 5.0) + 1.3 * smooth_step(10.0, 27.0, x);
    const double fade = smooth_step(55.0, 65.0, q.z);
    if (t < 1.0) {
        const double b = 1.0 - t * t;
        const double tall = shape.lip_fullness;
        // The bow's dip takes 17 % off the midline, and the seam lies 0.55 under the base there.
        const double peak = (shape.upper_lip + 0.55) / 0.83;
        const double upper = peak * std::pow(b, 0.95) * (1.0 - 0.17 * bump(x, 2.4));
        const double lower = tall * 9.6 * std::pow(b, 0.85);
        const double straight = base + 1.3 * smooth_step(10.0, 27.0, x);
        const double swell = std::pow(b, 0.62) * shape.lip_fullness;
        const double up = (q.y - seam_y) / upper, down = (straight - q.y) / lower;
        lips.out_mm += 2.5 * swell * lip_profile(up, 0.72, 1.1);
        lips.out_mm += 3.5 * swell * lip_profile(down, 0.75, 1.35);
        lips.out_mm += 0.3 * std::pow(b, 0.5) * bump(q.y - seam_y - upper, 1.1);
        const double inside = std::min(q.y - (straight - lower), seam_y + upper - q.y);
        // Where the red runs out it would be finer than the mesh that carries it.
        const double held = inside + 0.7 * smooth_step(0.72, 0.95, t);
        lips.vermilion = smooth_step(-0.4, 0.9, held) * smooth_step(0.0, 0.05, b);
    }
    lips.out_mm -= 0.8 * bump(q.y - seam_y, 0.8) * smooth_step(28.0, 24.0, x);
    lips.out_mm -= 0.8 * bump(x - 27.3, 3.0) * bump(q.y - seam_y, 3.4);
    lips.out_mm *= fade;
    lips.vermilion *= fade;
    return lips;
}

} // namespace keystead::sculpt
