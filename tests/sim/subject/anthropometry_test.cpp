// The finished meshes against the means of a published survey (rows 191 to 216 of checks.csv),
// measured here on the triangles, not on the field they were made from.
#include "sim/subject/measuring.h"
#include "sim/transport/ray_scene.h"
#include "subject_fixture.h"
#include "support/helpers/checks.h"

using namespace keystead;
using namespace subject_test;

namespace {

double length_mm(const Vec3& a, const Vec3& b) {
    return glm::length(a - b) * 1000.0;
}

bool on_head(Region region) {
    return region != Region::ear && region != Region::body && region != Region::neck;
}

double head_length_mm(const SubjectForm& form) {
    double far = 0.0;
    for (const glm::vec3& p : form.skin->positions_m)
        if (p.x == 0.0F && p.y > 0.0F && p.z < 0.0F)
            far = std::max(far, length_mm(Vec3(p), form.landmarks.glabella));
    return far;
}

double widest_mm(const SubjectForm& form, double low_mm, double high_mm, bool head) {
    double widest = 0.0;
    for (std::size_t i = 0; i < form.skin->positions_m.size(); ++i) {
        const Vec3 p = Vec3(form.skin->positions_m[i]) * 1000.0;
        if (p.y < low_mm || p.y > high_mm) continue;
        if (head && !on_head(static_cast<Region>(form.skin->regions[i]))) continue;
        widest = std::max(widest, 2.0 * p.x);
    }
    return widest;
}

// A tape round the mesh in the plane through `point` across `axis`: the hull of the cut.
double girth_mm(const Mesh& mesh, const Vec3& point_mm, const Vec3& axis, double reach_mm) {
    const Vec3 side(1, 0, 0), ahead = glm::normalize(glm::cross(side, axis));
    std::vector<Vec2> cut;
    for (const glm::uvec3& t : mesh.triangles)
        for (glm::length_t e = 0; e < 3; ++e) {
            const auto i = t[e], j = t[(e + 1) % 3];
            const bool ear = mesh.regions[i] == static_cast<std::uint8_t>(Region::ear);
            const Vec3 a = Vec3(mesh.positions_m[i]) * 1000.0 - point_mm;
            const Vec3 b = Vec3(mesh.positions_m[j]) * 1000.0 - point_mm;
            const double da = glm::dot(a, axis), db = glm::dot(b, axis);
            if (ear || (da < 0.0) == (db < 0.0) || glm::length(a) > reach_mm) continue;
            const Vec3 p = glm::mix(a, b, da / (da - db));
            cut.emplace_back(p.x, glm::dot(p, ahead));
        }
    return sculpt::hull_perimeter(std::move(cut));
}

double head_girth_mm(const SubjectForm& form) {
    double back = 0.0, back_y = 0.0;
    const double front_y = form.landmarks.glabella.y * 1000.0 + 5.0;
    for (const glm::vec3& p : form.skin->positions_m)
        if (p.x == 0.0F && p.z * 1000.0 < back && p.y > 0.0F)
            back = p.z * 1000.0, back_y = p.y * 1000.0;
    const Vec3 front(0.0, front_y, form.landmarks.glabella.z * 1000.0), behind(0.0, back_y, back);
    const Vec3 along = glm::normalize(front - behind);
    return girth_mm(*form.skin, 0.5 * (front + behind), glm::cross(along, Vec3(1, 0, 0)), 140.0);
}

// At the larynx: 20 mm under the chin, across the neck's lean.
double neck_girth_mm(const SubjectForm& form) {
    const Vec3 centre(0.0, form.landmarks.menton.y * 1000.0 - 20.0, -32.0);
    return girth_mm(*form.skin, centre, glm::normalize(Vec3(0.0, 1.0, 0.19)), 110.0);
}

// Height of the outer corner of the eye: the outermost place where the eyeball is bare.
double outer_corner_mm(const SubjectForm& form) {
    RayScene scene;
    const std::uint32_t skin = scene.add(form.skin, ray_mask::subject);
    const std::uint32_t eyes = scene.add(form.eyes, ray_mask::subject);
    scene.commit();
    Vec3 corner(0.0);
    for (double x = 36.0; x < 50.0; x += 0.2)
        for (double y = -4.0; y < 4.0; y += 0.2) {
            const Vec3 from(x * 1e-3, form.landmarks.pupil_left.y + y * 1e-3, 0.2);
            RayHit hit;
            if (!scene.first_hit(from, {0, 0, -1}, 0.0, 1.0, ray_mask::subject, hit)) continue;
            CHECK((hit.mesh == skin || hit.mesh == eyes));
            if (hit.mesh == eyes) corner = from * 1000.0;
        }
    return corner.y;
}

} // namespace

TEST_CASE("The mean man's head has the survey's measures") {
    const SubjectForm& form = mean_man();
    const Landmarks& l = form.landmarks;
    CHECK_ROW(197, head_length_mm(form));
    CHECK_ROW(199, widest_mm(form, 20.0, 100.0, true));
    CHECK_ROW(201, head_girth_mm(form));
    CHECK_ROW(203, length_mm(l.zygion_left, l.zygion_right));
    CHECK_ROW(205, length_mm(l.menton, l.sellion));
    CHECK_ROW(207, length_mm(l.pupil_left, l.pupil_right));
    CHECK_ROW(209, l.vertex.y * 1000.0);
}

TEST_CASE("The mean woman's head has the survey's measures") {
    const SubjectForm& form = mean_woman();
    const Landmarks& l = form.landmarks;
    CHECK_ROW(198, head_length_mm(form));
    CHECK_ROW(200, widest_mm(form, 20.0, 100.0, true));
    CHECK_ROW(202, head_girth_mm(form));
    CHECK_ROW(204, length_mm(l.zygion_left, l.zygion_right));
    CHECK_ROW(206, length_mm(l.menton, l.sellion));
    CHECK_ROW(208, length_mm(l.pupil_left, l.pupil_right));
    CHECK_ROW(210, l.vertex.y * 1000.0);
}

TEST_CASE("Shoulders and neck have the survey's measures") {
    const SubjectForm &man = mean_man(), &woman = mean_woman();
    const auto shoulders = [](const SubjectForm& form) {
        return length_mm(form.landmarks.acromion_left, form.landmarks.acromion_right);
    };
    CHECK_ROW(211, shoulders(man));
    CHECK_ROW(212, shoulders(woman));
    CHECK_ROW(213, widest_mm(man, -275.0, -200.0, false));
    CHECK_ROW(214, widest_mm(woman, -255.0, -190.0, false));
    CHECK_ROW(215, neck_girth_mm(man));
    CHECK_ROW(216, neck_girth_mm(woman));
}

TEST_CASE("Standing and sitting heights follow the survey") {
    const auto top_mm = [](const SubjectForm& form, const Subject& subject) {
        return pose_subject(form, subject).landmarks.vertex.y * 1000.0;
    };
    Subject man = mean_subject(false), woman = mean_subject(true);
    const double seat_mm = man.seat_height_m * 1000.0;
    man.posture = woman.posture = Posture::standing;
    CHECK_ROW(191, top_mm(mean_man(), man));
    CHECK_ROW(192, top_mm(mean_woman(), woman));
    man.posture = woman.posture = Posture::seated;
    CHECK_ROW(193, top_mm(mean_man(), man) - seat_mm);
    CHECK_ROW(194, top_mm(mean_woman(), woman) - seat_mm);
    const auto eye_mm = [](const SubjectForm& form) {
        return form.seated_tragion_height_above_seat_m * 1000.0 + outer_corner_mm(form);
    };
    CHECK_ROW(195, eye_mm(mean_man()));
    CHECK_ROW(196, eye_mm(mean_woman()));
}

TEST_CASE("A shape is solved for the measures the document gives") {
    // Each within a millimetre, far from the means and together (no source: our own aim).
    Subject subject = mean_subject(false);
    Proportions& p = subject.proportions;
    p.head_length_mm = 192.0, p.head_breadth_mm = 160.0, p.bizygomatic_mm = 136.0;
    p.bigonial_mm = 108.0, p.menton_sellion_mm = 116.0, p.nose_protrusion_mm = 26.0;
    p.nose_breadth_mm = 31.0, p.neck_girth_mm = 360.0, p.bideltoid_mm = 470.0;
    const sculpt::Measured m = sculpt::measure(sculpt::solved_shape(sculpt::measures_of(subject)));
    CHECK(m.head_length == Approx(192.0).margin(1.0));
    CHECK(m.head_breadth == Approx(160.0).margin(1.0));
    CHECK(m.bizygomatic == Approx(136.0).margin(1.0));
    CHECK(m.bigonial == Approx(108.0).margin(1.0));
    CHECK(m.menton_sellion == Approx(116.0).margin(1.0));
    CHECK(m.nose_protrusion == Approx(26.0).margin(1.0));
    CHECK(m.nose_breadth == Approx(31.0).margin(1.0));
    CHECK(m.neck_girth == Approx(360.0).margin(1.0));
    CHECK(m.bideltoid == Approx(470.0).margin(1.0));
}

TEST_CASE("The nose and the jaw have the respirator survey's means") {
    // NIOSH 2003, from memory: nose protrusion 21.1 / 19.8, nose breadth 36.6 / 33.2 mm.
    const auto check = [](const Landmarks& l, double protrusion, double breadth) {
        CHECK((l.pronasale.z - l.subnasale.z) * 1000.0 == Approx(protrusion).margin(1.0));
        CHECK(length_mm(l.alare_left, l.alare_right) == Approx(breadth).margin(1.0));
    };
    check(mean_man().landmarks, 21.1, 36.6);
    check(mean_woman().landmarks, 19.8, 33.2);
}
