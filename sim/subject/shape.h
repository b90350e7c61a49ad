// Everything that decides one subject's surface: the numbers the field functions read.
//
// The surface is modelled once, on a canonical male body; `Shape::canonical` bends a subject's
// space onto it (heights by a monotone map, breadths and depths by scale curves). What bending
// cannot do (a heavier brow, a longer nose) is a parameter here; those with a measurable result are
// solved for.
#pragma once

#include "sim/subject/curve.h"
#include "sim/subject/field.h"
#include "sim/subject/measures.h"

namespace keystead::sculpt {

/// Canonical heights of the modelled face and body, mm above the tragion.
namespace canonical_y {
inline constexpr double top = 131.15, sellion = 21.6, pupil = 16.6, subnasale = -30.4,
                        stomion = -53.0, menton = -101.0, shoulder = -184.4, seat = -787.1,
                        floor = -1625.0;
}

struct Shape {
    Measures measures;

    // Solved against measures (see solve.h); the values here are good starts.
    double cranium_half_breadth = 77.0, cranium_up = 85.15, cranium_back = 89.5;
    double cranium_fullness = 2.6; ///< exponent of its section
    double zygoma = 0.2, gonion = -8.5;
    double nose_protrusion = 1.06, nose_breadth = 1.02;
    double neck_radius = 5.0;
    double deltoid_out = 14.5, acromion_out = 0.0;
    double ear_out = 0.0; ///< the ears go with the sides of the head
    Vec3 ear_space{1.0};  ///< a canonical millimetre at the ear, in the subject's
    double ridge = 0.0;   ///< of the brow over each eye, outward

    // Preset differences that bending does not give.
    double brow_forward = 0.0, brow_outer_lift = 0.0;
    double larynx_forward = 0.0;
    double cheek_hollow_x = 74.0;
    double cheek_fullness = 0.0; ///< fat over the cheek, outward
    double brow_width = 1.0;     ///< of the painted eyebrow
    double face_breadth = 1.0;   ///< against what the scales give
    double chin_taper = 0.0;     ///< share of the jaw's breadth that its front part lacks
    double lip_fullness = 1.0;
    /// Canonical heights of the lips' red at the midline.
    double upper_lip = 8.0, lower_lip = 9.6;
    double bust = 0.0;
    double menton_behind_sellion = 11.0; ///< kept by the solver, for the slanted lengths
    double subnasale_ahead_of_sellion = 6.0;
    double lid_opening = 1.0; ///< height of the upper lid's edge, against the modelled one
    double nose_base = canonical_y::subnasale; ///< canonical height of the corner under the nose

    Vec3 eye{32.0, canonical_y::pupil, 71.0}; ///< centre of the left eyeball, subject's space
    Vec3 eye_canonical{32.0, canonical_y::pupil, 71.0};

    Curve height;                        ///< subject's height -> canonical height
    Curve scale_x, scale_z, axis_z;      ///< over canonical height
    double body_scale = 1.0;             ///< stature over the canonical stature
    double floor_y = canonical_y::floor; ///< subject's space

    /// Subject's point -> canonical point; x is folded to the left half first.
    Vec3 canonical(const Vec3& point_mm) const;
    /// Canonical point -> subject's, for placing landmarks and joints.
    Vec3 from_canonical(const Vec3& point_mm) const;
    /// Subject's height of a canonical one (inverse of `height`).
    double height_of(double canonical_height) const;
    /// Length of a subject's millimetre against a canonical one, the smaller of the two scales.
    double scale_at(double canonical_height) const;
};

/// Canonical heights at which the surface has its landmarks.
struct FaceHeights {
    double sellion = canonical_y::sellion, subnasale = canonical_y::subnasale,
           menton = canonical_y::menton;
};
/// Lays out the heights so that the canonical heights given come to lie at the measured ones.
void set_heights(Shape& shape, const FaceHeights& canonical);

/// The shape before solving: heights, scales and preset differences.
Shape unsolved_shape(const Measures& measures);

} // namespace keystead::sculpt
