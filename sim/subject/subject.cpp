#include "sim/subject/subject.h"

#include "sim/subject/body.h"
#include "sim/subject/collapse.h"
#include "sim/subject/eyes.h"
#include "sim/subject/landmarks.h"
#include "sim/subject/paint.h"
#include "sim/subject/solve.h"
#include "sim/subject/surface.h"

#include <cstring>
#include <tbb/parallel_for.h>
#include <tbb/parallel_invoke.h>

namespace keystead {

namespace {

using namespace sculpt;

// Fine where the eyes, lips, nose and ears are; the neck and shoulders follow coarsely.
GridAxes skin_axes(const Shape& s) {
    GridAxes axes;
    const double ear = 62.0 * s.scale_x(0.0);
    axes.x = mirror_axis(
        {{50, 1.8}, {ear, 3.0}, {ear + 36, 2.0}, {0.5 * s.measures.bideltoid + 16.0, 8.0}});
    const double eye = s.eye.y, mouth = s.height_of(-46.0), lip = s.height_of(-66.0);
    axes.y = graded_axis(s.height_of(-285.0), {{s.height_of(-120.0), 7.0},
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

GridAxes cloth_axes(const Shape& s) {
    const bool seated = s.measures.seated;
    GridAxes axes;
    const double wide = 0.5 * s.measures.bideltoid + 60.0;
    axes.x = mirror_axis({{100, 6.0}, {wide, 9.0}});
    const Limbs limbs = limbs_of(s);
    axes.y = graded_axis(
        s.height_of(limbs.sole_y) - 29.0,
        {{s.height_of(-330.0), 13.0}, {s.height_of(-215.0), 6.0}, {s.height_of(-60.0), 4.0}});
    axes.z = graded_axis(-215, {{90, 8.0}, {seated ? limbs.ankle.z + 240.0 : 180.0, 13.0}});
    return axes;
}

// What the paint needs: short edges where colours change quickly.
double longest_skin_edge(const Shape& s, const Vec3& p) {
    const Vec3 e = eye_relative(s, p);
    if (std::abs(e.x) < 17.0 && std::abs(e.y) < 12.0 && e.z > 0.0) return 2.6;
    const Vec3 q = s.canonical(p);
    if (q.z > 60.0 && q.x < 30.0 && q.y > -66.0 && q.y < -42.0) return 2.8;
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
    return q.z < 20.0 ? 1.6 : 1.0;
}

double ease_of_cloth(const Shape& s, const Vec3& p) {
    return mix(1.0, 3.5, smooth_step(-240.0, -480.0, s.height(p.y)));
}

struct Built {
    Mesh fine, coarse; ///< for the eye; for shadow maps
};

Built finish(Surface& surface, const Field& field, const CollapseLimits& limits, double coarser) {
    find_normals(surface, field);
    collapse(surface, limits);
    Built built;
    built.fine = whole_mesh(surface);
    CollapseLimits coarse = limits;
    coarse.chord_mm *= coarser;
    coarse.longest_mm = 60.0;
    coarse.longest_at = {};
    collapse(surface, coarse);
    built.coarse = whole_mesh(surface);
    return built;
}

Built build_skin(const Shape& s, HairStyle style) {
    const SkinField field(s);
    Surface surface = surface_nets(field, skin_axes(s));
    relax(surface, field, 2);
    CollapseLimits limits;
    limits.chord_mm = 0.065;
    limits.ease_at = [&](const Vec3& p) { return ease_of_skin(s, style, p); };
    limits.longest_at = [&](const Vec3& p) { return longest_skin_edge(s, p); };
    Built built = finish(surface, field, limits, 4.0);
    paint_skin(built.fine, s, style);
    paint_skin(built.coarse, s, style);
    return built;
}

Built build_hands(const Shape& s) {
    const HandField field(s);
    const Vec3 low = field.low_mm(), high = field.high_mm();
    GridAxes axes{graded_axis(low.x, {{high.x, 4.2}}), graded_axis(low.y, {{high.y, 4.2}}),
                  graded_axis(low.z, {{high.z, 4.2}})};
    Surface surface = surface_nets(field, axes);
    relax(surface, field, 2);
    CollapseLimits limits;
    limits.chord_mm = 0.2;
    Built built = finish(surface, field, limits, 4.0);
    paint_hands(built.fine);
    paint_hands(built.coarse);
    return built;
}

// Triangles whose three corners are all unwanted.
template <class F>
void drop_triangles(Surface& surface, F&& unwanted) {
    std::vector<char> drop(surface.points.size());
    tbb::parallel_for(std::size_t{0}, drop.size(),
                      [&](std::size_t i) { drop[i] = unwanted(surface.points[i]) ? 1 : 0; });
    std::erase_if(surface.triangles,
                  [&](const glm::uvec3& t) { return drop[t.x] && drop[t.y] && drop[t.z]; });
    drop_unused_points(surface);
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
        return 7.0;
    case HairStyle::curly:
        return 6.2;
    case HairStyle::long_hair:
        // What hangs has gentle relief, and there is a lot of it.
        return mix(7.0, 11.0, smooth_step(10.0, -50.0, s.height(p.y)));
    default:
        return 5.0;
    }
}

Built build_hair(const Shape& s, HairStyle style) {
    if (style == HairStyle::none) return {};
    const HairField field(s, style);
    Surface surface = surface_nets(field, hair_axes(s, style));
    drop_hidden_hair(surface, s, 2.0);
    relax(surface, field, 1);
    CollapseLimits limits;
    limits.chord_mm = 0.05;
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

Built build_cloth(const Shape& s) {
    const ClothField field(s);
    Surface surface = surface_nets(field, cloth_axes(s));
    const CollarLine line = collar_line(s, field);
    drop_triangles(surface, [&](const Vec3& p) { return under_collar(line, field, p); });
    relax(surface, field, 2);
    CollapseLimits limits;
    limits.chord_mm = 0.33;
    limits.longest_mm = 40.0;
    limits.ease_at = [&](const Vec3& p) { return ease_of_cloth(s, p); };
    // Folds are laid on afterwards and need vertices.
    limits.longest_at = [&](const Vec3& p) { return s.height(p.y) > -540.0 ? 23.0 : 45.0; };
    Built built = finish(surface, field, limits, 3.0);
    drape_cloth(built.fine, s);
    drape_cloth(built.coarse, s);
    const Mesh collar = collar_mesh(line, field);
    append(built.fine, collar);
    append(built.coarse, collar);
    paint_cloth(built.fine, s);
    paint_cloth(built.coarse, s);
    return built;
}

void outermost(SubjectForm& form) {
    const Mesh& outer = form.hair->positions_m.empty() ? *form.skin : *form.hair;
    Landmarks& l = form.landmarks;
    l.hair_top = l.vertex;
    l.hair_left = l.hair_right = Vec3(0.0, 0.05, 0.0);
    for (const glm::vec3& position : outer.positions_m) {
        const Vec3 p(position);
        if (p.y > l.hair_top.y) l.hair_top = p;
        if (p.y < 0.0) continue;
        if (p.x > l.hair_left.x) l.hair_left = p;
        if (p.x < l.hair_right.x) l.hair_right = p;
    }
}

std::shared_ptr<const Mesh> shared(Mesh&& mesh) {
    return std::make_shared<const Mesh>(std::move(mesh));
}

void place_landmarks(SubjectForm& form, const Shape& shape) {
    form.landmarks = head_landmarks_mm(shape, SkinField(shape));
    form.landmarks.chest =
        march(ClothField(shape), {0, shape.height_of(-290.0), 250}, {0, 0, -1}, 300.0);
    form.lines = face_lines(form.landmarks, 1.0);
    transform_landmarks(form.landmarks, Mat3(1e-3), Vec3(0.0), Mat3(1e-3), Vec3(0.0));
    outermost(form);
}

void place_joints(SubjectForm& form, const Shape& shape) {
    const Measures& m = shape.measures;
    form.standing_tragion_height_m = (m.stature - m.tragion_top) * 1e-3;
    form.seated_tragion_height_above_seat_m = (m.sitting_height - m.tragion_top) * 1e-3;
    form.neck_pivot_m = shape.from_canonical({0, -60, -25}) * 1e-3;
    form.jaw_m = shape.from_canonical({0, canonical_y::menton, 80}) * 1e-3;
    form.neck_bend_m = 0.085 * shape.scale_at(-120.0);
}

} // namespace

SubjectForm build_subject(const Subject& subject) {
    const Shape shape = solved_shape(measures_of(subject));
    Built skin, hands, hair, cloth;
    tbb::parallel_invoke(
        [&] { skin = build_skin(shape, subject.hair_style); }, [&] { hands = build_hands(shape); },
        [&] { hair = build_hair(shape, subject.hair_style); }, [&] { cloth = build_cloth(shape); });
    Mesh eyes = eye_mesh(shape);
    Mesh caster = std::move(skin.coarse);
    for (const Mesh* part : {&hands.coarse, &hair.coarse, &cloth.coarse}) append(caster, *part);
    append(skin.fine, hands.fine);
    SubjectForm form;
    form.skin = shared(std::move(skin.fine));
    form.hair = shared(std::move(hair.fine));
    form.clothing = shared(std::move(cloth.fine));
    form.eyes = shared(std::move(eyes));
    form.caster = shared(std::move(caster));
    place_landmarks(form, shape);
    place_joints(form, shape);
    return dressed(form, subject);
}

std::uint64_t body_key(const Subject& subject) {
    const Measures m = measures_of(subject);
    std::uint64_t hash = 1469598103934665603ULL; // FNV-1a
    const auto mix_in = [&](double value) {
        std::uint64_t bits = 0;
        static_assert(sizeof bits == sizeof value);
        std::memcpy(&bits, &value, sizeof bits);
        for (int i = 0; i < 8; ++i) {
            hash ^= (bits >> (8 * i)) & 0xFFU;
            hash *= 1099511628211ULL;
        }
    };
    for (const double value :
         {m.female ? 1.0 : 0.0, m.stature, m.head_length, m.head_breadth, m.bizygomatic, m.bigonial,
          m.menton_sellion, m.nose_protrusion, m.nose_breadth, m.interpupillary, m.neck_girth,
          m.biacromial, m.bideltoid, m.brow_depth, m.eye_depth, m.seated ? m.seat_height : -1.0,
          static_cast<double>(subject.hair_style)})
        mix_in(value);
    return hash;
}

} // namespace keystead
