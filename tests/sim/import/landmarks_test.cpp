// Landmarks found on a mesh against landmarks known otherwise: the project's own generated heads,
// whose points are computed on their field and not on the mesh; and things that are no heads.
#include "sim/import/find_landmarks.h"
#include "sim/import/units.h"
#include "sim/set/field_rules.h"
#include "sim/subject/subject.h"
#include "support/helpers/mesh_files.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

using namespace keystead;
using namespace keystead::mesh_files;

namespace {

struct Known {
    Mesh mesh; ///< skin, eyes, hair; canonical frame
    Landmarks landmarks;
};

Known head_of(const std::string& preset, HairStyle hair) {
    Subject subject;
    subject.proportions.preset = preset;
    subject.hair_style = hair;
    const SubjectForm form = build_subject(subject);
    Known known{*form.skin, form.landmarks};
    append(known.mesh, *form.eyes);
    if (form.hair) append(known.mesh, *form.hair);
    return known;
}

/// Each preset once for all tests.
const Known& bald_man() {
    static const Known known = head_of("mean-male", HairStyle::none);
    return known;
}
const Known& cropped_woman() {
    static const Known known = head_of("mean-female", HairStyle::cropped);
    return known;
}

glm::dmat3 turn_about_y(double angle_deg) {
    return glm::dmat3(glm::rotate(glm::dmat4(1.0), radians(angle_deg), glm::dvec3(0, 1, 0)));
}

/// The head turned about Y and moved, as a scan may stand.
Known turned(const Known& known, double angle_deg, const Vec3& offset_m) {
    const glm::dmat3 turn = turn_about_y(angle_deg);
    Known moved{transformed(known.mesh, glm::mat3(turn), glm::vec3(offset_m)), known.landmarks};
    for (Vec3* p :
         {&moved.landmarks.pronasale, &moved.landmarks.menton, &moved.landmarks.vertex,
          &moved.landmarks.pupil_left, &moved.landmarks.pupil_right, &moved.landmarks.hair_top})
        *p = turn * *p + offset_m;
    return moved;
}

/// Only what lies above a height under the chin: a head scan cut at the neck.
Mesh cut_below(const Mesh& mesh, double height_m) {
    Mesh cut = mesh;
    std::erase_if(cut.triangles, [&](const glm::uvec3& t) {
        return static_cast<double>(mesh.positions_m[t.x].y) < height_m;
    });
    return cut;
}

double off_mm(const std::optional<HeadPoint>& found, const Vec3& truth) {
    return found ? 1000.0 * glm::length(found->point_m - truth) : 1e9;
}

void check_found(const HeadLandmarks& found, const Landmarks& truth, double facing_deg) {
    INFO(found.remark << " nose off " << off_mm(found.nose_tip, truth.pronasale) << " mm, chin "
                      << off_mm(found.chin, truth.menton) << ", pupils "
                      << off_mm(found.pupil_left, truth.pupil_left) << " and "
                      << off_mm(found.pupil_right, truth.pupil_right));
    CHECK(found.complete());
    // The relief has cells of 1 mm; the chin's underside is nearly level, so its edge is less
    // sharp.
    CHECK(off_mm(found.nose_tip, truth.pronasale) < 2.0);
    CHECK(off_mm(found.chin, truth.menton) < 6.0);
    CHECK(off_mm(found.pupil_left, truth.pupil_left) < 3.0);
    CHECK(off_mm(found.pupil_right, truth.pupil_right) < 3.0);
    if (!found.complete()) return;
    const double top = std::max(truth.vertex.y, truth.hair_top.y);
    CHECK(std::abs(found.top->point_m.y - top) < 0.004);
    CHECK(std::abs(std::remainder(*found.facing_deg - facing_deg, 360.0)) < 2.0);
    for (const auto& p : {found.nose_tip, found.chin, found.pupil_left, found.top}) {
        CHECK(p->confidence > 0.3);
        CHECK(p->confidence < 1.0);
        CHECK_FALSE(p->by_hand);
    }
}

/// A surface of revolution about Y of a given profile, closed enough for a silhouette.
template <class Radius>
Mesh turned_on_a_lathe(double low_m, double high_m, const Radius& radius) {
    Mesh mesh;
    constexpr int rings = 60, around = 90;
    for (int i = 0; i <= rings; ++i)
        for (int j = 0; j < around; ++j) {
            const double y = low_m + (high_m - low_m) * i / rings, a = 2.0 * pi * j / around;
            mesh.positions_m.emplace_back(radius(y) * std::cos(a), y, radius(y) * std::sin(a));
        }
    for (glm::uint i = 0; i < rings; ++i)
        for (glm::uint j = 0; j < around; ++j) {
            const glm::uint a = i * around + j, b = i * around + (j + 1) % around;
            mesh.triangles.emplace_back(a, a + around, b);
            mesh.triangles.emplace_back(b, a + around, b + around);
        }
    return mesh;
}

} // namespace

TEST_CASE("Nose, chin, eyes and top are found on a figure turned any way", "[import]") {
    for (const double angle : {0.0, 37.0, 143.0, -90.0}) {
        const Known known = turned(bald_man(), angle, {3.0, -1.0, 0.5});
        INFO("turned by " << angle);
        check_found(find_head_landmarks(known.mesh), known.landmarks, angle);
    }
}

TEST_CASE("Landmarks are found on a head cut at the neck, with hair, in another unit and axis",
          "[import]") {
    const Known& woman = cropped_woman();
    Mesh head = cut_below(woman.mesh, woman.landmarks.menton.y - 0.05);
    check_found(find_head_landmarks(head), woman.landmarks, 0.0);
    // Millimetres with Z up and the face toward -Y, as `convert` expects of Z up.
    for (glm::vec3& p : head.positions_m) p = 1000.0F * glm::vec3(p.x, -p.z, p.y);
    const Mesh back = convert(head, LengthUnit::millimetre, UpAxis::z);
    check_found(find_head_landmarks(back), woman.landmarks, 0.0);
}

TEST_CASE("Every preset written as OBJ and read back has its points found within 2 mm",
          "[import]") {
    // Small heads too: their cheeks come within the reach of the search for the eyes.
    for (const char* preset : preset_words)
        for (const HairStyle hair : {HairStyle::none, HairStyle::cropped}) {
            const Known known = head_of(preset, hair);
            const Mesh head = cut_below(known.mesh, known.landmarks.menton.y - 0.05);
            const Mesh back =
                convert(loaded_obj(obj_mm_z_up(head)).mesh, LengthUnit::millimetre, UpAxis::z);
            const HeadLandmarks found = find_head_landmarks(back);
            const Landmarks& truth = known.landmarks;
            INFO(preset << ": nose off " << off_mm(found.nose_tip, truth.pronasale)
                        << " mm, pupils " << off_mm(found.pupil_left, truth.pupil_left) << " and "
                        << off_mm(found.pupil_right, truth.pupil_right) << ", chin "
                        << off_mm(found.chin, truth.menton));
            REQUIRE(found.complete());
            CHECK(off_mm(found.nose_tip, truth.pronasale) < 1.5);
            CHECK(off_mm(found.pupil_left, truth.pupil_left) < 2.0);
            CHECK(off_mm(found.pupil_right, truth.pupil_right) < 2.0);
            const double apart_m = found.pupil_left->point_m.x - found.pupil_right->point_m.x;
            CHECK(std::abs(apart_m - (truth.pupil_left.x - truth.pupil_right.x)) < 0.004);
            CHECK(off_mm(found.chin, truth.menton) < 6.0);
        }
}

TEST_CASE("A tilted, rough and lopsided head is still found, and is trusted less", "[import]") {
    // As scans are: chin down 8°, leaning 5°, a ripple of 0.3 mm, one side 2 mm fuller.
    Known known = bald_man();
    const glm::dmat3 tilt(glm::rotate(glm::rotate(glm::dmat4(1.0), radians(5.0), {0, 0, 1}),
                                      radians(8.0), {1, 0, 0}));
    for (glm::vec3& p : known.mesh.positions_m) {
        Vec3 q(p);
        const double ripple = std::sin(900.0 * q.x) * std::sin(1100.0 * q.y + 700.0 * q.z);
        q.z += 0.0003 * ripple + (q.x > 0.0 ? 0.002 : 0.0) * std::min(q.x / 0.03, 1.0);
        p = glm::vec3(tilt * q);
    }
    const HeadLandmarks found = find_head_landmarks(known.mesh);
    REQUIRE(found.complete());
    CHECK(off_mm(found.nose_tip, tilt * known.landmarks.pronasale) < 6.0);
    CHECK(off_mm(found.pupil_left, tilt * known.landmarks.pupil_left) < 8.0);
    CHECK(off_mm(found.pupil_right, tilt * known.landmarks.pupil_right) < 8.0);
    CHECK(off_mm(found.chin, tilt * known.landmarks.menton) < 15.0);
    CHECK(std::abs(*found.facing_deg) < 4.0);
}

TEST_CASE("No face is found on things, and that is said", "[import]") {
    const std::vector<Mesh> things{
        turned_on_a_lathe(-0.1, 0.1, [](double y) { return std::sqrt(0.01001 - y * y); }), // a ball
        turned_on_a_lathe(0.0, 0.3, [](double y) { return y < 0.2 ? 0.04 : 0.015; }), // a bottle
        turned_on_a_lathe(0.0, 0.4,
                          [](double y) { return 0.08 + 0.03 * std::sin(20.0 * y); }), // a vase
        Mesh{}, loaded(octahedron()).mesh};
    for (const Mesh& thing : things) {
        const HeadLandmarks found = find_head_landmarks(thing);
        CHECK_FALSE(found.nose_tip.has_value());
        CHECK_FALSE(found.complete());
        CHECK_FALSE(found.facing_deg.has_value());
        CHECK(found.remark.find("No face was found") == 0);
    }
    // The back half of a head has no face either.
    Mesh back = bald_man().mesh;
    std::erase_if(back.triangles,
                  [&](const glm::uvec3& t) { return back.positions_m[t.x].z > -0.01F; });
    CHECK_FALSE(find_head_landmarks(back).nose_tip.has_value());
}

TEST_CASE("Landmarks placed by hand stand in place of found ones", "[import]") {
    HeadLandmarks found;
    found.nose_tip = HeadPoint{{0, 0, 0.1}, 0.4, false};
    PlacedLandmarks placed;
    placed.nose_tip_m = Vec3(0.1, 1.5, 0.0);
    placed.pupil_left_m = Vec3(0.09, 1.54, -0.032);
    placed.pupil_right_m = Vec3(0.09, 1.54, 0.032);
    HeadLandmarks both = with_placed(found, placed);
    CHECK(both.nose_tip->by_hand);
    CHECK(both.nose_tip->confidence == 1.0);
    CHECK(both.nose_tip->point_m == *placed.nose_tip_m);
    CHECK(*both.facing_deg == Approx(90.0)); // toward +X: camera right
    CHECK_FALSE(both.complete());
    placed.chin_m = Vec3(0.08, 1.42, 0.0);
    placed.top_m = Vec3(0.0, 1.65, 0.0);
    both = with_placed(both, placed);
    CHECK(both.complete());
    // Nothing placed: nothing changed.
    CHECK(with_placed(found, {}).nose_tip->confidence == 0.4);
    CHECK_FALSE(with_placed(found, {}).nose_tip->by_hand);
}
