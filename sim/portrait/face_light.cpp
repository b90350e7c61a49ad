#include "sim/portrait/face_light.h"

#include <algorithm>
#include <cmath>
#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>

namespace keystead {

namespace {

/// Rays leave the skin from this far outside it, so that coarse triangles do not shade themselves.
constexpr double lift_m = 0.35e-3;
/// Cells traced together: long enough for full packets, short enough to stay in the cache.
constexpr std::size_t block_rays = 2048;

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

/// What kept a ray from the lamp.
enum class Blocker { nose, brow, hair, other };

Blocker blocker_of(Region region) {
    switch (region) {
    case Region::nose:
        return Blocker::nose;
    case Region::brow:
    case Region::lid:
        return Blocker::brow;
    case Region::hair:
        return Blocker::hair;
    default:
        return Blocker::other;
    }
}

/// One ray under way and what it would bring.
struct Errand {
    std::size_t cell = 0;
    double share = 0.0; ///< of the lamp, by contribution on a facing plate
    double light = 0.0; ///< level on the surface itself
};

/// Gathers rays, traces them a block at a time and adds up what comes of them.
class Tracer {
public:
    Tracer(const FaceChart& chart, FaceLight& result)
        : chart_(chart)
        , result_(result) {
        rays_.reserve(block_rays + 64);
        errands_.reserve(block_rays + 64);
    }

    void send(const Errand& errand, const RayQuery& ray) {
        errands_.push_back(errand);
        rays_.push_back(ray);
    }

    void flush_if_full() {
        if (rays_.size() >= block_rays) flush();
    }

    void flush() {
        hits_.resize(rays_.size());
        chart_.rays.first_hits(rays_, ray_mask::all, hits_);
        for (std::size_t i = 0; i < rays_.size(); ++i) settle(errands_[i], hits_[i]);
        rays_.clear();
        errands_.clear();
    }

private:
    void settle(const Errand& errand, const RayHit& hit) {
        if (hit.mesh == ray_miss) {
            result_.level[errand.cell] += errand.light;
            result_.seen[errand.cell] += errand.share;
            return;
        }
        const Blocker blocker = blocker_of(chart_.region_of(hit));
        if (blocker == Blocker::nose) {
            result_.nose_level[errand.cell] += errand.light;
            result_.nose_share[errand.cell] += errand.share;
        } else if (blocker == Blocker::brow) {
            result_.brow_share[errand.cell] += errand.share;
        } else if (blocker == Blocker::hair) {
            result_.hair_level[errand.cell] += errand.light;
        }
    }

    const FaceChart& chart_;
    FaceLight& result_;
    std::vector<RayQuery> rays_;
    std::vector<Errand> errands_;
    std::vector<RayHit> hits_;
};

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

struct LampView {
    const Emitter& emitter;
    const std::vector<EmitterPoint>& points;
    double full_plate = 1.0;
};

void light_cell(const FaceChart& chart, const ChartGrid& grid, std::size_t cell,
                const LampView& lamp, std::vector<double>& lights, FaceLight& result,
                Tracer& tracer) {
    const Vec3 place = chart.metres(grid.place_mm[cell]);
    const double sum = plate_lights(lamp.emitter, lamp.points, place, lights);
    if (sum <= 0.0) return;
    const Vec3 origin = place + lift_m * grid.flat_normal[cell];
    for (std::size_t i = 0; i < lamp.points.size(); ++i) {
        const Vec3 way = lamp.points[i].position_m - origin;
        const double distance = glm::length(way);
        const Vec3 direction = way / distance;
        // Both normals: smooth ones on coarse triangles alone leave specks along the terminator.
        const double facing = glm::dot(direction, grid.normal[cell]);
        if (lights[i] <= 0.0 || facing <= 0.0 || glm::dot(direction, grid.flat_normal[cell]) <= 0.0)
            continue;
        const Errand errand{cell, lights[i] / sum, lights[i] * facing / lamp.full_plate};
        result.open_level[cell] += errand.light;
        tracer.send(errand, {origin, direction, 0.0, distance});
    }
    tracer.flush_if_full();
}

/// Bands of rows side by side: every cell is written by one band, so threads change nothing.
void light_rows(const FaceChart& chart, const ChartGrid& grid, const LampView& lamp,
                FaceLight& result) {
    constexpr int rows_a_band = 4;
    tbb::parallel_for(tbb::blocked_range<int>(0, grid.rows, rows_a_band), [&](const auto& band) {
        std::vector<double> lights(lamp.points.size());
        Tracer tracer(chart, result);
        for (int row = band.begin(); row < band.end(); ++row)
            for (int column = 0; column < grid.columns; ++column) {
                const std::size_t cell = grid.cell_at(column, row);
                if (grid.covered[cell] != 0)
                    light_cell(chart, grid, cell, lamp, lights, result, tracer);
            }
        tracer.flush();
    });
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
    light_rows(chart, grid, {emitter, points, full_plate}, result);
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
    for (std::size_t i = 0; i < points.size() && sum > 0.0; ++i) {
        const Vec3 way = points[i].position_m - origin;
        const double distance = glm::length(way);
        if (way.z <= 0.0) continue;
        RayHit hit;
        const double share = lights[i] / sum;
        if (!chart.rays.first_hit(origin, way / distance, 0.0, distance, ray_mask::all, hit)) {
            view.seen += share;
            continue;
        }
        const Blocker blocker = blocker_of(chart.region_of(hit));
        if (blocker == Blocker::nose) view.by_nose += share;
        if (blocker == Blocker::brow) view.by_brow += share;
        if (blocker == Blocker::hair) view.by_hair += share;
    }
    return view;
}

} // namespace keystead
