#include "sim/portrait/moved_key.h"

#include "sim/base/frames.h"

namespace keystead {

namespace {

const Mat3 mirror(Vec3(-1.0, 0.0, 0.0), Vec3(0.0, 1.0, 0.0), Vec3(0.0, 0.0, 1.0));

/// Axes of a lamp that looks straight at the face from there, its width level.
Mat3 looking_from(const Vec3& direction) {
    return upright_frame(-direction);
}

} // namespace

Emitter moved_key(const FaceChart& chart, const Emitter& key, Angles direction, double distance_m) {
    const Vec3 face = chart.landmarks.face;
    const Vec3 before = glm::normalize(key.centre_m - face), now = direction_from(direction);
    // Turns are told on the subject's left; axes of lamps on the right are left-handed.
    const bool was_right = key.centre_m.x < 0.0, is_right = now.x < 0.0;
    const auto on_left = [](const Vec3& d) { return Vec3(std::abs(d.x), d.y, d.z); };
    const Mat3 axes = was_right ? mirror * key.axes : key.axes;
    const Mat3 turn = glm::transpose(looking_from(on_left(before))) * axes;
    Emitter moved = key;
    moved.centre_m = face + distance_m * now;
    moved.axes = looking_from(on_left(now)) * turn;
    if (is_right) moved.axes = mirror * moved.axes;
    return moved;
}

} // namespace keystead
