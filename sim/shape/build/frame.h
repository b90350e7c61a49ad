// A right-handed place to build in: an origin and three axes, in room coordinates.
#pragma once

#include "sim/base/frames.h"

namespace keystead::build {

/// Columns of `axes`: local x, y, z. Solids of revolution turn about z.
struct Frame {
    Vec3 origin_m{0.0};
    Mat3 axes{1.0};

    Vec3 at(double x_m, double y_m, double z_m) const {
        return origin_m + axes * Vec3(x_m, y_m, z_m);
    }
    Vec3 x() const { return axes[0]; }
    Vec3 y() const { return axes[1]; }
    Vec3 z() const { return axes[2]; }
    /// The same axes about another point, given in local coordinates.
    Frame moved(double x_m, double y_m, double z_m) const { return {at(x_m, y_m, z_m), axes}; }
};

/// z runs from `origin_m` along `direction` (any length but zero), y as upright as possible.
inline Frame facing(const Vec3& origin_m, const Vec3& direction) {
    return {origin_m, upright_frame(glm::normalize(direction))};
}

/// z straight up, x toward the azimuth (about Y from +Z toward +X).
inline Frame standing(const Vec3& origin_m, double azimuth_deg) {
    const Vec3 ahead = direction_from({azimuth_deg, 0.0});
    const Vec3 up(0, 1, 0);
    return {origin_m, Mat3(ahead, glm::cross(up, ahead), up)};
}

} // namespace keystead::build
