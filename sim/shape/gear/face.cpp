// The emitting face, shaped and measured like the emitter that the readings integrate over.

#include "sim/shape/build/sheet.h"
#include "sim/shape/build/solids.h"
#include "sim/shape/gear/gear.h"

#include <algorithm>
#include <cmath>

namespace keystead::gear {

namespace {

constexpr int round_sides = 48;
constexpr double cell_m = 0.16;

/// A circle's polygon is smaller than the circle; drawn this much larger it has the same area.
double same_area_scale(int sides) {
    const double angle = 2.0 * pi / sides;
    return std::sqrt(angle / std::sin(angle));
}

/// Flat rings of an outline (unit half width) from `inner` to 1 of its size, facing +z.
Mesh rings(const Emitter& e, const std::vector<Vec2>& outline, double inner, int count) {
    const auto sides = static_cast<int>(outline.size());
    return build::sheet(sides, count, [&](double u, double v) {
        const auto corner = static_cast<std::size_t>(std::lround(u * sides)) % outline.size();
        // v runs inward, so that the sheet faces the beam.
        const Vec2 point = outline[corner] * glm::mix(1.0, inner, v);
        return e.centre_m + e.axes * Vec3(0.5 * e.width_m * point.x, 0.5 * e.height_m * point.y, 0);
    });
}

/// The corners of a regular polygon about the unit circle (scaled), the first side's middle on +x.
std::vector<Vec2> polygon(int sides, double corner_radius) {
    std::vector<Vec2> corners;
    corners.reserve(static_cast<std::size_t>(sides));
    for (int side = 0; side < sides; ++side) {
        const double angle = 2.0 * pi * (side + 0.5) / sides;
        corners.emplace_back(corner_radius * std::cos(angle), corner_radius * std::sin(angle));
    }
    return corners;
}

Mesh rectangle(const Emitter& e) {
    return build::sheet(
        build::cells(e.width_m, cell_m), build::cells(e.height_m, cell_m), [&](double u, double v) {
            return e.centre_m + e.axes * Vec3((u - 0.5) * e.width_m, (v - 0.5) * e.height_m, 0);
        });
}

/// Inside of a hollow canopy, rim in the plane of the centre and apex behind it; or the outside of
/// one that bulges toward the beam.
Mesh cap(const Emitter& e) {
    const double rim = 0.5 * e.width_m;
    const double radius = (rim * rim + e.depth_m * e.depth_m) / (2.0 * e.depth_m);
    constexpr int rows = 8;
    return build::sheet(round_sides, rows, [&](double u, double v) {
        const double way = e.bulges ? -1.0 : 1.0;
        const double turn = 2.0 * pi * std::round(u * round_sides) / round_sides;
        const double from_apex = e.depth_m * (1.0 - v) * (1.0 - v);
        const double r = same_area_scale(round_sides) *
                         std::sqrt(std::max(0.0, from_apex * (2.0 * radius - from_apex)));
        return e.centre_m +
               e.axes * Vec3(r * std::cos(turn), r * std::sin(turn), way * (from_apex - e.depth_m));
    });
}

Mesh bulb(const Emitter& e) {
    constexpr int sides = 24;
    // Mean of the facets' shortfall around and along.
    const double larger = std::pow(same_area_scale(sides), 1.5);
    return build::ball({e.centre_m, e.axes}, 0.5 * e.width_m * larger, sides);
}

} // namespace

Mesh face_mesh(const Emitter& e) {
    switch (e.shape) {
    case ModifierShape::bare:
    case ModifierShape::sphere:
        return bulb(e);
    case ModifierShape::rectangle:
        return rectangle(e);
    case ModifierShape::octagon:
        return rings(e, polygon(8, 1.0 / std::cos(pi / 8.0)), 0.0,
                     build::cells(0.5 * e.width_m, cell_m));
    case ModifierShape::ring:
        return rings(e, polygon(round_sides, same_area_scale(round_sides)),
                     e.inner_width_m / e.width_m, 2);
    case ModifierShape::umbrella:
        if (e.depth_m > 0.0) return cap(e);
        [[fallthrough]];
    case ModifierShape::disc:
        break;
    }
    return rings(e, polygon(round_sides, same_area_scale(round_sides)), 0.0,
                 build::cells(0.5 * e.width_m, cell_m));
}

} // namespace keystead::gear
