// What the camera sees: its frame, and what stands at a regular grid of points of the picture.
#pragma once

#include "sim/studio/studio.h"

#include <vector>

namespace keystead {

/// The camera's frame as directions: all of the sensor, in its orientation.
struct CameraFrame {
    Vec3 eye_m{0.0};
    Mat3 axes{1.0}; ///< columns: right, up, backward
    double tan_half_width = 0.2, tan_half_height = 0.2;
};
CameraFrame camera_frame(const Camera& camera);

/// Unit direction through a point of the picture, -1..1 from left to right and from bottom to top.
Vec3 ray_through(const CameraFrame& frame, double x, double y);

/// Where a room point falls in the picture, same scale; false behind the camera.
bool in_picture(const CameraFrame& frame, const Vec3& point_m, Vec2& at);

/// Nearer than this to the entrance pupil there is only the camera itself.
inline constexpr double sight_start_m = 0.05;

/// First hits through the middles of a grid of cells, row by row from the top left.
struct Sight {
    CameraFrame frame;
    int columns = 0, rows = 0;
    std::vector<RayHit> hits; ///< mesh `ray_miss` where nothing is hit
    std::vector<Vec3> directions;
};
Sight look(const Studio& studio, int cells_on_long_side = 120);

/// Diffuse reflectance and normal of what a ray met.
struct SurfacePoint {
    Vec3 position_m{0.0};
    Vec3 normal{0.0, 1.0, 0.0}; ///< smooth where the mesh has normals, turned toward the ray
    double reflectance = 0.0;   ///< luminous
};
SurfacePoint surface_at(const Studio& studio, const RayHit& hit, const Vec3& origin_m,
                        const Vec3& direction);

} // namespace keystead
