#include "sim/subject/subject.h"

#include "sim/shape/content_key.h"
#include "sim/subject/build.h"
#include "sim/subject/eyes.h"
#include "sim/subject/head.h"
#include "sim/subject/landmarks.h"
#include "sim/subject/solve.h"
#include "sim/subject/wisps.h"

#include <tbb/parallel_invoke.h>

namespace keystead {

namespace {

using namespace sculpt;

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

} // namespace

SubjectForm build_subject(const Subject& subject) {
    const Shape shape = solved_shape(measures_of(subject));
    const ArmBends arms = arms_of(subject.arms);
    Built skin, hands, hair, cloth;
    tbb::parallel_invoke([&] { skin = build_skin(shape, subject.hair_style, arms); },
                         [&] { hands = build_hands(shape, arms); },
                         [&] { hair = build_hair(shape, subject.hair_style); },
                         [&] { cloth = build_cloth(shape, arms); });
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
    form.strands = shared(wisps_of(form, subject.hair_style));
    return dressed(form, subject);
}

std::uint64_t body_key(const Subject& subject) {
    const Measures m = measures_of(subject);
    ContentKey key;
    for (const double value : {m.female ? 1.0 : 0.0,
                               m.stature,
                               m.sitting_height,
                               m.tragion_top,
                               m.eye_height_sitting,
                               m.acromial_height,
                               m.head_length,
                               m.head_breadth,
                               m.head_girth,
                               m.bizygomatic,
                               m.bigonial,
                               m.menton_sellion,
                               m.subnasale_sellion,
                               m.philtrum,
                               m.nose_protrusion,
                               m.nose_breadth,
                               m.lip_length,
                               m.interpupillary,
                               m.ear_length,
                               m.ear_breadth,
                               m.neck_girth,
                               m.biacromial,
                               m.bideltoid,
                               m.brow_overhang,
                               m.brow_depth,
                               m.eye_depth,
                               m.seated ? m.seat_height : -1.0,
                               static_cast<double>(subject.hair_style),
                               static_cast<double>(subject.arms)})
        key.add(value);
    return key.value();
}

} // namespace keystead
