#include "sim/set/camera_frame.h"

#include "support/helpers/checks.h"

using namespace keystead;

TEST_CASE("A lens frames what similar triangles say", "[camera]") {
    CHECK_ROW(188, field_of_view_deg(36, 85));
    CHECK_ROW(189, field_of_view_deg(24, 85));
    CHECK_ROW(190, frame_size_m(36, 85, 2.5));
}

TEST_CASE("85 mm needs a long room for full length", "[camera]") {
    // Full frame upright, 2.10 m tall at the subject; tolerance a centimetre.
    const double camera_m = distance_for_frame_m(2.10, 36, 85);
    CHECK(camera_m == Approx(5.04).margin(0.01));
    CHECK(camera_m + 0.6 + 2.0 == Approx(7.6).margin(0.05));
    // In 5.5 m with 1.5 m behind the subject and 0.6 m for the operator.
    CHECK(focal_length_for_frame_mm(2.10, 36, 5.5 - 1.5 - 0.6) == Approx(57).margin(0.5));
    // The frame is 1.40 m wide at the subject and 1.96 m on the paper 2 m behind.
    const double width_m = 2.10 * 24 / 36;
    CHECK(width_m == Approx(1.40).margin(0.01));
    CHECK(width_m * (camera_m + 2.0) / camera_m == Approx(1.96).margin(0.01));
    // Half the frame on a wall 1.2 m behind a subject 2 m away, upright: 0.45 m.
    CHECK(frame_size_m(24, 85, 3.2) / 2 == Approx(0.45).margin(0.01));
}
