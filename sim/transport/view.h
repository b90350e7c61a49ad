// A pinhole view of the set: from the document's camera, or from anywhere else.
#pragma once

#include "sim/base/vec.h"
#include "sim/set/set.h"

namespace keystead {

struct View {
    Vec3 eye_m{0.0, 1.5, 3.0};
    Mat3 axes{1.0}; ///< columns: right, up, backward (the view looks along -axes[2])
    double tan_half_width = 0.2;
    double tan_half_height = 0.2;
    Vec2 centre{0.0}; ///< tangents to the right and up of the picture's middle: a part of a view
    bool work_light = false; ///< outside views only: a labelled ambient light, never measured
};

/// The same but for the work light.
bool sees_the_same(const View& a, const View& b);

/// The document camera framed at width:height: the largest crop of that aspect in its sensor.
View lens_view(const Camera& camera, int width_px, int height_px);

/// Orbit about `centre_m`: azimuth/elevation of the eye as seen from the centre.
View orbit_view(const Vec3& centre_m, double azimuth_deg, double elevation_deg, double distance_m,
                double vertical_field_deg, int width_px, int height_px);

/// Direction, of length 1 along the view's axis, through the place (-1..1 to the right and up) of
/// the picture.
Vec3 sight_line(const View& view, const Vec2& place);

/// A part of a picture of `width_px` x `height_px` pixels: `left_px`, `top_px` is its top left
/// corner. Its pixels are the whole picture's.
View part_of_view(const View& whole, int width_px, int height_px, int left_px, int top_px,
                  int part_width_px, int part_height_px);

/// Pixel (0..width, 0..height from the top left) of a room point; false if behind the eye.
bool project(const View& view, int width_px, int height_px, const Vec3& point_m, Vec2& pixel);

/// Room to OpenGL's clip space, moved by a sub-pixel offset.
glm::mat4 clip_from_room(const View& view, int width_px, int height_px, glm::vec2 offset_px);

} // namespace keystead
