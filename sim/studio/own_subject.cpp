#include "sim/studio/own_subject.h"

#include "sim/import/face_search.h"
#include "sim/import/simplify.h"
#include "sim/shape/content_key.h"
#include "sim/studio/own_face.h"
#include "sim/subject/head.h"
#include "sim/subject/landmarks.h"
#include "sim/subject/solve.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>
#include <limits>
#include <utility>

namespace keystead {

namespace {

/// Surface for shadow maps: fine enough for a nose, few enough for a slow card.
constexpr std::size_t caster_triangles = 12'000;
/// Pupils 45 to 80 mm apart (children to the largest adults), chin 60 to 160 mm below them.
constexpr double least_pupils_m = 0.040, most_pupils_m = 0.085;
constexpr double least_drop_m = 0.055, most_drop_m = 0.170;

/// The generated sitter of the same document, without meshes: where its points are (metres,
/// canonical frame) and how high it holds its head.
using Pattern = SubjectForm;

Pattern pattern_of(const Subject& subject) {
    const sculpt::Shape shape = sculpt::solved_shape(sculpt::measures_of(subject));
    Pattern pattern;
    pattern.landmarks = sculpt::head_landmarks_mm(shape, sculpt::SkinField(shape));
    sculpt::transform_landmarks(pattern.landmarks, Mat3(1e-3), Vec3(0.0), Mat3(1e-3), Vec3(0.0));
    sculpt::place_joints(pattern, shape);
    return pattern;
}

PlacedLandmarks placed_in(const SubjectFile& file) {
    return {file.nose_tip_m, file.pupil_left_m, file.pupil_right_m, file.chin_m, file.top_m};
}

Problem missing_point(const char* field, const std::string& remark) {
    return {std::string("subject.file.") + field, "is neither found nor placed",
            "(" + remark + ")"};
}

/// The points that a face can't be read without, and that they lie as a face's do.
Outcome check_points(const HeadLandmarks& head) {
    if (!head.nose_tip) return missing_point("nose_tip_m", head.remark);
    if (!head.pupil_left) return missing_point("pupil_left_m", head.remark);
    if (!head.pupil_right) return missing_point("pupil_right_m", head.remark);
    if (!head.chin) return missing_point("chin_m", head.remark);
    const Vec3 between = head.pupil_left->point_m - head.pupil_right->point_m;
    const double apart = std::hypot(between.x, between.z);
    if (!(apart >= least_pupils_m && apart <= most_pupils_m))
        return Problem{"subject.file.pupil_left_m",
                       std::to_string(std::lround(1000.0 * apart)) + " mm from the other pupil",
                       "is no face's: place both pupils, or check the unit"};
    const double middle = 0.5 * (head.pupil_left->point_m.y + head.pupil_right->point_m.y);
    const double drop = middle - head.chin->point_m.y;
    if (!(drop >= least_drop_m && drop <= most_drop_m))
        return Problem{"subject.file.chin_m",
                       std::to_string(std::lround(1000.0 * drop)) + " mm below the pupils",
                       "is no face's: place the chin, or check unit and up axis"};
    if (!(head.nose_tip->point_m.y < middle && head.nose_tip->point_m.y > head.chin->point_m.y))
        return Problem{"subject.file.nose_tip_m", "",
                       "is not between pupils and chin: place it, or check the up axis"};
    return std::nullopt;
}

/// File frame -> head frame: turned to face +Z, origin where the tragions of the fitted pattern
/// lie.
struct IntoHead {
    Mat3 turn{1.0};
    Vec3 offset_m{0.0};
    Vec3 operator()(const Vec3& p) const { return turn * p + offset_m; }
};

/// A face that looks to azimuth a is turned by -a about Y; `turn_deg` is added to that azimuth.
Mat3 turned_back(const HeadLandmarks& head, const SubjectFile& file) {
    const double azimuth = radians(head.facing_deg.value_or(0.0) + file.turn_deg);
    return Mat3(glm::rotate(glm::dmat4(1.0), -azimuth, Vec3(0, 1, 0)));
}

IntoHead into_head(const HeadLandmarks& head, const SubjectFile& file, const Landmarks& pattern) {
    IntoHead into;
    into.turn = turned_back(head, file);
    const Vec3 middle = into.turn * (0.5 * (head.pupil_left->point_m + head.pupil_right->point_m));
    const double drop = middle.y - head.chin->point_m.y;
    const double pattern_drop = pattern.pupil_left.y - pattern.menton.y;
    const double scale = drop / pattern_drop;
    into.offset_m = Vec3(0.0, pattern.pupil_left.y, pattern.pupil_left.z) * scale - middle;
    return into;
}

own::KnownPoints known_points(const HeadLandmarks& head, const Mesh& mesh, const IntoHead& into,
                              const Landmarks& pattern) {
    own::KnownPoints known;
    known.nose_tip = into(head.nose_tip->point_m);
    known.pupil_left = into(head.pupil_left->point_m);
    known.pupil_right = into(head.pupil_right->point_m);
    known.chin = into(head.chin->point_m);
    if (head.top) {
        known.top = into(head.top->point_m);
        return known;
    }
    // A mask has no top: then where the pattern's would be.
    const double scale =
        (known.pupil_left.y - known.chin.y) / (pattern.pupil_left.y - pattern.menton.y);
    known.top = pattern.vertex * scale;
    for (const glm::vec3& p : mesh.positions_m)
        if (std::abs(p.x) < 0.04F && static_cast<double>(p.y) > known.top.y) known.top = Vec3(p);
    return known;
}

std::shared_ptr<Mesh> turned_skin(const Mesh& mesh, const IntoHead& into) {
    return std::make_shared<Mesh>(
        transformed(mesh, glm::mat3(into.turn), glm::vec3(into.offset_m)));
}

/// Everything but the joints, from landmarks and surface.
void finish(SubjectForm& form, std::shared_ptr<Mesh> skin) {
    form.lines = sculpt::face_lines(form.landmarks, 1000.0);
    own::paint_regions(*skin, form.landmarks);
    form.caster = std::make_shared<const Mesh>(simplify(*skin, caster_triangles).mesh);
    form.skin = std::move(skin);
    form.hair = form.clothing = form.eyes = std::make_shared<const Mesh>();
}

void place_joints(SubjectForm& form, const Pattern& pattern, const Subject& subject) {
    // What stature and posture fix is the height of the pupils.
    const double pupils = 0.5 * (form.landmarks.pupil_left.y + form.landmarks.pupil_right.y);
    const double raise = pattern.landmarks.pupil_left.y - pupils;
    form.standing_tragion_height_m = pattern.standing_tragion_height_m + raise;
    form.seated_tragion_height_above_seat_m = pattern.seated_tragion_height_above_seat_m + raise;
    const double scale = (pupils - form.landmarks.menton.y) /
                         (pattern.landmarks.pupil_left.y - pattern.landmarks.menton.y);
    form.neck_pivot_m = pattern.neck_pivot_m * scale;
    form.neck_bend_m = pattern.neck_bend_m * scale;
    form.jaw_m = {0.0, form.landmarks.menton.y, pattern.jaw_m.z * scale};
    if (subject.file->part == PersonPart::figure) {
        form.standing_tragion_height_m = -lowest_m(*form.skin);
        form.seated_tragion_height_above_seat_m =
            form.standing_tragion_height_m - subject.seat_height_m;
    }
    // A head on a stump of neck turns as one piece.
    if (subject.file->part == PersonPart::head) form.jaw_m.y = -1e3;
}

} // namespace

std::uint64_t own_form_key(const StoredMesh& stored, const Subject& subject) {
    const SubjectFile& file = *subject.file;
    ContentKey key;
    key.add("own form").add(stored.key).add(form_key(subject));
    key.add(static_cast<int>(file.part)).add(file.turn_deg).add(subject.seat_height_m);
    for (const auto& point :
         {file.nose_tip_m, file.pupil_left_m, file.pupil_right_m, file.chin_m, file.top_m}) {
        key.add(point.has_value());
        if (point) key.add(*point);
    }
    return key.value();
}

Outcome own_problem(const StoredMesh& stored, const Subject& subject) {
    if (!stored.problem)
        return check_points(with_placed(stored.landmarks, placed_in(*subject.file)));
    Problem problem = *stored.problem;
    problem.path = "subject.file.path: " + problem.path;
    return problem;
}

SubjectForm own_form(const StoredMesh& stored, const Subject& subject) {
    const HeadLandmarks head = with_placed(stored.landmarks, placed_in(*subject.file));
    const Pattern pattern = pattern_of(subject);
    const IntoHead into = into_head(head, *subject.file, pattern.landmarks);
    auto skin = turned_skin(stored.mesh, into);
    SubjectForm form;
    form.landmarks = own::fitted_landmarks(skin, known_points(head, *skin, into, pattern.landmarks),
                                           pattern.landmarks);
    finish(form, std::move(skin));
    place_joints(form, pattern, subject);
    return form;
}

bool can_be_shown(const StoredMesh& stored) {
    if (stored.problem) return false;
    glm::vec3 low(std::numeric_limits<float>::max()), high = -low;
    for (const glm::vec3& p : stored.mesh.positions_m)
        low = glm::min(low, p), high = glm::max(high, p);
    const glm::vec3 size = high - low;
    const float longest = std::max({size.x, size.y, size.z});
    return longest > 0.08F && longest < 3.0F;
}

SubjectForm unplaced_form(const StoredMesh& stored, const Subject& subject) {
    const HeadLandmarks head = with_placed(stored.landmarks, placed_in(*subject.file));
    const Pattern pattern = pattern_of(subject);
    IntoHead into;
    into.turn = turned_back(head, *subject.file);
    // Under the same crown, above the same neck.
    into.offset_m = Vec3(0.0, pattern.landmarks.vertex.y, 0.0) -
                    into.turn * importing::view_origin(stored.mesh);
    SubjectForm form;
    form.landmarks = pattern.landmarks;
    finish(form, turned_skin(stored.mesh, into));
    place_joints(form, pattern, subject);
    return form;
}

} // namespace keystead
