// Meshes of hands and clothes; where the arms differ each side is made alone.
#include "sim/subject/build.h"
#include "sim/subject/paint.h"
#include "sim/subject/sides.h"

#include <tbb/parallel_invoke.h>

namespace keystead::sculpt {

namespace {

GridAxes cloth_axes(const Shape& s, ArmBend arm) {
    const bool seated = s.measures.seated;
    GridAxes axes;
    double wide = 0.5 * s.measures.bideltoid + 60.0;
    const Limbs limbs = limbs_of(s, arm);
    // An elbow may stand out.
    wide = std::max(wide, s.from_canonical(limbs.elbow).x + 66.0);
    axes.x = mirror_axis({{100, 6.0}, {wide, 9.0}});
    axes.y = graded_axis(
        s.height_of(limbs.sole_y) - 29.0,
        {{s.height_of(-330.0), 13.0}, {s.height_of(-215.0), 6.0}, {s.height_of(-60.0), 4.0}});
    axes.z = graded_axis(-215, {{90, 8.0}, {seated ? limbs.ankle.z + 240.0 : 180.0, 13.0}});
    return axes;
}

double ease_of_cloth(const Shape& s, const Vec3& p) {
    return mix(1.0, 3.5, smooth_step(-240.0, -480.0, s.height(p.y)));
}

ToMesh one_side(bool left, double shift_mm) {
    return {[=](const Surface& surface) { return side_mesh(surface, left, shift_mm); }, true};
}

// Graded evenly over a solid's box, all of it on one side of the mirror plane.
GridAxes box_axes(const Vec3& low, const Vec3& high, double shift_mm, double step) {
    return {graded_axis(low.x + shift_mm, {{high.x + shift_mm, step}}),
            graded_axis(low.y, {{high.y, step}}), graded_axis(low.z, {{high.z, step}})};
}

Built build_hand(const Shape& s, ArmBend arm, const ToMesh& to_mesh, double shift_mm) {
    const HandField hand(s, arm);
    const ShiftedField shifted(hand);
    const Field& field = shift_mm > 0.0 ? static_cast<const Field&>(shifted) : hand;
    Surface surface = surface_nets(field, box_axes(hand.low_mm(), hand.high_mm(), shift_mm, 4.2));
    relax(surface, field, 2);
    CollapseLimits limits;
    limits.chord_mm = 0.2;
    return finish(surface, field, limits, 4.0, to_mesh);
}

CollapseLimits cloth_limits(const Shape& s) {
    CollapseLimits limits;
    limits.chord_mm = 0.33;
    limits.size = body_size(s.measures);
    limits.longest_mm = 40.0;
    limits.ease_at = [&](const Vec3& p) { return ease_of_cloth(s, p); };
    // Folds are laid on afterwards and need vertices.
    limits.longest_at = [&](const Vec3& p) { return s.height(p.y) > -540.0 ? 23.0 : 45.0; };
    return limits;
}

Built build_cloth_side(const Shape& s, ArmBend arm, const ToMesh& to_mesh) {
    const ClothField field(s, arm);
    Surface surface = surface_nets(field, cloth_axes(s, arm));
    const CollarLine line = collar_line(s, field);
    drop_triangles(surface, [&](const Vec3& p) {
        // A large neck leaves the neck hole again under the chin.
        const Vec3 q = s.canonical(p);
        return (q.z > 10.0 && q.y > -140.0) || under_collar(line, field, p);
    });
    relax(surface, field, 2);
    return finish(surface, field, cloth_limits(s), 3.0, to_mesh);
}

Built build_forearm(const Shape& s, ArmBend arm, bool left) {
    const ForearmField forearm(s, arm);
    const ShiftedField field(forearm);
    constexpr double shift = ShiftedField::shift_mm;
    Surface surface = surface_nets(field, box_axes(forearm.low_mm(), forearm.high_mm(), shift, 8));
    relax(surface, field, 2);
    return finish(surface, field, cloth_limits(s), 3.0, one_side(left, shift));
}

Built build_garment(const Shape& s, const ArmBends& arms) {
    if (arms.left == arms.right) return build_cloth_side(s, arms.left, {});
    Built left, right, left_arm, right_arm;
    tbb::parallel_invoke([&] { left = build_cloth_side(s, arms.left, one_side(true, 0.0)); },
                         [&] { right = build_cloth_side(s, arms.right, one_side(false, 0.0)); },
                         [&] {
                             if (crossed(arms.left)) left_arm = build_forearm(s, arms.left, true);
                         },
                         [&] {
                             if (crossed(arms.right))
                                 right_arm = build_forearm(s, arms.right, false);
                         });
    Built built{joined_sides(left.fine, right.fine), joined_sides(left.coarse, right.coarse)};
    for (const Built* arm : {&left_arm, &right_arm}) {
        append(built.fine, arm->fine);
        append(built.coarse, arm->coarse);
    }
    return built;
}

} // namespace

Built build_hands(const Shape& s, const ArmBends& arms) {
    Built built;
    if (arms.left == arms.right) {
        built = build_hand(s, arms.left, {}, 0.0);
    } else {
        constexpr double shift = ShiftedField::shift_mm;
        built = build_hand(s, arms.left, one_side(true, shift), shift);
        const Built right = build_hand(s, arms.right, one_side(false, shift), shift);
        append(built.fine, right.fine);
        append(built.coarse, right.coarse);
    }
    paint_hands(built.fine);
    paint_hands(built.coarse);
    return built;
}

Built build_cloth(const Shape& s, const ArmBends& arms) {
    Built built = build_garment(s, arms);
    drape_cloth(built.fine, s, arms);
    drape_cloth(built.coarse, s, arms);
    const ClothField field(s);
    const Mesh collar = collar_mesh(collar_line(s, field), field);
    append(built.fine, collar);
    append(built.coarse, collar);
    paint_cloth(built.fine, s, arms);
    paint_cloth(built.coarse, s, arms);
    return built;
}

} // namespace keystead::sculpt
