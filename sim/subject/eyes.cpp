#include "sim/subject/eyes.h"

#include "sim/subject/head.h"
#include "sim/subject/noise.h"
#include "sim/subject/subject.h"
#include "sim/subject/surface.h"

namespace keystead::sculpt {

namespace {

constexpr int segments = 40;
constexpr double pupil_radius = 2.1, iris_radius = 5.75;

class EyeField final : public Field {
public:
    double at(const Vec3& p) const override {
        return smooth_min(glm::length(p) - eye_radius_mm, glm::length(p - Vec3(0, 0, 4.9)) - 7.9,
                          0.5);
    }
};

Vec3 iris_colour(double r, double turn, const Vec3& iris) {
    const double fibres = value_noise({std::cos(turn) * 7.0, std::sin(turn) * 7.0, r * 0.4});
    Vec3 colour = iris * (1.0 + 0.35 * fibres);
    colour *= mix(1.25, 0.35, smooth_step(3.6, iris_radius, r));
    return glm::mix(Vec3(0.015), colour, smooth_step(pupil_radius - 0.1, pupil_radius + 0.25, r));
}

} // namespace

Vec3 eye_colour(const Vec3& p, const Vec3& iris) {
    const double r = std::hypot(p.x, p.y);
    if (p.z < 0.0) return {0.56, 0.45, 0.40};
    Vec3 white(0.62, 0.58, 0.55);
    white = glm::mix(white, Vec3(0.56, 0.40, 0.35), 0.7 * smooth_step(7.5, 11.5, r));
    // What the upper lid and its lashes keep dark.
    white *= mix(1.0, 0.62, smooth_step(2.6, 5.2, p.y));
    return glm::mix(iris_colour(r, std::atan2(p.y, p.x), iris), white,
                    smooth_step(iris_radius - 0.25, iris_radius + 0.3, r));
}

Mesh eye_mesh(const Shape& shape) {
    // Ring radii in front, dense at the pupil's and the iris's edge; then the back half.
    const std::vector<double> front{0.8,  1.5, 1.95, 2.2, 2.7, 3.4, 4.2,  4.9,
                                    5.45, 5.7, 5.95, 6.3, 7.2, 8.6, 10.2, 11.4};
    const EyeField field;
    std::vector<Vec3> rings;
    for (const double r : front) rings.emplace_back(r, 0, std::sqrt(144.0 - r * r));
    for (const double angle : {90.0, 110.0, 135.0, 160.0})
        rings.emplace_back(12.0 * std::sin(radians(angle)), 0, 12.0 * std::cos(radians(angle)));
    Surface half;
    half.points.push_back({0, 0, 12.8});
    for (const Vec3& ring : rings)
        for (int i = 0; i < segments; ++i) {
            const double turn = 2.0 * pi * i / segments;
            half.points.emplace_back(ring.x * std::cos(turn), ring.x * std::sin(turn), ring.z);
        }
    half.points.push_back({0, 0, -12.0});
    const auto at = [&](std::size_t ring, int i) {
        return static_cast<std::uint32_t>(1 + ring * segments +
                                          static_cast<std::size_t>(i % segments));
    };
    const auto last = static_cast<std::uint32_t>(half.points.size() - 1);
    for (int i = 0; i < segments; ++i) {
        half.triangles.emplace_back(0U, at(0, i), at(0, i + 1));
        for (std::size_t ring = 0; ring + 1 < rings.size(); ++ring) {
            half.triangles.emplace_back(at(ring, i), at(ring + 1, i), at(ring + 1, i + 1));
            half.triangles.emplace_back(at(ring, i), at(ring + 1, i + 1), at(ring, i + 1));
        }
        half.triangles.emplace_back(at(rings.size() - 1, i), last, at(rings.size() - 1, i + 1));
    }
    project(half, field);
    find_normals(half, field);
    Mesh mesh = whole_mesh(half);
    for (std::size_t i = 0; i < mesh.positions_m.size(); ++i) {
        const Vec3 p = Vec3(mesh.positions_m[i]) * 1000.0;
        // Left eye's points come first of each pair; both are centred on the origin so far.
        const bool right = i % 2 == 1;
        mesh.colours.emplace_back(eye_colour(p, Subject{}.iris.rgb));
        mesh.roughness.push_back(0.12F);
        mesh.regions.push_back(static_cast<std::uint8_t>(Region::eye));
        mesh.positions_m[i] +=
            glm::vec3(Vec3(right ? -shape.eye.x : shape.eye.x, shape.eye.y, shape.eye.z) * 1e-3);
    }
    return mesh;
}

} // namespace keystead::sculpt
