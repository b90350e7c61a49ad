#include "sim/subject/subject.h"

#include "sim/subject/body.h"
#include "sim/subject/eyes.h"
#include "sim/subject/landmarks.h"
#include "sim/subject/paint.h"
#include "sim/subject/surface.h"

#include <cstring>

namespace keystead {

namespace {

using namespace sculpt;

// Fine where the eyes, lips, nose and ears are; the neck and shoulders follow coarsely.
GridAxes skin_axes(const Shape& s) {
    GridAxes axes;
    const double ear = 62.0 * s.scale_x(0.0);
    axes.x = mirror_axis({{50, 1.8}, {ear, 3.0}, {ear + 36, 2.2}, {232, 8.0}});
    const double eye = s.eye.y, mouth = s.height_of(-46.0), lip = s.height_of(-66.0);
    axes.y = graded_axis(s.height_of(-256.0), {{s.height_of(-120.0), 7.0},
                                               {lip, 3.6},
                                               {mouth, 1.7},
                                               {eye - 14, 2.2},
                                               {eye + 15, 1.6},
                                               {eye + 40, 3.0},
                                               {s.measures.tragion_top + 12, 5.0}});
    axes.z = graded_axis(-190, {{-110, 9.0}, {-44, 5.0}, {16, 2.6}, {56, 4.0}, {142, 2.0}});
    return axes;
}

GridAxes hair_axes(const Shape& s, HairStyle style) {
    const double low = style == HairStyle::bob ? -115.0 : -95.0;
    GridAxes axes;
    axes.x = mirror_axis({{112, 3.4}});
    axes.y = graded_axis(s.height_of(low), {{s.measures.tragion_top + 34, 3.4}});
    axes.z = graded_axis(-158, {{118, 3.4}});
    return axes;
}

GridAxes cloth_axes(const Shape& s) {
    const bool seated = s.measures.seated;
    GridAxes axes;
    const double wide = 0.5 * s.measures.bideltoid + 60.0;
    axes.x = mirror_axis({{100, 6.0}, {wide, 9.0}});
    const Limbs limbs = limbs_of(s);
    axes.y = graded_axis(
        s.height_of(limbs.sole_y) - 14.0,
        {{s.height_of(-330.0), 13.0}, {s.height_of(-215.0), 6.0}, {s.height_of(-60.0), 4.0}});
    axes.z = graded_axis(-215, {{90, 8.0}, {seated ? limbs.ankle.z + 240.0 : 180.0, 13.0}});
    return axes;
}

Mesh build_skin(const Shape& s, HairStyle style) {
    const SkinField field(s);
    Surface surface = surface_nets(field, skin_axes(s));
    relax(surface, field, 2);
    Mesh skin = whole_mesh(surface, field);
    paint_skin(skin, s, style);
    return skin;
}

Mesh build_hands(const Shape& s) {
    const HandField field(s);
    const Vec3 low = field.low_mm(), high = field.high_mm();
    GridAxes axes{graded_axis(low.x, {{high.x, 4.2}}), graded_axis(low.y, {{high.y, 4.2}}),
                  graded_axis(low.z, {{high.z, 4.2}})};
    Surface surface = surface_nets(field, axes);
    relax(surface, field, 2);
    Mesh hands = whole_mesh(surface, field);
    paint_hands(hands);
    return hands;
}

// What lies under the skin is never seen; the hair's edge stays 2.5 mm deep.
void drop_under_skin(Surface& hair, const Field& skin, double depth_mm) {
    std::vector<char> hidden(hair.points.size());
    for (std::size_t i = 0; i < hair.points.size(); ++i)
        hidden[i] = skin.at(hair.points[i]) < -depth_mm ? 1 : 0;
    std::erase_if(hair.triangles,
                  [&](const glm::uvec3& t) { return hidden[t.x] && hidden[t.y] && hidden[t.z]; });
    std::vector<std::uint32_t> renumbered(hair.points.size(), 0xFFFFFFFFU);
    std::vector<Vec3> kept;
    for (glm::uvec3& t : hair.triangles)
        for (glm::length_t e = 0; e < 3; ++e) {
            std::uint32_t& number = renumbered[t[e]];
            if (number == 0xFFFFFFFFU) {
                number = static_cast<std::uint32_t>(kept.size());
                kept.push_back(hair.points[t[e]]);
            }
            t[e] = number;
        }
    hair.points = std::move(kept);
}

Mesh build_hair(const Shape& s, HairStyle style) {
    if (style == HairStyle::none) return {};
    const HairField field(s, style);
    const SkinField skin(s);
    Surface surface = surface_nets(field, hair_axes(s, style));
    drop_under_skin(surface, skin, 2.5);
    relax(surface, field, 1);
    Mesh hair = whole_mesh(surface, field);
    paint_hair(hair, s, style);
    return hair;
}

Mesh build_cloth(const Shape& s) {
    const ClothField field(s);
    Surface surface = surface_nets(field, cloth_axes(s));
    relax(surface, field, 2);
    Mesh cloth = whole_mesh(surface, field);
    paint_cloth(cloth, s);
    return cloth;
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

} // namespace

SubjectForm build_subject(const Subject& subject) {
    const Shape shape = unsolved_shape(measures_of(subject));
    Mesh skin = build_skin(shape, subject.hair_style);
    append(skin, build_hands(shape));
    SubjectForm form;
    form.skin = std::make_shared<const Mesh>(std::move(skin));
    form.hair = std::make_shared<const Mesh>(build_hair(shape, subject.hair_style));
    form.clothing = std::make_shared<const Mesh>(build_cloth(shape));
    form.eyes = std::make_shared<const Mesh>(eye_mesh(shape));
    Mesh caster = *form.skin;
    append(caster, *form.hair);
    append(caster, *form.clothing);
    append(caster, *form.eyes);
    form.caster = std::make_shared<const Mesh>(std::move(caster));

    const SkinField field(shape);
    form.landmarks = head_landmarks_mm(shape, field);
    form.landmarks.chest = march(ClothField(shape), {0, shape.height_of(-290.0), 200}, {0, 0, -1});
    form.lines = face_lines(form.landmarks, 1.0);
    transform_landmarks(form.landmarks, Mat3(1e-3), Vec3(0.0), Mat3(1e-3), Vec3(0.0));
    outermost(form);
    const Measures& m = shape.measures;
    form.standing_tragion_height_m = (m.stature - m.tragion_top) * 1e-3;
    form.seated_tragion_height_above_seat_m = (m.sitting_height - m.tragion_top) * 1e-3;
    form.neck_pivot_m = shape.from_canonical({0, -60, -25}) * 1e-3;
    form.jaw_m = shape.from_canonical({0, canonical_y::menton, 80}) * 1e-3;
    form.neck_bend_m = 0.085 * shape.scale_at(-120.0);
    return form;
}

std::uint64_t form_key(const Subject& subject) {
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
