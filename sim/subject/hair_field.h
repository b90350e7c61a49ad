// Hair as a solid over the skull; strands are added to its mesh afterwards.
#pragma once

#include "sim/subject/head.h"

namespace keystead::sculpt {

class HairField final : public Field {
public:
    HairField(const Shape& shape, HairStyle style)
        : shape_(shape)
        , style_(style) {}
    double at(const Vec3& point_mm) const override;

private:
    double thickness(const Vec3& q, double base) const;
    double bun(const Vec3& q) const;
    double curtain(const Vec3& q) const;
    double over_ear(const Vec3& q) const;
    double fall(const Vec3& q) const;
    double on_the_back(const Vec3& q) const;
    double mass(const Vec3& q) const;

    const Shape& shape_;
    HairStyle style_;
};

/// Millimetres above the hairline (negative: bare skin), canonical.
double above_hairline(const Vec3& q);

/// Unit direction in which strands run at a point, canonical; toward their ends.
Vec3 hair_flow(HairStyle style, const Vec3& q, const Vec3& normal);

/// Outward displacement by strands, clumps and curls, millimetres, x of either side.
double strand_relief(HairStyle style, const Vec3& q_signed);

/// Hair that hangs below the jaw and rests on the body.
inline bool falls(HairStyle style) {
    return style == HairStyle::long_hair;
}

} // namespace keystead::sculpt
