// The camera on its tripod. Everything stays behind the entrance pupil's plane, so that the
// camera never stands in its own picture.

#include "sim/shape/build/solids.h"
#include "sim/shape/build/sweep.h"
#include "sim/shape/content_key.h"
#include "sim/shape/gear/gear.h"
#include "sim/shape/materials.h"
#include "sim/shape/part_list.h"
#include "sim/transport/ray_scene.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead {

namespace {

using build::Frame;

constexpr double foot_spread_m = 0.46;

Frame camera_frame(const Camera& camera) {
    const Vec3 way = camera.aim_m - camera.position_m;
    return build::facing(camera.position_m, glm::length(way) > 1e-6 ? way : Vec3(0, 0, -1));
}

/// Front element to mount: longer for longer lenses.
double lens_length_m(const Camera& camera) {
    return std::clamp(0.055 + 0.6e-3 * camera.focal_length_mm, 0.06, 0.22);
}

void add_lens(PartList& list, const Frame& frame, double length) {
    constexpr double r = 0.039;
    list.add("camera", materials::plastic(),
             build::lathe(frame,
                          {{0, -length},
                           {0.034, -length},
                           {0.034, -length + 0.012},
                           {r, -length + 0.018},
                           {r, -0.5 * length},
                           {r + 0.002, -0.49 * length},
                           {r + 0.002, -0.28 * length},
                           {r, -0.27 * length},
                           {r, -0.004},
                           {r - 0.003, 0},
                           {r - 0.006, 0},
                           {r - 0.010, -0.016},
                           {0, -0.020}},
                          28),
             35.0);
    list.add(
        "camera", materials::plain({0.006F, 0.007F, 0.010F}, 0.08F),
        build::lathe(frame, {{0, -0.021}, {0.026, -0.021}, {0.015, -0.0165}, {0, -0.0150}}, 24));
}

/// Body, finder hump, grip and shutter release; `body` stands upright in its own axes.
void add_body(PartList& list, const Frame& body) {
    const auto block = [&](double x, double y, double z, const Vec3& half, double chamfer) {
        list.add("camera", materials::plastic(),
                 build::chamfered_box(body.moved(x, y, z), half, chamfer));
    };
    block(0, 0, -0.034, {0.068, 0.046, 0.030}, 0.008);
    block(0.004, 0.054, -0.030, {0.030, 0.016, 0.032}, 0.008);
    block(0.060, -0.004, -0.018, {0.016, 0.042, 0.034}, 0.010);
    list.add("camera", materials::black_metal(),
             build::drum(body.at(0.058, 0.050, -0.012), body.y(), 0.008, 0.010, 12, 0.002));
    list.add("camera", materials::plain({0.03F, 0.04F, 0.05F}, 0.12F),
             build::box(body.moved(0, -0.004, -0.0655), {0.042, 0.030, 0.0015}));
}

/// Ball head and plate between the body and the tripod's shoulder.
void add_ball_head(PartList& list, const Vec3& under_body_m, const Vec3& shoulder_m) {
    const Vec3 up(0, 1, 0);
    const double height = under_body_m.y - shoulder_m.y;
    list.add("tripod", materials::black_metal(),
             build::chamfered_box({under_body_m - Vec3(0, 0.006, 0), Mat3(1.0)},
                                  {0.028, 0.006, 0.024}, 0.002));
    list.add("tripod", materials::chrome(),
             build::ball({under_body_m - Vec3(0, 0.32 * height, 0), Mat3(1.0)}, 0.021, 16));
    list.add("tripod", materials::black_metal(),
             build::lathe(build::standing(shoulder_m, 0.0),
                          {{0, -0.004},
                           {0.030, -0.004},
                           {0.027, 0.5 * height},
                           {0.020, 0.6 * height},
                           {0, 0.6 * height}},
                          20));
    gear::add_tee_knob(list, "tripod", shoulder_m + Vec3(0.026, 0.25 * height, 0), {1, 0, 0}, up,
                       0.9);
}

void add_leg(PartList& list, const Vec3& apex_m, const Vec3& foot_m) {
    const Vec3 down = glm::normalize(foot_m - apex_m);
    const Vec3 out = glm::normalize(Vec3(down.x, 0, down.z));
    const Vec3 start = apex_m + out * 0.030 - Vec3(0, 0.012, 0);
    const Vec3 end = foot_m + Vec3(0, 0.024, 0);
    constexpr std::array<double, 3> radii{0.0155, 0.0125, 0.0095};
    constexpr std::array<double, 4> joints{0.0, 0.40, 0.72, 1.0};
    for (std::size_t i = 0; i < radii.size(); ++i) {
        const Vec3 from = glm::mix(start, end, joints[i]);
        const Vec3 to = glm::mix(start, end, joints[i + 1]);
        list.add("tripod", materials::black_metal(), build::bar(from, to, radii[i], 12));
        if (i + 1 < radii.size())
            list.add("tripod", materials::rubber(),
                     build::drum(to, down, radii[i] + 0.004, 0.046, 14, 0.003));
    }
    list.add("tripod", materials::rubber(),
             build::drum(glm::mix(start, end, 0.12), down, 0.0195, 0.16 * glm::distance(start, end),
                         14, 0.004));
    list.add("tripod", materials::rubber(),
             build::lathe(build::standing(foot_m, 0.0),
                          {{0, 0}, {0.013, 0}, {0.017, 0.006}, {0.016, 0.026}, {0, 0.034}}, 12));
}

void add_tripod(PartList& list, const Vec3& under_body_m, double ahead_deg) {
    const double head = std::min(0.11, 0.35 * under_body_m.y);
    const Vec3 shoulder = under_body_m - Vec3(0, head, 0);
    add_ball_head(list, under_body_m, shoulder);
    const double column = std::min(0.34, 0.6 * shoulder.y);
    const Vec3 apex = shoulder - Vec3(0, 0.35 * column, 0);
    list.add("tripod", materials::aluminium(),
             build::bar(shoulder - Vec3(0, column, 0), shoulder, 0.014, 14));
    list.add("tripod", materials::black_metal(),
             build::drum(apex, {0, 1, 0}, 0.040, 0.044, 18, 0.006));
    const double spread = std::min(foot_spread_m, 1.2 * apex.y);
    for (int leg = 0; leg < 3; ++leg)
        add_leg(list, apex,
                Vec3(apex.x, 0, apex.z) + spread * direction_from({ahead_deg + 120.0 * leg, 0.0}));
}

std::uint64_t key_of(const Camera& camera) {
    return ContentKey()
        .add("camera")
        .add(camera.position_m)
        .add(camera.aim_m)
        .add(camera.focal_length_mm)
        .add(static_cast<int>(camera.orientation))
        .value();
}

} // namespace

std::uint64_t first_part_key(const Camera& camera) {
    return part_key(key_of(camera), 0);
}

std::vector<ScenePart> camera_parts(const Camera& camera) {
    const Frame frame = camera_frame(camera);
    const double length = lens_length_m(camera);
    PartList list("camera", ray_mask::gear);
    add_lens(list, frame, length);
    Frame body = frame.moved(0, 0, -length);
    // Held upright, the camera lies on its side in a bracket.
    if (camera.orientation == Orientation::upright) body.axes = Mat3(-body.y(), body.x(), body.z());
    add_body(list, body);
    const double below = camera.orientation == Orientation::upright ? 0.068 : 0.046;
    const Vec3 under = frame.at(0, -below, -length - 0.034);
    if (under.y > 0.12) add_tripod(list, under, angles_of(frame.z()).azimuth_deg);
    return list.take(key_of(camera));
}

} // namespace keystead
