// The body's two sides where they differ: each meshed alone, then joined along the middle.
#pragma once

#include "sim/subject/surface.h"

namespace keystead::sculpt {

/// One side's mesh in metres from its surface, modelled as the left one; needs normals. Points
/// lie `shift_mm` to the left of where they belong.
Mesh side_mesh(const Surface& surface, bool left, double shift_mm = 0.0);

/// Both sides as one; points that both have on the mirror plane become one where they coincide.
Mesh joined_sides(const Mesh& left, const Mesh& right);

/// A field moved to the subject's left, so that a solid about the midline can be meshed alone:
/// a grid that contains the mirror plane would be taken for half of something symmetric.
class ShiftedField final : public Field {
public:
    static constexpr double shift_mm = 1000.0;

    explicit ShiftedField(const Field& field)
        : field_(field) {}
    double at(const Vec3& p) const override { return field_.at(p - Vec3(shift_mm, 0, 0)); }

private:
    const Field& field_;
};

} // namespace keystead::sculpt
