// Standing, sitting, turning.
#include "subject_fixture.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace subject_test;

namespace {

double span(const Mesh& a, const Mesh& b, const Mat3& rotation, const Vec3& offset, Region region) {
    double worst = 0.0;
    for (std::size_t i = 0; i < a.positions_m.size(); ++i)
        if (a.regions[i] == static_cast<std::uint8_t>(region))
            worst = std::max(worst, glm::length(rotation * Vec3(a.positions_m[i]) + offset -
                                                Vec3(b.positions_m[i])));
    return worst;
}

} // namespace

TEST_CASE("An unturned head has its origin above the room's") {
    const Subject subject = mean_subject(false);
    const PosedSubject posed = pose_subject(mean_man(), subject);
    CHECK(posed.head_origin_m.x == Approx(0.0).margin(1e-9));
    CHECK(posed.head_origin_m.z == Approx(0.0).margin(1e-9));
    CHECK(posed.head_origin_m.y == Approx(mean_man().standing_tragion_height_m));
}

TEST_CASE("The sitter's soles are on the floor, standing and seated") {
    CHECK(lowest_m(*pose_subject(mean_man(), mean_subject(false)).clothing) ==
          Approx(0.0).margin(0.006));
    CHECK(lowest_m(*pose_subject(mean_woman(), mean_subject(true)).clothing) ==
          Approx(0.0).margin(0.006));
}

TEST_CASE("A turned head keeps its shape and the shoulders stay") {
    Subject subject = mean_subject(false);
    subject.head_turn_deg = 35.0, subject.head_nod_deg = -10.0, subject.head_roll_deg = 5.0;
    subject.body_turn_deg = -15.0;
    const SubjectForm& form = mean_man();
    const PosedSubject posed = pose_subject(form, subject);
    CHECK(posed.head_axes == head_rotation(35.0, -10.0, 5.0));
    for (const Region region : {Region::nose, Region::ear, Region::brow, Region::lip})
        CHECK(span(*form.skin, *posed.skin, posed.head_axes, posed.head_origin_m, region) < 1e-4);
    // The nose points where the head does.
    const Vec3 nose = posed.landmarks.pronasale - posed.landmarks.sellion;
    const Vec3 before = form.landmarks.pronasale - form.landmarks.sellion;
    CHECK(glm::length(nose - posed.head_axes * before) < 1e-9);
    const Vec3 shoulders = posed.landmarks.acromion_left - posed.landmarks.acromion_right;
    CHECK(angles_of(shoulders).azimuth_deg == Approx(90.0 - 15.0).margin(1e-6));
}

TEST_CASE("The neck follows a turn without tearing") {
    Subject subject = mean_subject(false);
    subject.head_turn_deg = 50.0;
    const Mesh& still = *mean_man().skin;
    const PosedSubject posed = pose_subject(mean_man(), subject);
    double stretch = 0.0;
    for (const glm::uvec3& t : still.triangles)
        for (glm::length_t e = 0; e < 3; ++e) {
            const auto i = t[e], j = t[(e + 1) % 3];
            const double a = glm::length(Vec3(still.positions_m[i]) - Vec3(still.positions_m[j]));
            const double b =
                glm::length(Vec3(posed.skin->positions_m[i]) - Vec3(posed.skin->positions_m[j]));
            stretch = std::max(stretch, b / a);
        }
    CHECK(stretch < 2.6);
}

TEST_CASE("Colours follow the document without a new form") {
    Subject subject = mean_subject(false);
    const PosedSubject light = pose_subject(mean_man(), subject);
    subject.skin.rgb *= 0.4;
    const PosedSubject dark = pose_subject(mean_man(), subject);
    CHECK(form_key(subject) == form_key(mean_subject(false)));
    for (std::size_t i = 0; i < light.skin->colours.size(); i += 97)
        CHECK(dark.skin->colours[i].g == Approx(0.4F * light.skin->colours[i].g));
}

TEST_CASE("The form's key changes with what the form depends on") {
    const Subject subject = mean_subject(false);
    Subject other = subject;
    other.head_turn_deg = 20.0;
    CHECK(form_key(other) == form_key(subject));
    other.proportions.nose_breadth_mm = 40.0;
    CHECK(form_key(other) != form_key(subject));
    other = subject;
    other.hair_style = HairStyle::bob;
    CHECK(form_key(other) != form_key(subject));
    other = subject;
    other.posture = Posture::seated;
    CHECK(form_key(other) != form_key(subject));
}
