#include "sim/light/emitter_face.h"

#include "sim/light/emission_text.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead {

namespace {

// The numbers in the shared text are the document's.
static_assert(emission::shape_bare == static_cast<int>(ModifierShape::bare));
static_assert(emission::shape_disc == static_cast<int>(ModifierShape::disc));
static_assert(emission::shape_ring == static_cast<int>(ModifierShape::ring));
static_assert(emission::shape_rectangle == static_cast<int>(ModifierShape::rectangle));
static_assert(emission::shape_octagon == static_cast<int>(ModifierShape::octagon));
static_assert(emission::shape_umbrella == static_cast<int>(ModifierShape::umbrella));

double inner_ratio(const Emitter& e) {
    return e.width_m > 0 ? e.inner_width_m / e.width_m : 0.0;
}
double sagitta_ratio(const Emitter& e) {
    return 2.0 * e.depth_m / e.width_m;
}

bool is_cap(const Emitter& e) {
    return e.shape == ModifierShape::umbrella && e.depth_m > 0.0;
}

/// Boundary of the octagon with unit apothem, once round for `turn` 0..1, equal area for equal
/// turn.
Vec2 octagon_rim(double turn) {
    const double eighths = 8.0 * turn;
    const double side = std::floor(eighths);
    const double half_side = std::tan(pi / 8.0);
    const double along = (2.0 * (eighths - side) - 1.0) * half_side;
    const double angle = side * pi / 4.0;
    return {std::cos(angle) - along * std::sin(angle), std::sin(angle) + along * std::cos(angle)};
}

/// Place on the face over its half width and half height.
Vec2 face_place(const Emitter& e, double area_fraction, double turn) {
    if (e.shape == ModifierShape::rectangle) return {2.0 * area_fraction - 1.0, 2.0 * turn - 1.0};
    if (e.shape == ModifierShape::octagon) return std::sqrt(area_fraction) * octagon_rim(turn);
    double r2 = area_fraction;
    if (e.shape == ModifierShape::ring) {
        const double inner2 = inner_ratio(e) * inner_ratio(e);
        r2 = inner2 + (1.0 - inner2) * area_fraction;
    } else if (is_cap(e)) {
        // Height over the apex is the area fraction (Archimedes); rho^2 = z (2R - z).
        const double s = sagitta_ratio(e);
        r2 = area_fraction * s * (2.0 * cap_radius_m(1.0, s) - area_fraction * s);
    }
    const double angle = 2.0 * pi * turn;
    return std::sqrt(r2) * Vec2(std::cos(angle), std::sin(angle));
}

EmitterPoint sphere_point(const Emitter& e, double area_fraction, double turn) {
    const double z = 1.0 - 2.0 * area_fraction;
    const double r = std::sqrt(std::max(0.0, 1.0 - z * z)), angle = 2.0 * pi * turn;
    EmitterPoint point;
    point.normal = e.axes * Vec3(r * std::cos(angle), r * std::sin(angle), z);
    point.position_m = e.centre_m + 0.5 * e.width_m * point.normal;
    return point;
}

/// Concentric map (Shirley and Chiu, 1997) in polar terms: square shells to round ones, so that
/// neighbours in the unit square stay neighbours on the face.
Vec2 concentric(double u, double v) {
    const double a = 2.0 * u - 1.0, b = 2.0 * v - 1.0;
    const double r = std::max(std::abs(a), std::abs(b));
    if (r <= 0.0) return {0.0, 0.0};
    double eighths = 0.0;
    if (a >= std::abs(b))
        eighths = b / r;
    else if (b >= std::abs(a))
        eighths = 2.0 - a / r;
    else if (-a >= std::abs(b))
        eighths = 4.0 - b / r;
    else
        eighths = 6.0 + a / r;
    const double turn = eighths / 8.0;
    return {r * r, turn < 0.0 ? turn + 1.0 : turn};
}

/// A Fibonacci lattice: numbers of points and generators whose centred lattice is symmetric about
/// the middle and whose shadows on both sides are midpoint rules (generator odd).
struct Lattice {
    int points, generator;
};

Lattice lattice_near(int count) {
    int shorter = 1, points = 2;
    while (points + shorter / 2 < count) {
        const int next = points + shorter;
        shorter = points;
        points = next;
    }
    return {points, shorter % 2 == 1 ? shorter : points - shorter};
}

std::vector<EmitterPoint> rectangle_points(const Emitter& emitter, int count) {
    const Lattice lattice = lattice_near(count);
    std::vector<EmitterPoint> points;
    points.reserve(static_cast<std::size_t>(lattice.points));
    for (int i = 0; i < lattice.points; ++i) {
        const double u = (i + 0.5) / lattice.points;
        const double v = std::fmod(u * lattice.generator, 1.0);
        points.push_back(face_point(emitter, u, v));
    }
    return points;
}

/// A sunflower that runs out to the rim and back to the middle in equal areas, turning by the
/// golden section as a Fibonacci lattice does: the last point's neighbour is the first. A spiral
/// that ends at the rim leaves the first harmonics there to chance, which costs a hundred times the
/// error.
std::vector<EmitterPoint> round_points(const Emitter& emitter, int count) {
    const Lattice lattice = lattice_near(count);
    const int n = lattice.points;
    std::vector<EmitterPoint> points;
    points.reserve(static_cast<std::size_t>(n));
    for (int i = 0; i < n; ++i) {
        const double place = 2 * i < n ? 2 * i + 0.5 : 2 * (n - 1 - i) + 1.5;
        const double turn = std::fmod((i + 0.5) * lattice.generator / n, 1.0);
        points.push_back(face_point(emitter, place / n, turn));
    }
    return points;
}

} // namespace

double cap_radius_m(double rim_radius_m, double sagitta_m) {
    return (rim_radius_m * rim_radius_m + sagitta_m * sagitta_m) / (2.0 * sagitta_m);
}

double face_area_m2(const Emitter& e) {
    const double box = e.width_m * e.height_m;
    switch (e.shape) {
    case ModifierShape::bare:
    case ModifierShape::sphere:
        return pi * e.width_m * e.width_m;
    case ModifierShape::rectangle:
        return box;
    case ModifierShape::octagon:
        return 2.0 * std::tan(pi / 8.0) * box;
    case ModifierShape::ring:
        return pi / 4.0 * box * (1.0 - inner_ratio(e) * inner_ratio(e));
    case ModifierShape::umbrella:
        return pi * (e.width_m * e.width_m / 4.0 + e.depth_m * e.depth_m);
    case ModifierShape::disc:
        break;
    }
    return pi / 4.0 * box;
}

double relative_exitance(const Emitter& e, const Vec2& q) {
    const double plain =
        emission::hot_spot_factor(static_cast<int>(e.shape), e.hot_spot, q, inner_ratio(e),
                                  is_cap(e) ? sagitta_ratio(e) : 0.0);
    if (e.deflector <= 0.0) return plain;
    return (1.0 - e.deflector * e.deflector) * plain +
           emission::deflected(glm::length(q), e.deflector);
}

EmitterPoint face_point(const Emitter& e, double area_fraction, double turn) {
    EmitterPoint point;
    if (e.shape == ModifierShape::bare) {
        point = sphere_point(e, area_fraction, turn);
    } else {
        const Vec2 q = face_place(e, area_fraction, turn);
        Vec3 local(0.5 * e.width_m * q.x, 0.5 * e.height_m * q.y, 0.0);
        Vec3 normal(0.0, 0.0, 1.0);
        if (is_cap(e)) {
            const double radius = cap_radius_m(0.5 * e.width_m, e.depth_m);
            local.y = 0.5 * e.width_m * q.y;
            local.z = e.depth_m * (area_fraction - 1.0);
            normal = Vec3(-local.x, -local.y, radius - e.depth_m - local.z) / radius;
            if (e.bulges) {
                // The same cap mirrored in its rim's plane: apex and outside toward the beam.
                local.z = -local.z;
                normal = Vec3(-normal.x, -normal.y, normal.z);
            }
        }
        point.position_m = e.centre_m + e.axes * local;
        point.normal = e.axes * normal;
        point.relative_exitance = relative_exitance(e, q);
    }
    point.area_m2 = e.area_m2;
    return point;
}

EmitterPoint emitter_point(const Emitter& emitter, double u, double v) {
    if (emitter.shape == ModifierShape::rectangle) return face_point(emitter, u, v);
    const Vec2 polar = concentric(u, v);
    return face_point(emitter, polar.x, polar.y);
}

std::vector<EmitterPoint> emitter_points(const Emitter& emitter, int count) {
    const int wanted = std::max(count, 1);
    std::vector<EmitterPoint> points = emitter.shape == ModifierShape::rectangle
                                           ? rectangle_points(emitter, wanted)
                                           : round_points(emitter, wanted);
    for (EmitterPoint& point : points) point.area_m2 /= static_cast<double>(points.size());
    return points;
}

} // namespace keystead
