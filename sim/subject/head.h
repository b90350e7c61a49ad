// The field of head and neck, part by part. Parts take canonical points (see shape.h) except the
// lids and the eyeball, whose size no proportion changes.
#pragma once

#include "sim/subject/shape.h"

namespace keystead::sculpt {

/// Skull and face loft without features: what hair grows on.
double skull(const Shape& shape, const Vec3& q);
/// Brow, cheekbones, hollows, chin and muzzle added to `d`.
double with_bones(const Shape& shape, const Vec3& q, double d);
/// The nose alone, without nostrils.
double nose_solid(const Shape& shape, const Vec3& q);
/// Nose blended onto `d`, nostrils and wing creases cut.
double with_nose(const Shape& shape, const Vec3& q, double d);

/// Lips as a displacement of the face, and how much of a point is vermilion.
struct Lips {
    double out_mm = 0.0;
    double vermilion = 0.0; ///< 0..1
    double line = 0.0;      ///< 0..1: where the lips meet
};
Lips lips_at(const Shape& shape, const Vec3& q);
/// Small folds: tear trough, philtrum, nasolabial fold, forehead; outward millimetres.
double folds_at(const Shape& shape, const Vec3& q);

/// Point relative to the left eye's centre; x away from the nose.
Vec3 eye_relative(const Shape& shape, const Vec3& point_mm);
/// Upper and lower edge of the lid opening at `u`, eye-relative; equal outside the corners.
struct LidEdges {
    double upper = 0.0, lower = 0.0;
};
LidEdges lid_edges(const Shape& shape, double u);
inline constexpr double eye_radius_mm = 12.0;
inline constexpr double cornea_ahead_mm = 12.8; ///< of the eye's centre
/// Lids, crease, opening and inner corner on `d`; `e` is eye-relative.
double with_lids(const Shape& shape, const Vec3& e, double d);

/// Ear blended onto `d`.
double with_ear(const Shape& shape, const Vec3& q, double d);
/// Canonical middle of the ear, and a radius that holds all of it.
inline constexpr double ear_y = -1.0, ear_z = -8.0;
double ear_reach_mm(const Shape& shape);
Vec3 ear_centre(const Shape& shape);

/// Neck with its muscles blended onto `d`; the throat notch.
double with_neck(const Shape& shape, const Vec3& q, double d);

/// All of head and neck on the bare shoulders.
class SkinField final : public Field {
public:
    explicit SkinField(const Shape& shape)
        : shape_(shape) {}
    double at(const Vec3& point_mm) const override;

private:
    const Shape& shape_;
};

} // namespace keystead::sculpt
