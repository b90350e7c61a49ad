#include "sim/set/camera_frame.h"

#include "sim/base/vec.h"

#include <cmath>

namespace keystead {

double field_of_view_deg(double sensor_side_mm, double focal_length_mm) {
    return degrees(2.0 * std::atan(0.5 * sensor_side_mm / focal_length_mm));
}

double frame_size_m(double sensor_side_mm, double focal_length_mm, double distance_m) {
    return sensor_side_mm / focal_length_mm * distance_m;
}

double distance_for_frame_m(double frame_m, double sensor_side_mm, double focal_length_mm) {
    return 1e-3 * focal_length_mm * (1.0 + 1e3 * frame_m / sensor_side_mm);
}

double focal_length_for_frame_mm(double frame_m, double sensor_side_mm, double distance_m) {
    return 1e3 * distance_m / (1.0 + 1e3 * frame_m / sensor_side_mm);
}

} // namespace keystead
