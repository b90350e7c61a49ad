// Labels on the skin, and the points named after them.
#include "subject_fixture.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace subject_test;

TEST_CASE("The nose ends at subnasale: the upper lip is not nose") {
    for (const SubjectForm* form : {&mean_man(), &mean_woman()}) {
        const double base_mm = form->landmarks.subnasale.y * 1000.0;
        const auto nose = vertices_mm(*form->skin, Region::nose);
        REQUIRE(nose.size() > 300);
        double lowest = 1e9, foremost = -1e9;
        for (const Vec3& p : nose) {
            lowest = std::min(lowest, p.y);
            foremost = std::max(foremost, p.z);
            CHECK(std::abs(p.x) < 24.0);
        }
        CHECK(lowest >= base_mm - 0.5);
        CHECK(lowest <= base_mm + 3.0);
        CHECK(foremost == Approx(form->landmarks.pronasale.z * 1000.0).margin(0.3));
    }
}

TEST_CASE("Each part of the face is labelled where it lies") {
    const SubjectForm& form = mean_man();
    const Landmarks& l = form.landmarks;
    for (const Vec3& p : vertices_mm(*form.skin, Region::lip)) {
        CHECK(std::abs(p.y - l.stomion.y * 1000.0) < 13.0);
        CHECK(std::abs(p.x) < 30.0);
    }
    for (const Vec3& p : vertices_mm(*form.skin, Region::lid)) {
        CHECK(std::abs(std::abs(p.x) - l.pupil_left.x * 1000.0) < 19.0);
        CHECK(std::abs(p.y - l.pupil_left.y * 1000.0) < 13.0);
    }
    for (const Region region : {Region::brow, Region::cheek, Region::chin, Region::ear,
                                Region::neck, Region::lid, Region::lip, Region::body})
        CHECK(vertices_mm(*form.skin, region).size() > 50);
}

TEST_CASE("Landmarks lie in a face's order") {
    for (const SubjectForm* form : {&mean_man(), &mean_woman()}) {
        const Landmarks& l = form->landmarks;
        CHECK(l.vertex.y > l.glabella.y);
        CHECK(l.glabella.y > l.sellion.y);
        CHECK(l.sellion.y > l.pupil_left.y);
        CHECK(l.pupil_left.y > l.pronasale.y);
        CHECK(l.pronasale.y > l.subnasale.y);
        CHECK(l.subnasale.y > l.stomion.y);
        CHECK(l.stomion.y > l.menton.y);
        CHECK(l.pronasale.z > l.glabella.z);
        CHECK(l.sellion.z < l.glabella.z);
        CHECK(l.tragion_left.x > 60e-3);
        CHECK(l.eye_right.x == Approx(-l.eye_left.x));
        CHECK(form->lines.nose_base_mm < form->lines.nose_tip_mm);
        CHECK(form->lines.mouth_mm < form->lines.nose_base_mm);
    }
}

TEST_CASE("A landmark is found by its name, an unknown name is refused") {
    const Landmarks& l = mean_man().landmarks;
    Vec3 point(0.0);
    CHECK(find_landmark(l, "nose", point));
    CHECK(point == l.pronasale);
    for (const char* name : {"face", "chin", "hair_top", "chest", "left_cheek", "right_cheek"})
        CHECK(find_landmark(l, name, point));
    CHECK_FALSE(find_landmark(l, "elbow", point));
}
