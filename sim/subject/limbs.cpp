// Arms, legs, feet and hands of a posture; simple shapes for dressed limbs.
#include "sim/subject/body.h"

namespace keystead::sculpt {

namespace {

constexpr double shin_mm = 405.0;  ///< knee to ankle
constexpr double thigh_mm = 455.0; ///< hip to knee when seated, less the seat's sinking in

void seat(Limbs& limbs, const Shape& s) {
    limbs.sole_y = canonical_y::seat - s.measures.seat_height / s.body_scale;
    const double ankle_y = limbs.sole_y + 88.0;
    const double level_y = canonical_y::seat + 74.0;
    // A seat above the hollow of the knee lets the thighs slope; a low one sends the feet forward.
    const double knee_y = std::min(level_y, ankle_y + 0.985 * shin_mm);
    const double drop = level_y - knee_y;
    const double reach = std::sqrt(std::max(thigh_mm * thigh_mm - drop * drop, 150.0 * 150.0));
    const double shin_drop = knee_y - ankle_y;
    const double forward = std::sqrt(std::max(shin_mm * shin_mm - shin_drop * shin_drop, 0.0));
    limbs.hip = {88, level_y + 6.0, -62};
    limbs.knee = {112, knee_y, -62 + reach};
    limbs.ankle = {116, ankle_y, limbs.knee.z - 55.0 + 0.8 * forward};
    const double along = (205.0 - limbs.hip.z) / reach;
    const double lap_y = mix(limbs.hip.y, knee_y, along) + 70.0;
    limbs.elbow = {236, -502, -66};
    limbs.wrist = {168, lap_y + 22.0, 158};
    limbs.knuckles = {138, lap_y + 4.0, 246};
}

} // namespace

Limbs limbs_of(const Shape& s) {
    Limbs limbs;
    const double out = s.deltoid_out;
    limbs.shoulder.x += out, limbs.elbow.x += out, limbs.wrist.x += out, limbs.knuckles.x += out;
    if (s.measures.seated) seat(limbs, s);
    return limbs;
}

HandField::HandField(const Shape& shape)
    : shape_(shape) {
    const Limbs limbs = limbs_of(shape);
    wrist_ = shape.from_canonical(limbs.wrist);
    along_ = glm::normalize(shape.from_canonical(limbs.knuckles) - wrist_);
    // Palm toward the thigh: inward when hanging, down when resting on the lap.
    const bool seated = shape.measures.seated;
    const Vec3 palm_hint = seated ? Vec3(0, -1, 0.1) : Vec3(-1, 0, -0.15);
    const Vec3 thumb_hint = seated ? Vec3(-1, 0, 0) : Vec3(0, 0, 1);
    out_ = glm::normalize(palm_hint - along_ * glm::dot(along_, palm_hint));
    across_ = glm::normalize(glm::cross(out_, along_));
    if (glm::dot(across_, thumb_hint) < 0.0) across_ = -across_;
    const double size = (shape.measures.female ? 0.937 : 1.0) * shape.body_scale /
                        (shape.measures.female ? 0.927 : 1.0);
    palm_ = wrist_ + along_ * (52.0 * size);
    const double length[5] = {62, 78, 86, 80, 62}, radius[5] = {10.5, 8.4, 8.6, 8.2, 7.2};
    const double place[5] = {30, 27, 9, -9, -26};
    for (int i = 0; i < 5; ++i) {
        const bool thumb = i == 0;
        const Vec3 root =
            wrist_ + size * (along_ * (thumb ? 34.0 : 92.0 - 0.004 * square(place[i] - 9)) +
                             across_ * place[i] + out_ * (thumb ? 10.0 : 0.0));
        const Vec3 first = glm::normalize(along_ + across_ * (thumb ? 0.62 : place[i] * 0.0022) +
                                          out_ * (thumb ? 0.35 : 0.22));
        const Vec3 second = glm::normalize(along_ + across_ * (thumb ? 0.18 : -place[i] * 0.002) +
                                           out_ * (thumb ? 0.35 : 0.62));
        const Vec3 middle = root + first * (0.55 * size * length[i]);
        fingers_[i] = {root, middle, middle + second * (0.45 * size * length[i]), size * radius[i]};
    }
    low_ = high_ = wrist_;
    for (const Finger& f : fingers_) {
        low_ = glm::min(low_, glm::min(f.root, f.tip));
        high_ = glm::max(high_, glm::max(f.root, f.tip));
    }
    low_ -= Vec3(36.0);
    high_ += Vec3(36.0);
}

double HandField::at(const Vec3& p) const {
    const Vec3 from = p - palm_;
    const Vec3 local(glm::dot(from, across_), glm::dot(from, along_), glm::dot(from, out_));
    double d = ellipsoid(local, {2, 0, 1}, {41, 54, 15.5});
    d = smooth_min(d, capsule(p, wrist_ - along_ * 30.0, wrist_ + along_ * 20.0, 27, 24), 14);
    for (const Finger& f : fingers_) {
        double finger = capsule(p, f.root, f.middle, f.radius * 1.06, f.radius);
        finger = smooth_min(finger, capsule(p, f.middle, f.tip, f.radius, f.radius * 0.84), 3);
        d = smooth_min(d, finger, 7);
    }
    return d;
}

} // namespace keystead::sculpt
