#include "sim/subject/shape.h"

namespace keystead::sculpt {

namespace {

struct Heights {
    double sellion, pupil, subnasale, stomion, menton;
};

// Side of a right triangle from its long side and the other one.
double beside(double slanted, double across) {
    return std::sqrt(std::max(square(slanted) - square(across), square(0.5 * slanted)));
}

// The upper lip's red at the midline, a part of the lower face.
double upper_lip_mm(const Shape& s) {
    const double lower_face = s.measures.menton_sellion - s.measures.subnasale_sellion;
    return 0.108 * lower_face * (0.25 + 0.75 * s.lip_fullness);
}

// The eye line follows from the sitting measures; the face hangs from it.
Heights face_heights(const Shape& s) {
    const Measures& m = s.measures;
    constexpr double lip_ahead_mm = 4.0; // of the corner under the nose
    Heights h{};
    const double corner_above_pupil = 0.3;
    h.pupil = m.eye_height_sitting - m.sitting_height + m.tragion_top - corner_above_pupil;
    h.sellion = h.pupil + (canonical_y::sellion - canonical_y::pupil);
    h.menton = h.sellion - beside(m.menton_sellion, s.menton_behind_sellion);
    h.subnasale = h.sellion - beside(m.subnasale_sellion, s.subnasale_ahead_of_sellion);
    h.stomion = h.subnasale - beside(m.philtrum, lip_ahead_mm) - upper_lip_mm(s);
    return h;
}

void set_scales(Shape& s) {
    const Measures& m = s.measures;
    const double b = s.body_scale;
    const double shoulder = m.bideltoid / 510.42;
    // Arms hang down from the shoulders: broad hips do not push the elbows out.
    const double elbow = std::min(m.female ? .86 * b / .927 : b, shoulder);
    if (m.female) {
        s.scale_x = Curve({{120, .958},
                           {60, .958},
                           {0, .938},
                           {-55, .925},
                           {-101, .915},
                           {-125, .835},
                           {-150, .85},
                           {-190, shoulder},
                           {-240, shoulder},
                           {-300, shoulder},
                           {-380, mix(shoulder, elbow, 0.5)},
                           {-480, elbow},
                           {-720, 1.0 * b / .927},
                           {-1000, .97 * b / .927},
                           {-1600, .90 * b / .927}});
        s.scale_z = Curve({{120, .955},
                           {20, .955},
                           {-60, .94},
                           {-101, .925},
                           {-130, .84},
                           {-170, .86},
                           {-300, .90 * b / .927},
                           {-480, .86 * b / .927},
                           {-720, .96 * b / .927},
                           {-1600, .92 * b / .927}});
    } else {
        s.scale_x = Curve({{120, 1},
                           {-101, 1},
                           {-150, mix(1, shoulder, 0.5)},
                           {-190, shoulder},
                           {-240, shoulder},
                           {-300, shoulder},
                           {-380, mix(shoulder, elbow, 0.5)},
                           {-480, elbow},
                           {-720, b},
                           {-1600, b}});
        s.scale_z = Curve({{120, 1}, {-130, 1}, {-300, b}, {-1600, b}});
    }
    s.axis_z = Curve({{120, 0}, {-40, 0}, {-110, -26}, {-205, -48}, {-300, -50}, {-1600, -50}});
}

} // namespace

void set_heights(Shape& s, const FaceHeights& canonical) {
    s.nose_base = canonical.subnasale;
    const Measures& m = s.measures;
    const Heights h = face_heights(s);
    const double shoulder = m.acromial_height - m.stature + m.tragion_top;
    s.floor_y = m.tragion_top - m.stature;
    const double seat = m.tragion_top - m.sitting_height;
    s.height = Curve({{m.tragion_top, canonical_y::top},
                      {h.sellion, canonical.sellion},
                      {h.pupil, canonical_y::pupil},
                      {h.subnasale, canonical.subnasale},
                      {h.stomion, canonical_y::stomion},
                      {h.menton, canonical.menton},
                      {shoulder, canonical_y::shoulder},
                      {seat, canonical_y::seat},
                      {s.floor_y, canonical_y::floor}},
                     CurveKind::monotone);
    s.eye.y = h.pupil;
    // The red keeps its height whatever the length of the lip above it.
    s.upper_lip =
        upper_lip_mm(s) * (canonical.subnasale - canonical_y::stomion) / (h.subnasale - h.stomion);
    s.lower_lip =
        1.2 * upper_lip_mm(s) * (canonical_y::stomion - canonical.menton) / (h.stomion - h.menton);
}

Vec3 Shape::canonical(const Vec3& p) const {
    const double y = height(p.y);
    const double axis = axis_z(y);
    return {mirrored_x(p.x) / scale_x(y), y, axis + (p.z - axis) / scale_z(y)};
}

double Shape::height_of(double canonical_height) const {
    double low = floor_y - 200.0, high = 400.0;
    for (int i = 0; i < 50; ++i) {
        const double middle = 0.5 * (low + high);
        (height(middle) < canonical_height ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

Vec3 Shape::from_canonical(const Vec3& q) const {
    const double axis = axis_z(q.y);
    return {q.x * scale_x(q.y), height_of(q.y), axis + (q.z - axis) * scale_z(q.y)};
}

double Shape::scale_at(double canonical_height) const {
    return std::min(scale_x(canonical_height), scale_z(canonical_height));
}

Shape unsolved_shape(const Measures& measures) {
    Shape s;
    s.measures = measures;
    s.body_scale = measures.stature / 1756.21;
    if (measures.female) s.lip_fullness = 1.12;
    set_heights(s, {});
    set_scales(s);
    s.eye.x = 0.5 * measures.interpupillary;
    // Eyes farther apart sit farther round the face, thus farther back.
    const double mean_eye_x = measures.female ? 30.85 : 32.0;
    s.eye.z = (measures.female ? 66.6 : 69.4) - 0.45 * (s.eye.x - mean_eye_x);
    s.eye.z -= measures.eye_depth;
    if (measures.female) {
        s.brow_forward = -2.2, s.brow_outer_lift = 2.0;
        s.larynx_forward = -14.0;
        s.cheek_hollow_x = 79.0;
        s.chin_taper = 0.13;
        s.bust = 1.0;
        s.brow_width = 0.74;
        s.lid_opening = 1.04;
    }
    // A jaw much narrower than the cheekbones would leave the cheek between them starved.
    s.face_breadth = measures.bizygomatic / (measures.female ? 133.77 : 142.62);
    s.cheek_fullness =
        (measures.female ? 2.8 : 0.8) + 0.20 * (measures.bizygomatic - measures.bigonial - 27.0);
    s.brow_forward += measures.brow_depth;
    s.eye_canonical = s.canonical(s.eye);
    return s;
}

} // namespace keystead::sculpt
