#include "sim/light/colour.h"

#include <algorithm>

namespace keystead {

namespace {

/// GLM matrices are given column by column; these are written row by row.
Mat3 rows(const Vec3& a, const Vec3& b, const Vec3& c) {
    return glm::transpose(Mat3(a, b, c));
}

/// CIE XYZ of luminance 1 from chromaticity.
Vec3 xyz_of_xy(const Vec2& xy) {
    return {xy.x / xy.y, 1.0, (1.0 - xy.x - xy.y) / xy.y};
}

/// CIE XYZ (D65) to linear sRGB, IEC 61966-2-1.
Mat3 srgb_of_xyz() {
    return rows({3.2404541621, -1.5371385128, -0.4985314096},
                {-0.9692660305, 1.8760108454, 0.0415560175},
                {0.0556434310, -0.2040259135, 1.0572251882});
}

/// Cone response of the Bradford adaptation (as in the ICC profile specification, annex E).
Mat3 bradford() {
    return rows({0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296});
}

Vec3 with_luminance_one(Vec3 rgb) {
    rgb = glm::max(rgb, Vec3(0.0));
    return rgb / luminance(rgb);
}

} // namespace

double mired_of(double colour_k) {
    return 1e6 / colour_k;
}

double kelvin_of(double mired) {
    return 1e6 / mired;
}

double gelled_colour_k(double colour_k, double mired_shift) {
    // A strong cooling gel can pass infinity; 25000 K is as blue as a sky gets.
    return kelvin_of(std::max(mired_of(colour_k) + mired_shift, 40.0));
}

double mired_shift_between(double from_k, double to_k) {
    return mired_of(to_k) - mired_of(from_k);
}

Vec2 planckian_xy(double colour_k) {
    const double t = std::clamp(colour_k, 1000.0, 15000.0);
    const double u = (0.860117757 + 1.54118254e-4 * t + 1.28641212e-7 * t * t) /
                     (1.0 + 8.42420235e-4 * t + 7.08145163e-7 * t * t);
    const double v = (0.317398726 + 4.22806245e-5 * t + 4.20481691e-8 * t * t) /
                     (1.0 - 2.89741816e-5 * t + 1.61456053e-7 * t * t);
    const double scale = 2.0 * u - 8.0 * v + 4.0;
    return {3.0 * u / scale, 2.0 * v / scale};
}

Vec3 linear_srgb_of_xy(const Vec2& xy) {
    return srgb_of_xyz() * xyz_of_xy(xy);
}

Vec3 lamp_colour(double colour_k, double balance_k) {
    const Vec3 lamp = bradford() * xyz_of_xy(planckian_xy(colour_k));
    const Vec3 white = bradford() * xyz_of_xy(planckian_xy(balance_k));
    const Vec3 display_white = bradford() * xyz_of_xy({0.3127, 0.3290});
    const Vec3 adapted = glm::inverse(bradford()) * (lamp * display_white / white);
    return with_luminance_one(srgb_of_xyz() * adapted);
}

Mat3 balance_matrix(double balance_k) {
    const Vec3 from = bradford() * xyz_of_xy(planckian_xy(white_balance_k));
    const Vec3 to = bradford() * xyz_of_xy(planckian_xy(balance_k));
    Mat3 gain(0.0);
    for (int i = 0; i < 3; ++i) gain[i][i] = from[i] / to[i];
    const Mat3 cones_of_srgb = bradford() * glm::inverse(srgb_of_xyz());
    return glm::inverse(cones_of_srgb) * gain * cones_of_srgb;
}

Vec3 gelled_colour(double colour_k, const std::optional<Gel>& gel, double balance_k) {
    if (!gel) return lamp_colour(colour_k, balance_k);
    const Vec3 lamp = lamp_colour(gelled_colour_k(colour_k, gel->mired_shift), balance_k);
    if (!gel->colour) return lamp;
    const Vec3 passed = lamp * gel->colour->rgb;
    // A gel that passes nothing has no colour; its transmission says how dark it is.
    return glm::dot(passed, Vec3(1.0)) > 0.0 ? with_luminance_one(passed) : lamp;
}

} // namespace keystead
