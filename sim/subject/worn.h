// What a head wears: hat and glasses, fitted to a finished form and rigid with the head.
#pragma once

#include "sim/subject/subject.h"

namespace keystead::worn {

/// The brim's underside leaves the forehead so far above the pupils (common practice: a finger or
/// two above the brows).
inline constexpr double brim_above_pupils_m = 0.045;

/// Where a hat sits: its own frame (x to the subject's left, y up the crown, z forward), whose
/// origin is the middle of the head at the brim, and the ellipse that just holds the head above it.
struct HatSeat {
    Vec3 origin_m{0.0};
    Mat3 axes{1.0};
    double half_breadth_m = 0.0, half_length_m = 0.0; ///< of the hat's inside
    double head_top_m = 0.0;                          ///< above the brim's underside
    double crown_m = 0.0; ///< the document's, or as much as the head in it needs

    Vec3 local(const Vec3& point_m) const { return glm::transpose(axes) * (point_m - origin_m); }
};
HatSeat seat_of(const SubjectForm& form, const Hat& hat);

/// For the eye, or coarse for shadow maps.
enum class Detail { fine, coarse };

/// Felt with a band: one closed solid; the underside of the brim's front is level with the seat's
/// origin and stands `brim_mm` out from the band. Colours are shares of the hat's reflectance.
Mesh hat_mesh(const HatSeat& seat, const Hat& hat, Detail detail = Detail::fine);

/// Hair inside the crown, laid flat against the head so that it stays there. Moves `mesh`'s
/// vertices; with `hair_only` just those of Region::hair.
void press_hair(Mesh& mesh, const HatSeat& seat, bool hair_only);

/// One lens: its front surface is the part of a sphere about `sphere_centre_m` that its outline
/// cuts out. `axes`: columns right (subject's left), up, normal at the lens's middle.
std::array<LensSurface, 2> lenses_of(const SubjectForm& form, const Glasses& glasses);

/// A point of the lens's front surface, by distances along its axes.
Vec3 on_lens(const LensSurface& lens, double x_m, double y_m);

/// The front surfaces alone, two open sheets; normals are the spheres'.
Mesh lens_mesh(const std::array<LensSurface, 2>& lenses);

/// Rims, bridge and temples. Colours are shares of the frame's reflectance.
Mesh frame_mesh(const SubjectForm& form, const std::array<LensSurface, 2>& lenses,
                Detail detail = Detail::fine);

} // namespace keystead::worn
