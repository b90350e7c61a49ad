// Clothing from the body's field: a knitted top with a collar band, trousers, plain shoes.
#include "sim/subject/body.h"
#include "sim/subject/head.h"

namespace keystead::sculpt {

namespace {

constexpr double thickness_mm = 3.6;

// The neck hole: a leaning ellipsoid that goes on straight up. It keeps its distance from the neck.
double neck_hole(const Shape& s, const Vec3& q) {
    Vec3 p = q - Vec3(0, -138, -33);
    if (p.y > 0.0) p.y *= 0.25;
    const double c = std::cos(-0.30), si = std::sin(-0.30);
    p = Vec3(p.x, c * p.y - si * p.z, si * p.y + c * p.z);
    const double wide = 0.8 * (s.neck_radius - 5.0);
    return ellipsoid(p, Vec3(0.0), {81 + wide, 74, 81 + wide});
}

} // namespace

// Sleeves hang a little full and bridge the armpit.
double ClothField::with_sleeve(const Vec3& q, double d) const {
    const Limbs& l = limbs_;
    const bool seated = shape_.measures.seated;
    if (arm_ == ArmBend::hanging) {
        const Vec3 sleeve_top = l.shoulder + Vec3(4, -30, 0);
        double sleeve = capsule(q, sleeve_top, l.elbow, 49, 44);
        sleeve = smooth_min(sleeve, capsule(q, l.elbow, l.wrist, 43, 33), 20);
        return smooth_min(d, sleeve, seated ? 24 : 16);
    }
    const Vec3 sleeve_top = l.shoulder + 30.0 * glm::normalize(l.elbow - l.shoulder);
    d = smooth_min(d, capsule(q, sleeve_top, l.elbow, 50, 43), 30);
    // A crossed forearm reaches over the midline and is made apart.
    if (crossed(arm_)) return d;
    return smooth_min(d, capsule(q, l.elbow, l.wrist, 43, 33), 12);
}

double ClothField::body(const Vec3& q) const {
    const Limbs& l = limbs_;
    const double neck = q.y > -260.0 ? with_neck(shape_, q, 1e9) : 1e9;
    double d = arm_ == ArmBend::hanging ? with_torso(shape_, q, neck) : with_trunk(shape_, q, neck);
    d = with_sleeve(q, d);
    if (q.y > -560.0) return d;
    double leg = capsule(q, l.hip, l.knee, 92, 68);
    leg = smooth_min(leg, capsule(q, l.knee, l.ankle, 66, 52), 30);
    d = smooth_min(d, leg, 30);
    if (q.y > l.ankle.y + 120.0) return d;
    const Vec3 turned = q - Vec3(l.ankle.x, l.sole_y, l.ankle.z);
    const Vec3 foot(turned.x - limbs_.toe_turn * turned.z, turned.y, turned.z);
    double shoe = ellipsoid(foot, {0, 34, 62}, {46, 46, 140});
    shoe = smooth_min(shoe, ellipsoid(foot, {0, 46, -8}, {40, 58, 58}), 20);
    return smooth_min(d, smooth_max(shoe, -foot.y + 2.0, 6.0), 8);
}

double ClothField::at(const Vec3& p) const {
    const Vec3 q = shape_.canonical(p);
    return (body(q) - thickness_mm) * shape_.scale_at(q.y);
}

double ClothField::hole(const Vec3& p) const {
    const Vec3 q = shape_.canonical(p);
    return neck_hole(shape_, q) * shape_.scale_at(q.y);
}

} // namespace keystead::sculpt
