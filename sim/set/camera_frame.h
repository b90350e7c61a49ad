// What a lens frames: angles of view, frame sizes, distances. Millimetres on the camera, metres in
// the room.
#pragma once

namespace keystead {

/// Angle of view across one sensor side, focused at infinity: 2 atan(side/2f).
double field_of_view_deg(double sensor_side_mm, double focal_length_mm);

/// Frame size at a distance from the entrance pupil, focused at infinity (pinhole).
double frame_size_m(double sensor_side_mm, double focal_length_mm, double distance_m);

/// Distance from the lens at which it frames that much when focused there, and the focal length
/// for a distance: thin lens that focuses by moving, d = f (1 + frame/side).
double distance_for_frame_m(double frame_m, double sensor_side_mm, double focal_length_mm);
double focal_length_for_frame_mm(double frame_m, double sensor_side_mm, double distance_m);

} // namespace keystead
