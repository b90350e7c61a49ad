// Vector types and constants of the simulation. Double precision, right-handed, Y up, metres.
#pragma once

#include <glm/glm.hpp>

namespace keystead {

using Vec2 = glm::dvec2;
using Vec3 = glm::dvec3;
using Mat3 = glm::dmat3;

inline constexpr double pi = 3.14159265358979323846;
/// Standard acceleration of gravity (ISO 80000-3), m/s².
inline constexpr double gravity_m_s2 = 9.80665;

constexpr double radians(double angle_deg) {
    return angle_deg * (pi / 180.0);
}
constexpr double degrees(double angle_rad) {
    return angle_rad * (180.0 / pi);
}

} // namespace keystead
