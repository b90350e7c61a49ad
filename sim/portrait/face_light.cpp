#include "sim/portrait/face_light.h"

#include "sim/portrait/face_rays.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// Rays leave the eye from this far outside it, so that coarse triangles do not shade themselves.
constexpr double lift_m = 0.35e-3;

/// Points on the emitter: few for a small one, more where a wide one casts a long penumbra.
int point_count(const Emitter& emitter, double distance_m) {
    const double size_deg =
        degrees(std::atan2(std::max(emitter.width_m, emitter.height_m), distance_m));
    if (size_deg < 6.0) return 8;
    return size_deg < 45.0 ? 16 : 32;
}

/// Light from `point` on a plate at `place_m` that faces the point: L cos(lamp) dA / d².
double plate_light(const Emitter& emitter, const EmitterPoint& point, const Vec3& place_m) {
    const Vec3 way = place_m - point.position_m;
    const double distance = glm::length(way);
    if (distance <= 0.0) return 0.0;
    const Vec3 direction = way / distance;
    const double leaving = glm::dot(direction, point.normal);
    if (leaving <= 0.0) return 0.0;
    return radiance(emitter, point, direction) * leaving * point.area_m2 / (distance * distance);
}

/// Light of every emitter point on a facing plate at `place_m`, and the sum.
double plate_lights(const Emitter& emitter, const std::vector<EmitterPoint>& points,
                    const Vec3& place_m, std::vector<double>& lights) {
    double sum = 0.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        lights[i] = plate_light(emitter, points[i], place_m);
        sum += lights[i];
    }
    return sum;
}

/// Exposure of the plate at the nose root that faces the emitter's centre, at full power.
double plate_exposure(const Emitter& emitter, const std::vector<EmitterPoint>& points,
                      const Vec3& root_m, const Vec3& to_lamp) {
    double sum = 0.0;
    for (const EmitterPoint& point : points) {
        const Vec3 way = point.position_m - root_m;
        const double facing = glm::dot(way, to_lamp) / glm::length(way);
        if (facing > 0.0) sum += plate_light(emitter, point, root_m) * facing;
    }
    return sum;
}

FaceLight dark_face(const ChartGrid& grid) {
    const std::vector<double> zero(grid.size(), 0.0);
    FaceLight light;
    light.level = light.open_level = light.nose_level = light.hair_level = zero;
    light.seen = light.nose_share = light.brow_share = zero;
    return light;
}

} // namespace

FaceLight light_on_face(const FaceChart& chart, const ChartGrid& grid, const Emitter& emitter) {
    FaceLight result = dark_face(grid);
    const Vec3 root = chart.landmarks.face;
    const double distance = glm::length(emitter.centre_m - root);
    if (distance <= 0.0) return result;
    result.to_lamp = (emitter.centre_m - root) / distance;
    const std::vector<EmitterPoint> points =
        emitter_points(emitter, point_count(emitter, distance));
    const double full_plate = plate_exposure(emitter, points, root, result.to_lamp);
    result.plate_exposure = full_plate * emitter.power;
    if (full_plate <= 0.0) return result;
    trace_lamp(chart, grid, emitter, points, full_plate, result);
    return result;
}

EyeView eye_view(const FaceChart& chart, const Emitter& emitter, bool left) {
    EyeView view;
    const Vec3 forward(0.0, 0.0, 1.0); // the eyes look where the head looks
    const Vec3 pupil = left ? chart.landmarks.pupil_left : chart.landmarks.pupil_right;
    const Vec3 origin = pupil + lift_m * forward;
    const std::vector<EmitterPoint> points = emitter_points(emitter, 64);
    std::vector<double> lights(points.size());
    const double sum = plate_lights(emitter, points, origin, lights);
    std::vector<RayQuery> rays;
    std::vector<double> shares;
    for (std::size_t i = 0; i < points.size() && sum > 0.0; ++i) {
        const Vec3 way = points[i].position_m - origin;
        const double distance = glm::length(way);
        if (way.z <= 0.0) continue;
        rays.push_back({origin, way / distance, 0.0, distance});
        shares.push_back(lights[i] / sum);
    }
    std::vector<RayHit> hits(rays.size());
    chart.rays.first_hits(rays, ray_mask::all, hits);
    for (std::size_t i = 0; i < rays.size(); ++i) {
        const Blocker blocker =
            hits[i].mesh == ray_miss ? Blocker::nothing : blocker_of(chart.region_of(hits[i]));
        if (blocker == Blocker::nothing) view.seen += shares[i];
        if (blocker == Blocker::nose) view.by_nose += shares[i];
        if (blocker == Blocker::brow) view.by_brow += shares[i];
        if (blocker == Blocker::hair) view.by_hair += shares[i];
    }
    return view;
}

} // namespace keystead
