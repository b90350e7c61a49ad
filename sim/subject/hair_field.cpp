#include "sim/subject/hair_field.h"

#include "sim/subject/body.h"
#include "sim/subject/noise.h"

namespace keystead::sculpt {

namespace {

// Height of the hairline against azimuth from the nose, degrees.
const Curve& hairline() {
    static const Curve curve({{-22, 94},
                              {0, 95},
                              {22, 94},
                              {34, 85},
                              {47, 64},
                              {58, 42},
                              {67, 20},
                              {74, 1},
                              {83, 3},
                              {92, 18},
                              {106, 16},
                              {121, -16},
                              {138, -52},
                              {160, -66},
                              {180, -68},
                              {202, -66}});
    return curve;
}

Vec3 crown(HairStyle style) {
    if (style == HairStyle::tied) return glm::normalize(Vec3(0.0, 0.30, -1.0));
    return glm::normalize(Vec3(0.0, 0.80, -0.60));
}

// Round lumps with creases between them, strands winding over them.
double curl_relief(const Vec3& q) {
    const Vec3 warp(value_noise(q / 21.0), value_noise(q / 21.0 + Vec3(9.0)),
                    value_noise(q / 21.0 + Vec3(23.0)));
    const Vec3 at = q + 6.0 * warp;
    const double locks = std::abs(value_noise(at / 17.0));
    const double rings = std::abs(value_noise(at / 8.0 + Vec3(41.0)));
    return 11.0 * locks + 4.0 * rings - 4.5;
}

} // namespace

double above_hairline(const Vec3& q) {
    const double azimuth = degrees(std::atan2(q.x, q.z));
    // Near the vertical axis the azimuth means nothing; there it is all hair.
    const double radius = std::hypot(q.x, q.z);
    const double sure = smooth_step(15.0, 60.0, radius);
    const double slope = sure * (hairline()(azimuth + 1.0) - hairline()(azimuth - 1.0)) /
                         (2.0 * radians(1.0) * std::max(radius, 30.0));
    return (q.y - mix(40.0, hairline()(azimuth), sure)) / std::sqrt(1.0 + slope * slope);
}

double HairField::thickness(const Vec3& q, double base) const {
    double above = above_hairline(q);
    // From its parting, hair that hangs is swept over the corners of the forehead.
    if (style_ == HairStyle::bob || style_ == HairStyle::long_hair)
        above += 17.0 * bump(degrees(std::atan2(q.x, q.z)) - 52.0, 9.0);
    if (above < -12.0 || base > 60.0) return -6.0;
    const double top = smooth_step(20.0, 105.0, q.y);
    const double front = smooth_step(20.0, 80.0, q.z);
    double full = 0.0, run = 0.0;
    switch (style_) {
    case HairStyle::tied:
        full = mix(5.5, 8.5, top), run = 30.0;
        break;
    case HairStyle::curly:
        full = mix(mix(4.0, 16.0, smooth_step(-50.0, 0.0, q.y)), 24.0, top), run = 34.0;
        break;
    case HairStyle::bob:
    case HairStyle::long_hair:
        full = mix(13.0, 16.0, top), run = mix(20.0, 42.0, front);
        break;
    default:
        full = mix(mix(2.5, 6.5, smooth_step(-60.0, 15.0, q.y)), 15.0, top),
        run = mix(26.0, 50.0, front);
        break;
    }
    if (above < 0.0) return mix(-0.6, -6.0, smooth_step(0.0, -10.0, above));
    const double t = std::min(above / run, 1.0);
    return mix(-0.6, full, t * (2.0 - t));
}

double HairField::bun(const Vec3& q) const {
    return ellipsoid(q, {0, 72, -112}, {34, 33, 27});
}

// The hanging part of a bob: an elliptic tube, tucked in at the hem, open at the face.
double HairField::curtain(const Vec3& q) const {
    const double tuck =
        9.0 * smooth_step(-30.0, -95.0, q.y) + 6.0 * smooth_step(-70.0, -100.0, q.y);
    const double k = std::hypot(q.x / (92.0 - tuck), (q.z + 10.0) / (97.0 - tuck));
    double d = (k - 1.0) * (90.0 - tuck);
    const double inner =
        (std::hypot(q.x / (78.0 - tuck), (q.z + 10.0) / (83.0 - tuck)) - 1.0) * (78.0 - tuck);
    d = smooth_max(d, -inner, 6.0);
    // Cut a little longer toward the face, and not along a line.
    const double locks = value_noise({q.x / 15.0, 3.0, q.z / 15.0});
    const double broad = value_noise({q.x / 47.0, 8.0, q.z / 47.0});
    d = smooth_max(d, -q.y - 84.0 - 0.14 * q.z + 4.5 * locks + 4.0 * broad, 6.0);
    d = smooth_max(d, q.y - 60.0, 30.0);
    return smooth_max(d, q.z - 40.0 + 0.12 * q.y + 3.0 * value_noise({1.0, q.y / 34.0, 7.0}), 12.0);
}

// It swells where it lies over the ear.
double HairField::over_ear(const Vec3& q) const {
    const double swell =
        ellipsoid(q, ear_centre(shape_) + Vec3(0.0, 0.0, -3.0), {27.0, 46.0, 37.0});
    return smooth_max(swell, q.z - 36.0, 12.0);
}

// Long hair over the upper back: a layer on the clothes, thinning toward its ends.
double HairField::on_the_back(const Vec3& q) const {
    constexpr double cloth_mm = 3.6;
    const double body = with_torso(shape_, q, with_neck(shape_, q, 1e9));
    double d = body - cloth_mm - mix(15.0, 8.0, smooth_step(-220.0, -330.0, q.y));
    // It comes out from under the tube, spreads, and draws together toward the ends.
    const double half = mix(mix(76.0, 92.0, smooth_step(-172.0, -240.0, q.y)), 82.0,
                            smooth_step(-255.0, -335.0, q.y));
    d = smooth_max(d, q.x - half, 24.0);
    d = smooth_max(d, q.z + 62.0, 20.0);
    d = smooth_max(d, q.y + 179.0, 24.0);
    // The ends are not cut along a line.
    const double ragged = 7.0 * value_noise({q.x / 13.0, 0.0, q.z / 40.0});
    return smooth_max(d, -q.y - 322.0 + ragged, 10.0);
}

// Long hair: a tube like the bob's that widens downward and runs out on the shoulders' back.
double HairField::fall(const Vec3& q) const {
    const double low = smooth_step(-40.0, -190.0, q.y);
    // Its end slips under the layer on the back: two edges side by side would leave a groove.
    const double under = 46.0 * smooth_step(-165.0, -270.0, q.y);
    const double wide = mix(92.0, 108.0, low) - under, deep = mix(97.0, 112.0, low) - under;
    const double from_axis = q.z - mix(-10.0, -34.0, low);
    constexpr double thick = 14.0;
    const double outer = (std::hypot(q.x / wide, from_axis / deep) - 1.0) * wide;
    const double inner =
        (std::hypot(q.x / (wide - thick), from_axis / (deep - thick)) - 1.0) * (wide - thick);
    double d = smooth_max(outer, -inner, 6.0);
    d = smooth_max(d, q.y - 60.0, 30.0);
    d = smooth_max(d, -q.y - 262.0, 14.0);
    d = smooth_max(d, q.z - mix(38.0, -28.0, smooth_step(-50.0, -180.0, q.y)), 12.0);
    // The torso's field is only good below the neck's root; further up the layer has faded.
    return q.y > -151.0 ? d : smooth_min(d, on_the_back(q), 26.0);
}

// Curls stand out all round and leave the face open.
double HairField::mass(const Vec3& q) const {
    const double lumps = value_noise(q / 38.0 + Vec3(4.0));
    double d = ellipsoid(q, {0, 46, -20}, {113, 106, 114}) - 5.0 * lumps;
    const double edge = 5.0 * value_noise(q / 16.0 + Vec3(11.0));
    const double opening = (std::hypot(q.x / 72.0, (q.y + 4.0) / 97.0) - 1.0) * 72.0 + edge;
    d = smooth_max(d, -smooth_max(opening, 14.0 - q.z, 16.0), 10.0);
    // The nape stays free.
    return smooth_max(d, -q.y - 62.0 - 0.30 * q.z + edge, 18.0);
}

double HairField::at(const Vec3& p) const {
    const Vec3 q = shape_.canonical(p);
    double base = skull(shape_, q);
    base = carve(base, ellipsoid(q, {95, 32, 50}, {26, 36, 42}), 40);
    if (q.y < 20.0) base = with_neck(shape_, q, base);
    double d = base - thickness(q, base);
    if (style_ == HairStyle::tied) d = smooth_min(d, bun(q), 8);
    if (style_ == HairStyle::curly) d = smooth_min(d, mass(q), 16);
    if (style_ == HairStyle::bob || style_ == HairStyle::long_hair) {
        d = smooth_min(d, style_ == HairStyle::bob ? curtain(q) : fall(q), 14);
        d = smooth_min(d, over_ear(q), 16);
        const double parting =
            bump(q.x, 2.2) * smooth_step(70.0, 100.0, q.y) * smooth_step(-60.0, -30.0, q.z);
        d += 2.6 * parting;
    }
    return d * shape_.scale_at(q.y);
}

Vec3 hair_flow(HairStyle style, const Vec3& q, const Vec3& normal) {
    Vec3 along;
    if (style == HairStyle::tied) {
        // Drawn back into the knot, and wound about it.
        along = glm::normalize(Vec3(0, 72, -112) - q);
        const double wound = smooth_step(44.0, 34.0, glm::length(q - Vec3(0, 72, -112)));
        along = glm::mix(along, glm::cross(normal, Vec3(0.2, 0.1, -1.0)), wound);
    } else if (style == HairStyle::curly) {
        // Every lock turns its own way.
        const Vec3 at = q / 19.0;
        along = Vec3(value_noise(at), value_noise(at + Vec3(17.0, 5.0, 3.0)) - 0.25,
                     value_noise(at + Vec3(2.0, 29.0, 11.0)));
    } else if (style == HairStyle::bob || style == HairStyle::long_hair) {
        const Vec3 outward(q.x, 0.0, 0.35 * (q.z + 10.0));
        along =
            mix(0.0, 1.0, smooth_step(20.0, 120.0, q.y)) * glm::normalize(outward + Vec3(1e-6)) -
            Vec3(0, 1, 0);
    } else {
        const Vec3 centre(0.0, 46.0, -13.0);
        const Vec3 from_crown = (q - centre) / 85.0 - crown(style);
        const Vec3 swirl = glm::cross(crown(style), from_crown) * 0.35;
        along = from_crown + swirl;
    }
    along -= normal * glm::dot(along, normal);
    const double length = glm::length(along);
    return length > 1e-9 ? along / length : Vec3(0, -1, 0);
}

double strand_relief(HairStyle style, const Vec3& q) {
    if (style == HairStyle::curly) return curl_relief(q);
    // Polar coordinates about the parting or the crown; the angle enters as a point of a circle, so
    // that nothing jumps where it wraps.
    double turn = 0.0, along = 0.0, radius = 60.0;
    if (style == HairStyle::bob || style == HairStyle::long_hair) {
        turn = std::atan2(q.x, q.z + 30.0);
        along = q.y;
        radius = 78.0;
    } else {
        const Vec3 pole = crown(style);
        const Vec3 side = glm::normalize(glm::cross(pole, Vec3(1.0, 0.0, 0.0)));
        const Vec3 other = glm::cross(side, pole);
        const Vec3 unit = glm::normalize(q - Vec3(0.0, 46.0, -13.0));
        along = std::acos(std::clamp(glm::dot(unit, pole), -1.0, 1.0)) * 80.0;
        turn = std::atan2(glm::dot(unit, other), glm::dot(unit, side)) + 0.0025 * along;
    }
    const auto strands = [&](double angle, double across_mm, double along_mm, double layer) {
        const double r = radius / across_mm;
        return value_noise({r * std::cos(angle) + layer, r * std::sin(angle), along / along_mm});
    };
    turn += 0.06 * strands(turn, 30.0, 40.0, 3.0);
    // Locks, the tufts that they part into, and strands.
    const bool hangs = style == HairStyle::bob || style == HairStyle::long_hair;
    const double locks = style == HairStyle::tied ? 0.5 : hangs ? 1.9 : 1.0;
    return locks * strands(turn, hangs ? 24.0 : 15.0, hangs ? 110.0 : 34.0, 13.0) +
           0.9 * strands(turn, 9.5, 60.0, 0.0) + 0.5 * strands(turn, 4.2, 50.0, 7.0);
}

} // namespace keystead::sculpt
