#include "sim/light/face_meeting.h"

#include "sim/light/emission_text.h"
#include "sim/light/emitter_face.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

bool is_cap(const Emitter& e) {
    return e.shape == ModifierShape::umbrella && e.depth_m > 0.0;
}

/// Middle of the cap's sphere along the beam.
double cap_middle_m(const Emitter& e) {
    const double behind = cap_radius_m(0.5 * e.width_m, e.depth_m) - e.depth_m;
    return e.bulges ? -behind : behind;
}

/// Outward normal of the face at a place of it, face's frame.
Vec3 normal_at(const Emitter& e, const Vec3& local) {
    if (e.shape == ModifierShape::bare) return glm::normalize(local);
    if (!is_cap(e)) return {0.0, 0.0, 1.0};
    const Vec3 from_middle = glm::normalize(local - Vec3(0.0, 0.0, cap_middle_m(e)));
    return e.bulges ? from_middle : -from_middle;
}

bool within_outline(const Emitter& e, const Vec2& q) {
    const double place = emission::outline_place(static_cast<int>(e.shape), q);
    if (place > 1.0) return false;
    return e.shape != ModifierShape::ring || place >= e.inner_width_m / e.width_m;
}

Vec2 over_half(const Emitter& e, const Vec3& local) {
    const double height = is_cap(e) ? e.width_m : e.height_m;
    return {local.x / (0.5 * e.width_m), local.y / (0.5 * height)};
}

EmitterPoint point_at(const Emitter& e, const Vec3& local) {
    EmitterPoint point;
    point.position_m = e.centre_m + e.axes * local;
    point.normal = e.axes * normal_at(e, local);
    point.area_m2 = e.area_m2;
    if (e.shape != ModifierShape::bare)
        point.relative_exitance = relative_exitance(e, over_half(e, local));
    return point;
}

/// Distances at which a line meets a sphere about `middle`; false where it passes by.
bool meet_sphere(const Vec3& from, const Vec3& direction, const Vec3& middle, double radius,
                 double& near, double& far) {
    const Vec3 way = from - middle;
    const double b = glm::dot(way, direction);
    const double square = b * b - glm::dot(way, way) + radius * radius;
    if (square < 0.0) return false;
    near = -b - std::sqrt(square);
    far = -b + std::sqrt(square);
    return true;
}

/// Distance at which the shining side is met, or a negative number.
double distance_to(const Emitter& e, const Vec3& from, const Vec3& direction) {
    double near = 0.0, far = 0.0;
    if (e.shape == ModifierShape::bare)
        return meet_sphere(from, direction, Vec3(0.0), 0.5 * e.width_m, near, far) ? near : -1.0;
    if (is_cap(e)) {
        const double radius = cap_radius_m(0.5 * e.width_m, e.depth_m);
        if (!meet_sphere(from, direction, {0.0, 0.0, cap_middle_m(e)}, radius, near, far))
            return -1.0;
        // The outside of a bulging cap is met first, the inside of a hollow one last.
        const double distance = e.bulges ? near : far;
        const double z = from.z + distance * direction.z;
        const bool on_cap = e.bulges ? z >= 0.0 : z <= 0.0;
        return on_cap ? distance : -1.0;
    }
    if (direction.z >= 0.0) return -1.0;
    const double distance = -from.z / direction.z;
    return within_outline(e, over_half(e, from + distance * direction)) ? distance : -1.0;
}

} // namespace

std::optional<FaceMeeting> meet_face(const Emitter& emitter, const Vec3& from_m,
                                     const Vec3& direction) {
    const Mat3 to_local = glm::transpose(emitter.axes);
    const Vec3 from = to_local * (from_m - emitter.centre_m), along = to_local * direction;
    const double distance = distance_to(emitter, from, along);
    if (distance <= 0.0) return std::nullopt;
    return FaceMeeting{distance, point_at(emitter, from + distance * along)};
}

EmitterPoint face_point_at(const Emitter& emitter, const Vec3& place_m) {
    return point_at(emitter, glm::transpose(emitter.axes) * (place_m - emitter.centre_m));
}

} // namespace keystead
