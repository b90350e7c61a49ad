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

// Elbow of an arm whose shoulder and wrist are given; it points toward `pole` as far as it can.
Vec3 elbow_between(const Vec3& shoulder, const Vec3& wrist, const Vec3& pole) {
    constexpr double upper_mm = 283.0, lower_mm = 261.0; // of the hanging arm
    const double reach = std::min(glm::length(wrist - shoulder), upper_mm + lower_mm - 1.0);
    const Vec3 along = glm::normalize(wrist - shoulder);
    const double foot = (square(upper_mm) - square(lower_mm) + square(reach)) / (2.0 * reach);
    const double height = std::sqrt(std::max(square(upper_mm) - square(foot), 0.0));
    const Vec3 out = glm::normalize(pole - along * glm::dot(pole, along));
    return shoulder + along * foot + out * height;
}

void bend(Limbs& limbs, ArmBend arm) {
    Vec3 hand(0.0), pole(0.0);
    if (arm == ArmBend::on_hip) {
        // The hand lies on the hip bone, fingers forward; the elbow points out and a little back.
        limbs.wrist = {192, -570, -78};
        hand = {-0.42, -0.25, 0.87}, pole = {0.94, 0.0, -0.34};
    } else if (arm == ArmBend::crossed_over) {
        limbs.wrist = {-22, -408, 133};
        hand = {-0.85, 0.06, -0.52}, pole = {0.6, -0.8, -0.1};
    } else {
        limbs.wrist = {-34, -452, 90};
        hand = {-0.80, 0.0, -0.60}, pole = {0.6, -0.8, -0.1};
    }
    limbs.elbow = elbow_between(limbs.shoulder, limbs.wrist, pole);
    limbs.knuckles = limbs.wrist + 96.0 * hand;
}

} // namespace

ArmBends arms_of(ArmPose pose) {
    switch (pose) {
    case ArmPose::left_on_hip:
        return {ArmBend::on_hip, ArmBend::hanging};
    case ArmPose::right_on_hip:
        return {ArmBend::hanging, ArmBend::on_hip};
    case ArmPose::both_on_hips:
        return {ArmBend::on_hip, ArmBend::on_hip};
    case ArmPose::crossed:
        return {ArmBend::crossed_over, ArmBend::crossed_under};
    default:
        return {};
    }
}

Limbs limbs_of(const Shape& s, ArmBend arm) {
    Limbs limbs;
    const double out = s.deltoid_out;
    limbs.shoulder.x += out, limbs.elbow.x += out, limbs.wrist.x += out, limbs.knuckles.x += out;
    if (s.measures.seated) seat(limbs, s);
    if (arm != ArmBend::hanging) bend(limbs, arm);
    return limbs;
}

ForearmField::ForearmField(const Shape& shape, ArmBend arm)
    : size_(shape.scale_at(-460.0)) {
    const Limbs limbs = limbs_of(shape, arm);
    elbow_ = shape.from_canonical(limbs.elbow);
    wrist_ = shape.from_canonical(limbs.wrist);
}

double ForearmField::at(const Vec3& p) const {
    return capsule(p, elbow_, wrist_, 46.0 * size_, 36.5 * size_);
}

Vec3 ForearmField::low_mm() const {
    return glm::min(elbow_, wrist_) - Vec3(60.0);
}

Vec3 ForearmField::high_mm() const {
    return glm::max(elbow_, wrist_) + Vec3(60.0);
}

HandField::HandField(const Shape& shape, ArmBend arm)
    : shape_(shape)
    , straight_(arm == ArmBend::hanging) {
    const Limbs limbs = limbs_of(shape, arm);
    wrist_ = shape.from_canonical(limbs.wrist);
    along_ = glm::normalize(shape.from_canonical(limbs.knuckles) - wrist_);
    // Palm toward the thigh or the hip, down when resting on the lap, toward the other arm when
    // crossed.
    // A bent wrist: the forearm comes from elsewhere than the hand goes.
    const Vec3 forearm = glm::normalize(wrist_ - shape.from_canonical(limbs.elbow));
    sleeve_end_ = wrist_ - 30.0 * (straight_ ? along_ : forearm);
    const bool on_lap = shape.measures.seated && arm == ArmBend::hanging;
    Vec3 palm_hint = on_lap ? Vec3(0, -1, 0.1) : Vec3(-1, 0, -0.15);
    Vec3 thumb_hint = on_lap ? Vec3(-1, 0, 0) : Vec3(0, 0, 1);
    if (arm != ArmBend::hanging) thumb_hint = {0, 1, 0};
    if (crossed(arm)) palm_hint = {-0.2, 0, -1};
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

double HandField::wrist(const Vec3& p) const {
    const Vec3 end = wrist_ + along_ * 20.0;
    if (straight_) return capsule(p, sleeve_end_, end, 27, 24);
    return smooth_min(capsule(p, sleeve_end_, wrist_, 26, 25.5), capsule(p, wrist_, end, 25.5, 24),
                      8);
}

double HandField::at(const Vec3& p) const {
    const Vec3 from = p - palm_;
    const Vec3 local(glm::dot(from, across_), glm::dot(from, along_), glm::dot(from, out_));
    double d = ellipsoid(local, {2, 0, 1}, {41, 54, 15.5});
    d = smooth_min(d, wrist(p), 14);
    for (const Finger& f : fingers_) {
        double finger = capsule(p, f.root, f.middle, f.radius * 1.06, f.radius);
        finger = smooth_min(finger, capsule(p, f.middle, f.tip, f.radius, f.radius * 0.84), 3);
        d = smooth_min(d, finger, 7);
    }
    return d;
}

} // namespace keystead::sculpt
