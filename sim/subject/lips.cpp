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

// The mouth's line: a shallow M that lifts toward the corners.
double line_y(double x) {
    return canonical_y::stomion - 0.5 * bump(x, 3.4) + 0.5 * bump(x - 8.5, 4.5) -
           0.4 * bump(x - 17.0, 5.0) + 1.2 * smooth_step(11.0, 27.0, x);
}

} // namespace

Lips lips_at(const Shape& shape, const Vec3& q) {
    Lips lips;
    if (q.z < 55.0 || q.y > -38.0 || q.y < -70.0 || q.x > 36.0) return lips;
    const double half = 25.5 * shape.measures.lip_length / 51.0 / shape.scale_x(q.y);
    const double x = q.x * 25.5 / half; // in a mouth of nominal length
    const double t = x / 25.5;
    const double seam_y = line_y(x);
    const double fade = smooth_step(55.0, 65.0, q.z);
    if (t < 1.0) {
        const double b = 1.0 - t * t;
        // The bow's dip takes 14 % off the midline, where the seam lies half a millimetre low.
        const double peak = (shape.upper_lip + 0.5) / 0.86;
        const double upper = peak * std::pow(b, 0.85) * (1.0 - 0.14 * bump(x, 2.6));
        const double lower = shape.lower_lip * std::pow(b, 0.80);
        // Not from the line itself, or the lower lip copies its M.
        const double straight = canonical_y::stomion + 1.2 * smooth_step(11.0, 27.0, x);
        const double swell = std::pow(b, 0.7);
        const double up = (q.y - seam_y) / upper, down = (straight - q.y) / lower;
        lips.out_mm += 0.33 * shape.upper_lip * swell * lip_profile(up, 0.95, 1.05);
        lips.out_mm += 0.36 * shape.lower_lip * swell * lip_profile(down, 0.95, 1.30);
        // The middle of the upper lip hangs a little over, the lower has two soft pads beside it.
        lips.out_mm += 0.5 * bump(x, 3.0) * bump(up - 0.25, 0.22);
        lips.out_mm += 0.35 * bump(x - 6.5, 4.0) * bump(down - 0.35, 0.25);
        lips.out_mm += 0.35 * std::pow(b, 0.5) * bump(q.y - seam_y - upper, 1.3);
        const double inside = std::min(q.y - (straight - lower), seam_y + upper - q.y);
        // Where the red runs out it would be finer than the mesh that carries it.
        const double held = inside + 0.85 * smooth_step(0.72, 0.95, t);
        lips.vermilion = smooth_step(-0.4, 0.9, held) * smooth_step(0.0, 0.05, b);
        lips.line = bump(q.y - seam_y, 0.75) * smooth_step(0.05, 0.35, b);
    }
    lips.out_mm -= 0.7 * bump(q.y - seam_y, 1.15) * smooth_step(28.0, 23.0, x);
    lips.out_mm -= 0.5 * bump(x - 27.0, 3.2) * bump(q.y - seam_y, 3.4);
    lips.out_mm *= fade;
    lips.vermilion *= fade;
    lips.line *= fade;
    return lips;
}

} // namespace keystead::sculpt
