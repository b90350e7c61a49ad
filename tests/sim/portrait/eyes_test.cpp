// What each pupil sees of a lamp, and what keeps the rest from it.
#include "plain_faces.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace plain_faces;

namespace {

constexpr double far_m = 50.0;

/// The plain head under a brim whose edge stands 90 mm ahead of the pupils and 45 mm above them.
/// Worn as hair: what matters is that it casts a shadow and is no part of the face.
SubjectForm head_with_brim() {
    SubjectForm form = plain_head();
    const Vec3 pupil = form.landmarks.pupil_left;
    Mesh brim;
    const auto add = [&](double x_m, double z_m) {
        brim.positions_m.emplace_back(x_m, pupil.y + 0.045, pupil.z + z_m);
    };
    add(-0.2, -0.02);
    add(0.2, -0.02);
    add(0.2, 0.09);
    add(-0.2, 0.09);
    brim.triangles = {{0, 1, 2}, {0, 2, 3}};
    form.hair = std::make_shared<const Mesh>(std::move(brim));
    return form;
}

PatternReading under_brim(double elevation_deg, double nod_deg, double size_m, double distance_m) {
    static const SubjectForm form = head_with_brim();
    static const auto chart = make_face_chart(form, 4.0);
    const Emitter lamp = disc_at(form, 0, elevation_deg, size_m, distance_m);
    return read_pattern(*chart, lamp, head_rotation(0, nod_deg, 0), Vec3(0.0));
}

} // namespace

TEST_CASE("A brim 90 mm ahead of the eyes and 45 above shades them over 26.6 degrees",
          "[portrait]") {
    // atan(45/90), by hand; the whole lamp is 0.1 degrees wide.
    CHECK(under_brim(26.3, 0, 0.1, far_m).eye_visible[0] == Approx(1.0));
    const PatternReading steep = under_brim(26.9, 0, 0.1, far_m);
    CHECK(steep.eye_visible[0] == 0.0);
    CHECK(steep.eye_visible[1] == 0.0);
    CHECK(steep.eye_by_hair[0] == Approx(1.0));
    CHECK(steep.hair_lost_mm2 > 1000.0);
}

TEST_CASE("Raising the chin by 13.4 degrees brings a 40 degree key back under the brim",
          "[portrait]") {
    CHECK(under_brim(40, 13.1, 0.1, far_m).eye_visible[0] == 0.0);
    CHECK(under_brim(40, 13.7, 0.1, far_m).eye_visible[0] == Approx(1.0));
}

TEST_CASE("A soft lamp at the brim's edge is seen in part", "[portrait]") {
    const PatternReading reading = under_brim(26.6, 0, 0.9, 1.3);
    CHECK(reading.eye_visible[0] > 0.2);
    CHECK(reading.eye_visible[0] < 0.8);
    CHECK(reading.eye_visible[0] + reading.eye_by_hair[0] == Approx(1.0));
}

TEST_CASE("An eye sees nothing of a lamp behind it, and nobody is blamed", "[portrait]") {
    const SubjectForm form = plain_head();
    const PatternReading reading = read_pattern(*make_face_chart(form, 4.0),
                                                disc_at(form, 140, 20, 0.5), Mat3(1.0), Vec3(0.0));
    for (int eye = 0; eye < 2; ++eye) {
        CHECK(reading.eye_visible[eye] == 0.0);
        CHECK(reading.eye_by_brow[eye] + reading.eye_by_nose[eye] + reading.eye_by_hair[eye] ==
              0.0);
    }
}
