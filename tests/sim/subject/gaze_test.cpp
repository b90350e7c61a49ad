// Where the eyes look, against plane geometry and the rotation's own properties.
#include "sim/subject/gaze.h"
#include "subject_fixture.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace subject_test;

namespace {

Subject looking(double azimuth_deg, double elevation_deg) {
    Subject subject = mean_subject(false);
    subject.gaze.kind = GazeKind::angles;
    subject.gaze.azimuth_deg = azimuth_deg, subject.gaze.elevation_deg = elevation_deg;
    return subject;
}

Vec3 left_gaze(const PosedSubject& posed) {
    return glm::normalize(posed.landmarks.pupil_left - posed.landmarks.eye_left);
}
Vec3 right_gaze(const PosedSubject& posed) {
    return glm::normalize(posed.landmarks.pupil_right - posed.landmarks.eye_right);
}

double between_deg(const Vec3& a, const Vec3& b) {
    return degrees(std::atan2(glm::length(glm::cross(a, b)), glm::dot(a, b)));
}

} // namespace

TEST_CASE("Eyes look along the angles asked for, whatever the head does, within 35 degrees") {
    for (const double turn_deg : {-20.0, 0.0, 25.0})
        for (const double nod_deg : {-8.0, 6.0}) {
            Subject subject = looking(10.0, 5.0);
            subject.head_turn_deg = turn_deg, subject.head_nod_deg = nod_deg;
            subject.head_roll_deg = 4.0;
            const PosedSubject posed = pose_subject(mean_man(), subject);
            const Vec3 wanted = direction_from({10.0, 5.0});
            REQUIRE(between_deg(posed.head_axes[2], wanted) < most_eye_turn_deg);
            CHECK(between_deg(left_gaze(posed), wanted) < 1e-6);
            CHECK(between_deg(right_gaze(posed), wanted) < 1e-6);
        }
}

TEST_CASE("Eyes asked to look further stop at 35 degrees from the head, on the way there") {
    for (const Angles asked :
         {Angles{80.0, 0.0}, Angles{-60.0, 30.0}, Angles{0.0, -70.0}, Angles{179.0, 0.0}}) {
        const PosedSubject posed =
            pose_subject(mean_man(), looking(asked.azimuth_deg, asked.elevation_deg));
        const Vec3 ahead = posed.head_axes[2], wanted = direction_from(asked);
        const Vec3 found = left_gaze(posed);
        CHECK(between_deg(ahead, found) == Approx(35.0));
        // In the plane of both, and on the wanted side.
        CHECK(between_deg(ahead, found) + between_deg(found, wanted) ==
              Approx(between_deg(ahead, wanted)));
    }
}

TEST_CASE("Eyes on the camera meet there: they converge by the parallax of their distance") {
    Subject subject = mean_subject(false);
    subject.gaze.kind = GazeKind::camera;
    subject.head_turn_deg = 15.0;
    const Vec3 camera(0.2, 1.55, 1.8);
    const PosedSubject posed = pose_subject(mean_man(), subject, camera);
    const Landmarks& l = posed.landmarks;
    CHECK(between_deg(left_gaze(posed), camera - l.eye_left) < 1e-6);
    CHECK(between_deg(right_gaze(posed), camera - l.eye_right) < 1e-6);
    // The angle at the camera in the triangle of both eyes and the camera.
    CHECK(between_deg(left_gaze(posed), right_gaze(posed)) ==
          Approx(between_deg(l.eye_left - camera, l.eye_right - camera)).margin(1e-6));
}

TEST_CASE("The eyeballs turn with the gaze about their own centres, and nothing else moves") {
    const PosedSubject ahead = pose_subject(mean_man(), mean_subject(false));
    const PosedSubject aside = pose_subject(mean_man(), looking(24.0, -10.0));
    CHECK(aside.skin->positions_m == ahead.skin->positions_m);
    CHECK(form_key(looking(24.0, -10.0)) == form_key(mean_subject(false)));
    double off_mm = 0.0, moved_mm = 0.0;
    for (std::size_t i = 0; i < ahead.eyes->positions_m.size(); ++i) {
        const Vec3 before(ahead.eyes->positions_m[i]), after(aside.eyes->positions_m[i]);
        const Vec3 centre = before.x > 0.0 ? ahead.landmarks.eye_left : ahead.landmarks.eye_right;
        off_mm = std::max(
            off_mm, 1e3 * std::abs(glm::length(before - centre) - glm::length(after - centre)));
        moved_mm = std::max(moved_mm, 1e3 * glm::length(before - after));
    }
    CHECK(off_mm < 1e-3);
    // The furthest point, the cornea 12.8 mm from the centre, moves by the chord of the turn.
    const double turn = between_deg({0, 0, 1}, direction_from({24.0, -10.0}));
    CHECK(moved_mm == Approx(2.0 * 12.8 * std::sin(radians(0.5 * turn))).margin(0.05));
}

TEST_CASE("Straight ahead is no turn, and eyes asked to look straight behind stay within bounds") {
    const std::array<Vec3, 2> eyes{Vec3(0.03, 1.6, 0.07), Vec3(-0.03, 1.6, 0.07)};
    Gaze gaze;
    CHECK(eye_turns(gaze, Mat3(1.0), eyes, Vec3(0))[0] == Mat3(1.0));
    gaze.kind = GazeKind::angles, gaze.azimuth_deg = 180.0;
    const Mat3 turn = eye_turns(gaze, Mat3(1.0), eyes, Vec3(0))[0];
    CHECK(glm::determinant(turn) == Approx(1.0));
    CHECK(degrees(std::acos(turn[2].z)) <= 35.0 + 1e-9);
}
