// Torso, arms and legs: canonical field, used bare at the shoulders and dressed elsewhere.
#pragma once

#include "sim/base/mesh.h"
#include "sim/subject/shape.h"

namespace keystead::sculpt {

/// What one arm does. Of crossed arms one forearm lies over the other.
enum class ArmBend { hanging, on_hip, crossed_over, crossed_under };
struct ArmBends {
    ArmBend left = ArmBend::hanging, right = ArmBend::hanging;
};
ArmBends arms_of(ArmPose pose);
inline bool crossed(ArmBend arm) {
    return arm == ArmBend::crossed_over || arm == ArmBend::crossed_under;
}

/// Where the limbs of a posture lie, canonical millimetres, left side. A crossed arm's wrist has
/// a negative x: it lies beyond the midline.
struct Limbs {
    Vec3 shoulder{188, -232, -54}, elbow{226, -512, -66}, wrist{232, -768, -14};
    Vec3 knuckles{230, -862, 8};
    Vec3 hip{90, -770, -58}, knee{97, -1130, -50}, ankle{102, -1535, -78};
    double sole_y = canonical_y::floor;
    double toe_turn = 0.12; ///< slope of the foot outward
};
Limbs limbs_of(const Shape& shape, ArmBend arm = ArmBend::hanging);

/// Torso, shoulders and collar bones blended onto `d`.
double with_trunk(const Shape& shape, const Vec3& q, double d);
/// The same with hanging upper arms.
double with_torso(const Shape& shape, const Vec3& q, double d);
/// The hollows above the collar bones and the throat notch: bare skin only.
double with_hollows(const Vec3& q, double d);

/// Dressed body: everything from the collar down, hands and neck left out. Signed distance of the
/// cloth's outer face.
class ClothField final : public Field {
public:
    explicit ClothField(const Shape& shape, ArmBend arm = ArmBend::hanging)
        : shape_(shape)
        , arm_(arm)
        , limbs_(limbs_of(shape, arm)) {}
    /// Without the neck hole, which is cut from the finished surface.
    double at(const Vec3& point_mm) const override;
    /// Distance from the neck hole's wall, negative inside the hole.
    double hole(const Vec3& point_mm) const;

private:
    double body(const Vec3& q) const;
    double with_sleeve(const Vec3& q, double d) const;

    const Shape& shape_;
    ArmBend arm_;
    Limbs limbs_;
};

/// The collar's edge: where the neck hole's wall comes out of the cloth, one point per direction
/// about the neck, the first straight ahead, turning toward the subject's left.
struct CollarLine {
    Vec3 centre_mm{0.0};
    std::vector<Vec3> points_mm;
};
CollarLine collar_line(const Shape& shape, const ClothField& cloth);
/// Is a point of the cloth inside the neck hole, or so near its edge that the band covers it?
bool under_collar(const CollarLine& line, const ClothField& cloth, const Vec3& point_mm);
/// The knitted band along the line, metres.
Mesh collar_mesh(const CollarLine& line, const ClothField& cloth);

/// The sleeve of a crossed forearm from the elbow on, left; may reach beyond the midline.
class ForearmField final : public Field {
public:
    ForearmField(const Shape& shape, ArmBend arm);
    double at(const Vec3& point_mm) const override;
    Vec3 low_mm() const;
    Vec3 high_mm() const;

private:
    Vec3 elbow_, wrist_;
    double size_;
};

/// One hand, left.
class HandField final : public Field {
public:
    explicit HandField(const Shape& shape, ArmBend arm = ArmBend::hanging);
    double at(const Vec3& point_mm) const override;
    Vec3 low_mm() const { return low_; }
    Vec3 high_mm() const { return high_; }

private:
    struct Finger {
        Vec3 root, middle, tip;
        double radius;
    };
    double wrist(const Vec3& p) const;

    const Shape& shape_;
    bool straight_; ///< the hand goes on as the forearm does
    Vec3 wrist_, sleeve_end_, palm_, along_, across_, out_;
    Finger fingers_[5];
    Vec3 low_, high_;
};

} // namespace keystead::sculpt
