#include "sim/subject/rough_landmarks.h"

namespace keystead {

Landmarks rough_landmarks(const Subject& subject) {
    const double standing = 0.935 * subject.stature_m;
    const double eyes = subject.posture == Posture::seated
                            ? subject.seat_height_m + 0.455 * subject.stature_m
                            : standing;
    Landmarks rough;
    const auto at = [&](double up, double forward) { return Vec3(0.0, eyes + up, forward); };
    rough.face = rough.sellion = at(0.0, 0.09);
    rough.pronasale = at(-0.045, 0.12);
    rough.menton = at(-0.12, 0.08);
    rough.vertex = rough.hair_top = at(0.12, 0.0);
    rough.chest = at(-0.40, 0.10);
    rough.cheek_left = at(-0.045, 0.085) + Vec3(0.035, 0, 0);
    rough.cheek_right = at(-0.045, 0.085) - Vec3(0.035, 0, 0);
    rough.pupil_left = at(0.0, 0.08) + Vec3(0.031, 0, 0);
    rough.pupil_right = at(0.0, 0.08) - Vec3(0.031, 0, 0);
    return rough;
}

} // namespace keystead
