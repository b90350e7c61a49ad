#include "sim/subject/landmarks.h"

#include "sim/subject/measuring.h"

namespace keystead::sculpt {

Vec3 march(const Field& field, const Vec3& from, const Vec3& direction, double reach) {
    double t = 0.0, before = 0.0;
    while (t < reach) {
        const double d = field.at(from + direction * t);
        if (d <= 0.0) break;
        before = t;
        t += std::clamp(0.6 * d, 0.15, 8.0);
    }
    if (t >= reach) return from + direction * reach;
    double low = before, high = t;
    for (int i = 0; i < 22; ++i) {
        const double middle = 0.5 * (low + high);
        (field.at(from + direction * middle) > 0.0 ? low : high) = middle;
    }
    return from + direction * (0.5 * (low + high));
}

namespace {

const Vec3 back(0, 0, -1), inward(-1, 0, 0), down(0, -1, 0);

Vec3 front_at(const Field& f, double x, double y) {
    return march(f, {x, y, 150}, back);
}

Vec3 mirrored(const Vec3& p) {
    return {-p.x, p.y, p.z};
}

void midline(Landmarks& l, const Shape& s, const Field& f) {
    const auto y_of = [&](double canonical) { return s.height_of(canonical); };
    const auto front = [&](double y) { return front_at(f, 0.0, y); };
    l.vertex = highest(
        -60, 40,
        [&](double z) {
            return march(f, {0, 220, z}, down);
        },
        [](const Vec3& p) { return p.y; });
    l.pronasale = pronasale_of(s);
    l.sellion = sellion_of(s);
    l.glabella = highest(y_of(32), y_of(52), front, [](const Vec3& p) { return p.z; });
    l.subnasale = subnasale_of(s);
    l.stomion = front(y_of(canonical_y::stomion));
    l.menton = menton_of(s);
    l.face = l.sellion;
}

void paired(Landmarks& l, const Shape& s, const Field& f) {
    const auto side = [&](double y, double z) { return march(f, {140, y, z}, inward, 139.0); };
    const auto widest = [](const Vec3& p) { return p.x; };
    l.eye_left = s.eye;
    l.pupil_left = s.eye + Vec3(0, 0, 12.8);
    const double zygion_y = s.height_of(-2.0);
    l.zygion_left = highest(
        16, 60, [&](double z) { return side(zygion_y, z); }, widest);
    const double gonion_y = s.height_of(-58.0);
    l.gonion_left = highest(
        4, 34, [&](double z) { return side(gonion_y, z); }, widest);
    l.tragion_left = {side(0.0, 0.0).x, 0.0, 0.0};
    l.alare_left = alare_of(s);
    l.cheilion_left = front_at(f, 0.5 * s.measures.lip_length, s.height_of(-51.3));
    l.cheek_left = front_at(f, s.eye.x, s.height_of(-10.0));
    const double acromion_z = s.from_canonical({0, canonical_y::shoulder, -52}).z;
    l.acromion_left = march(f, {0.5 * s.measures.biacromial, 0, acromion_z}, down, 400.0);
    l.chest = front_at(f, 0.0, s.height_of(-290.0));
}

} // namespace

Landmarks head_landmarks_mm(const Shape& shape, const Field& skin) {
    Landmarks l;
    midline(l, shape, skin);
    paired(l, shape, skin);
    l.eye_right = mirrored(l.eye_left), l.pupil_right = mirrored(l.pupil_left);
    l.zygion_right = mirrored(l.zygion_left), l.gonion_right = mirrored(l.gonion_left);
    l.tragion_right = mirrored(l.tragion_left), l.alare_right = mirrored(l.alare_left);
    l.cheilion_right = mirrored(l.cheilion_left), l.cheek_right = mirrored(l.cheek_left);
    l.acromion_right = mirrored(l.acromion_left);
    return l;
}

FaceLines face_lines(const Landmarks& l, double unit_mm) {
    const auto above_pupil = [&](const Vec3& p) { return (p.y - l.pupil_left.y) * unit_mm; };
    FaceLines lines;
    lines.lid_mm = -11.0;
    lines.nose_tip_mm = above_pupil(l.pronasale);
    lines.nose_base_mm = above_pupil(l.subnasale) - 1.0;
    lines.mouth_mm = above_pupil(l.stomion);
    lines.eye_x_mm = l.pupil_left.x * unit_mm;
    lines.nose_length_mm = (l.sellion.y - l.subnasale.y) * unit_mm;
    return lines;
}

void transform_landmarks(Landmarks& l, const Mat3& head, const Vec3& head_offset, const Mat3& body,
                         const Vec3& body_offset) {
    for (Vec3* p :
         {&l.vertex,         &l.glabella,      &l.sellion,      &l.pronasale,   &l.subnasale,
          &l.stomion,        &l.menton,        &l.pupil_left,   &l.pupil_right, &l.eye_left,
          &l.eye_right,      &l.zygion_left,   &l.zygion_right, &l.gonion_left, &l.gonion_right,
          &l.tragion_left,   &l.tragion_right, &l.alare_left,   &l.alare_right, &l.cheilion_left,
          &l.cheilion_right, &l.cheek_left,    &l.cheek_right,  &l.hair_top,    &l.hair_left,
          &l.hair_right,     &l.face})
        *p = head * *p + head_offset;
    for (Vec3* p : {&l.acromion_left, &l.acromion_right, &l.chest}) *p = body * *p + body_offset;
}

void place_joints(SubjectForm& form, const Shape& shape) {
    const Measures& m = shape.measures;
    form.standing_tragion_height_m = (m.stature - m.tragion_top) * 1e-3;
    form.seated_tragion_height_above_seat_m = (m.sitting_height - m.tragion_top) * 1e-3;
    form.neck_pivot_m = shape.from_canonical({0, -60, -25}) * 1e-3;
    form.jaw_m = shape.from_canonical({0, canonical_y::menton, 80}) * 1e-3;
    form.neck_bend_m = 0.085 * shape.scale_at(-120.0);
}

} // namespace keystead::sculpt

namespace keystead {

bool find_landmark(const Landmarks& l, const std::string& name, Vec3& point_m) {
    const std::pair<const char*, const Vec3*> names[] = {{"face", &l.face},
                                                         {"nose", &l.pronasale},
                                                         {"chin", &l.menton},
                                                         {"mouth", &l.stomion},
                                                         {"forehead", &l.glabella},
                                                         {"hair_top", &l.hair_top},
                                                         {"hair_left", &l.hair_left},
                                                         {"hair_right", &l.hair_right},
                                                         {"chest", &l.chest},
                                                         {"left_cheek", &l.cheek_left},
                                                         {"right_cheek", &l.cheek_right},
                                                         {"left_eye", &l.pupil_left},
                                                         {"right_eye", &l.pupil_right},
                                                         {"left_shoulder", &l.acromion_left},
                                                         {"right_shoulder", &l.acromion_right}};
    for (const auto& [known, point] : names)
        if (name == known) {
            point_m = *point;
            return true;
        }
    return false;
}

} // namespace keystead
