#include "sim/base/frames.h"

#include <algorithm>
#include <cmath>

namespace keystead {

Vec3 direction_from(Angles angles) {
    const double azimuth = radians(angles.azimuth_deg);
    const double elevation = radians(angles.elevation_deg);
    return {std::cos(elevation) * std::sin(azimuth), std::sin(elevation),
            std::cos(elevation) * std::cos(azimuth)};
}

Angles angles_of(const Vec3& direction) {
    const double horizontal = std::hypot(direction.x, direction.z);
    return {degrees(std::atan2(direction.x, direction.z)),
            degrees(std::atan2(direction.y, horizontal))};
}

Mat3 head_rotation(double turn_deg, double nod_deg, double roll_deg) {
    const double ct = std::cos(radians(turn_deg)), st = std::sin(radians(turn_deg));
    const double cn = std::cos(radians(nod_deg)), sn = std::sin(radians(nod_deg));
    const double cr = std::cos(radians(roll_deg)), sr = std::sin(radians(roll_deg));
    // GLM matrices are given column by column.
    const Mat3 turn(Vec3(ct, 0, -st), Vec3(0, 1, 0), Vec3(st, 0, ct));
    const Mat3 nod(Vec3(1, 0, 0), Vec3(0, cn, -sn), Vec3(0, sn, cn));
    const Mat3 roll(Vec3(cr, -sr, 0), Vec3(sr, cr, 0), Vec3(0, 0, 1));
    return turn * nod * roll;
}

Mat3 upright_frame(const Vec3& forward) {
    const Vec3 reference = std::abs(forward.y) > 0.9999 ? Vec3(0, 0, -1) : Vec3(0, 1, 0);
    const Vec3 right = glm::normalize(glm::cross(reference, forward));
    return {right, glm::cross(forward, right), forward};
}

double wrapped_deg(double angle_deg) {
    const double turned = std::fmod(angle_deg + 180.0, 360.0);
    return (turned < 0.0 ? turned + 360.0 : turned) - 180.0;
}

} // namespace keystead
