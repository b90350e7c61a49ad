#include "sim/portrait/catchlight.h"

#include "sim/light/emitter_face.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

constexpr double least_share = 0.05;
constexpr int inner_points = 55;
constexpr int rim_points = 16;
/// Off the cornea, so that a ray does not meet the mesh of the eye that it starts from.
constexpr double clear_m = 2.5e-4;

/// Places all over the face of a light, its rim among them: the rim tells the size.
std::vector<EmitterPoint> places_of(const Emitter& emitter) {
    std::vector<EmitterPoint> places = emitter_points(emitter, inner_points);
    for (int i = 0; i < rim_points; ++i) {
        const double turn = (i + 0.5) / rim_points;
        if (emitter.shape == ModifierShape::rectangle) {
            // Once round the sides of the square.
            const double along = 4.0 * turn;
            const double t = along - std::floor(along);
            const int side = static_cast<int>(along);
            places.push_back(side == 0   ? face_point(emitter, t, 0.0)
                             : side == 1 ? face_point(emitter, 1.0, t)
                             : side == 2 ? face_point(emitter, 1.0 - t, 1.0)
                                         : face_point(emitter, 0.0, 1.0 - t));
        } else if (emitter.shape != ModifierShape::bare) {
            places.push_back(face_point(emitter, 1.0, turn));
        }
    }
    return places;
}

struct Eye {
    Vec3 pupil_m, gaze, centre_m; ///< centre of the cornea's sphere
    Vec3 camera_m, right, up;
};

/// Where the picture shows the place in the cornea, or nothing where it doesn't.
bool mirrored_at(const Eye& eye, const EmitterPoint& place, const Emitter& emitter,
                 const RayScene& rays, Vec3& at_m) {
    at_m = mirror_point(eye.centre_m, cornea_radius_m, place.position_m, eye.camera_m);
    const Vec3 normal = glm::normalize(at_m - eye.centre_m);
    const Vec3 toward = place.position_m - at_m;
    const Vec3 way = glm::normalize(toward);
    if (glm::dot(normal, way) <= 0.0 || glm::dot(normal, eye.camera_m - at_m) <= 0.0) return false;
    const Vec3 from_axis = (at_m - eye.pupil_m) - glm::dot(at_m - eye.pupil_m, eye.gaze) * eye.gaze;
    if (glm::length(from_axis) > cornea_half_width_m) return false;
    if (radiance(emitter, place, -way) <= 0.0) return false;
    constexpr std::uint32_t blockers = ray_mask::casters | ray_mask::background;
    const Vec3 off = at_m + clear_m * normal;
    return !rays.blocked(off, place.position_m, blockers) &&
           !rays.blocked(off, eye.camera_m, blockers);
}

/// The light in that eye; a share of 0 where it is not seen.
Catchlight seen_in(const Eye& eye, const Emitter& emitter, const RayScene& rays) {
    Catchlight light;
    light.light = emitter.light;
    light.shape = shape_word(emitter);
    Vec2 low(1e9), high(-1e9);
    int seen = 0;
    const std::vector<EmitterPoint> places = places_of(emitter);
    for (const EmitterPoint& place : places) {
        Vec3 at_m;
        if (!mirrored_at(eye, place, emitter, rays, at_m)) continue;
        const Vec3 from = at_m - eye.pupil_m;
        const Vec2 in_picture = 1000.0 * Vec2(glm::dot(from, eye.right), glm::dot(from, eye.up));
        low = glm::min(low, in_picture);
        high = glm::max(high, in_picture);
        ++seen;
    }
    if (seen == 0) return light;
    light.seen_share = static_cast<double>(seen) / static_cast<double>(places.size());
    light.from_pupil_mm = 0.5 * (low + high);
    light.size_mm = high - low;
    const double turns = std::atan2(light.from_pupil_mm.x, light.from_pupil_mm.y) / (2.0 * pi);
    light.clock = 12.0 * (turns - std::floor(turns));
    if (light.clock < 0.25) light.clock += 12.0;
    return light;
}

} // namespace

const char* shape_word(const Emitter& emitter) {
    const double longer = std::max(emitter.width_m, emitter.height_m);
    const double shorter = std::min(emitter.width_m, emitter.height_m);
    switch (emitter.shape) {
    case ModifierShape::rectangle:
        return longer > 2.0 * shorter ? "strip" : "square";
    case ModifierShape::octagon:
        return "eight-sided";
    case ModifierShape::ring:
        return "ring";
    default:
        return "round";
    }
}

Vec3 mirror_point(const Vec3& centre_m, double radius_m, const Vec3& place_m, const Vec3& eye_m) {
    // The normal halves the angle between the ways from the point, which moves with the normal: a
    // few rounds settle it, as the sphere is small beside the distances.
    Vec3 point = centre_m;
    for (int round = 0; round < 12; ++round) {
        const Vec3 halfway = glm::normalize(place_m - point) + glm::normalize(eye_m - point);
        const double length = glm::length(halfway);
        if (length <= 1e-9) break; // straight behind: mirrored nowhere
        point = centre_m + radius_m / length * halfway;
    }
    return point;
}

std::vector<Catchlight> find_catchlights(const Vec3& pupil_m, const Vec3& eyeball_m,
                                         const Vec3& camera_m, const Vec3& camera_right,
                                         const Vec3& camera_up, std::span<const Emitter> emitters,
                                         const RayScene& rays) {
    Eye eye;
    eye.pupil_m = pupil_m;
    eye.gaze = glm::normalize(pupil_m - eyeball_m);
    eye.centre_m = pupil_m - cornea_radius_m * eye.gaze;
    eye.camera_m = camera_m;
    eye.right = camera_right;
    eye.up = camera_up;
    std::vector<Catchlight> found;
    for (const Emitter& emitter : emitters) {
        if (emitter.power <= 0.0) continue;
        Catchlight light = seen_in(eye, emitter, rays);
        if (light.seen_share >= least_share) found.push_back(std::move(light));
    }
    std::stable_sort(found.begin(), found.end(), [](const Catchlight& a, const Catchlight& b) {
        return a.size_mm.x * a.size_mm.y > b.size_mm.x * b.size_mm.y;
    });
    return found;
}

} // namespace keystead
