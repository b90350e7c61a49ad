// Meshes of skin and hair.
#include "sim/subject/build.h"
#include "sim/subject/paint.h"

namespace keystead::sculpt {

namespace {

// Fine where the eyes, lips, nose and ears are; the neck and shoulders follow coarsely.
GridAxes skin_axes(const Shape& s) {
    GridAxes axes;
    const double ear = 62.0 * s.scale_x(0.0);
    axes.x = mirror_axis(
        {{50, 1.8}, {ear, 3.0}, {ear + 36, 2.0}, {0.5 * s.measures.bideltoid + 16.0, 8.0}});
    const double eye = s.eye.y, mouth = s.height_of(-46.0), lip = s.height_of(-66.0);
    axes.y = graded_axis(s.height_of(-285.0), {{s.height_of(-120.0), 6.0},
                                               {lip, 3.6},
                                               {mouth, 1.7},
                                               {eye - 14, 2.2},
                                               {eye + 31, 1.7},
                                               {eye + 44, 3.2},
                                               {s.measures.tragion_top + 12, 5.0}});
    axes.z = graded_axis(-190, {{-110, 9.0}, {-44, 5.0}, {16, 2.1}, {56, 4.0}, {142, 2.0}});
    return axes;
}

GridAxes hair_axes(const Shape& s, HairStyle style) {
    double low = -95.0, step = 3.5, wide = 112.0, back = -158.0, front = 118.0;
    if (style == HairStyle::bob) low = -115.0, step = 4.2;
    if (style == HairStyle::curly) step = 4.2, wide = 124.0, front = 124.0;
    if (style == HairStyle::long_hair) low = -350.0, step = 4.6, wide = 136.0, back = -205.0;
    GridAxes axes;
    axes.x = mirror_axis({{wide, step}});
    axes.y = graded_axis(s.height_of(low), {{s.measures.tragion_top + 44, step}});
    axes.z = graded_axis(back, {{front, step}});
    return axes;
}

// What the paint needs: short edges where colours change quickly.
double longest_skin_edge(const Shape& s, const Vec3& p) {
    const Vec3 e = eye_relative(s, p);
    if (std::abs(e.x) < 17.0 && std::abs(e.y) < 12.0 && e.z > 0.0) return 2.6;
    const Vec3 q = s.canonical(p);
    if (q.z > 60.0 && q.x < 30.0 && q.y > -66.0 && q.y < -42.0)
        return q.x > 18.0 || q.x < 2.0 || std::abs(q.y - canonical_y::stomion) < 3.0 ? 1.8 : 2.6;
    if (q.z > 40.0 && q.x < 58.0 && q.y > 29.0 && q.y < 46.0) return 2.1;
    if (q.z > 70.0 && q.x < 26.0 && q.y > -46.0) return 4.5;
    return q.z > 30.0 && q.y > -110.0 ? 8.0 : 14.0;
}

// Where nobody looks closely: shoulders and nape, and the scalp under hair.
double ease_of_skin(const Shape& s, HairStyle style, const Vec3& p) {
    const Vec3 q = s.canonical(p);
    if (style != HairStyle::none && q.y > -75.0 && above_hairline(q) > 9.0) return 6.0;
    if (q.y < -195.0) return 6.0;
    if (q.y < -110.0) return 2.5;
    return q.z < 20.0 ? 1.9 : 1.0;
}

// What lies under the skin is never seen; the hair's edge stays a little deep. Hair must not come
// through where the sockets are hollower than the skull it grows on.
void drop_hidden_hair(Surface& hair, const Shape& s, double depth_mm) {
    const SkinField skin(s);
    const ClothField cloth(s);
    drop_triangles(hair, [&](const Vec3& p) {
        const Vec3 q = s.canonical(p);
        const bool face = q.z > 50.0 && q.x < 56.0 && q.y < 58.0;
        if (q.y < -150.0 && cloth.at(p) < -depth_mm) return true;
        return face || skin.at(p) < -depth_mm;
    });
}

double longest_hair_edge(const Shape& s, HairStyle style, const Vec3& p) {
    switch (style) {
    case HairStyle::bob:
        return 8.8;
    case HairStyle::curly:
        return 8.2;
    case HairStyle::long_hair:
        // What hangs has gentle relief, and there is a lot of it.
        return mix(8.8, 12.0, smooth_step(10.0, -50.0, s.height(p.y)));
    default:
        return 6.8;
    }
}

} // namespace

double head_size(const Measures& m) {
    const Measures mean = preset_measures("mean-male");
    const auto volume = [](const Measures& x) {
        return x.head_length * x.head_breadth * x.tragion_top;
    };
    // Faster than lengths: the grid that triangles come from does not grow.
    return std::max(std::sqrt(volume(m) / volume(mean)), 1.0);
}

double body_size(const Measures& m) {
    return std::max(m.stature / preset_measures("mean-male").stature, 1.0);
}

Built finish(Surface& surface, const Field& field, const CollapseLimits& limits, double coarser,
             const ToMesh& to_mesh) {
    find_normals(surface, field);
    // An open rim stays as it is.
    if (to_mesh.keep_middle) surface.mirrored = false;
    collapse(surface, limits);
    Built built;
    built.fine = to_mesh.mesh(surface);
    CollapseLimits coarse = limits;
    coarse.chord_mm *= coarser;
    coarse.longest_mm = 60.0;
    coarse.longest_at = {};
    collapse(surface, coarse);
    built.coarse = to_mesh.mesh(surface);
    return built;
}

Built build_skin(const Shape& s, HairStyle style, const ArmBends& arms) {
    const SkinField field(s);
    Surface surface = surface_nets(field, skin_axes(s));
    // Bare shoulders are modelled with hanging arms. Under the clothes of others they would show.
    if (arms.left != ArmBend::hanging || arms.right != ArmBend::hanging)
        drop_triangles(surface, [&](const Vec3& p) {
            const Vec3 q = s.canonical(p);
            return q.y < -165.0 && q.x > 105.0;
        });
    relax(surface, field, 2);
    CollapseLimits limits;
    limits.chord_mm = 0.068;
    limits.size = head_size(s.measures);
    limits.ease_at = [&](const Vec3& p) { return ease_of_skin(s, style, p); };
    limits.longest_at = [&](const Vec3& p) { return longest_skin_edge(s, p); };
    Built built = finish(surface, field, limits, 4.0);
    paint_skin(built.fine, s, style);
    paint_skin(built.coarse, s, style);
    return built;
}

Built build_hair(const Shape& s, HairStyle style) {
    if (style == HairStyle::none) return {};
    const HairField field(s, style);
    Surface surface = surface_nets(field, hair_axes(s, style));
    drop_hidden_hair(surface, s, 2.0);
    relax(surface, field, 1);
    CollapseLimits limits;
    limits.chord_mm = 0.12;
    limits.size = head_size(s.measures);
    limits.longest_at = [&](const Vec3& p) { return longest_hair_edge(s, style, p); };
    // What hangs is drawn by its strands, not by its shape.
    if (style == HairStyle::bob || falls(style))
        limits.ease_at = [&](const Vec3& p) {
            return s.height(p.y) > 10.0 ? 1.0 : falls(style) ? 4.0 : 1.6;
        };
    Built built = finish(surface, field, limits, 12.0);
    for (Mesh* mesh : {&built.fine, &built.coarse}) {
        comb_hair(*mesh, s, style);
        paint_hair(*mesh, s, style);
    }
    return built;
}

} // namespace keystead::sculpt
