// Umbrellas, reflecting and shoot-through: canopy on ribs, shaft through the lamp's holder.

#include "sim/shape/build/sheet.h"
#include "sim/shape/build/solids.h"
#include "sim/shape/build/sweep.h"
#include "sim/shape/gear/gear.h"
#include "sim/shape/materials.h"

#include <algorithm>
#include <cmath>

namespace keystead::gear {

namespace {

constexpr int ribs = 8;
constexpr int pieces_between_ribs = 6;
constexpr int canopy_rows = 8;
constexpr double scallop = 0.055;     ///< the cloth reaches this much further at a rib than between
constexpr double cloth_gap_m = 0.005; ///< more than the facets of face and cloth differ
constexpr double cloth_thickness_m = 0.002;

/// The sphere that the emitting cap is part of.
struct Canopy {
    const Emitter& emitter;
    double radius_m;      ///< of the sphere
    double rim_angle_rad; ///< from the apex to the rim

    /// Point at a part of the way from apex to rim, `out_m` outside the sphere. A shoot-through
    /// canopy is the same mirrored in its rim's plane.
    Vec3 at(double turn, double part, double out_m) const {
        const double around = 2.0 * pi * turn;
        const double way = emitter.bulges ? -1.0 : 1.0;
        const double angle = rim_angle_rad * part;
        const double r = radius_m + out_m;
        const double sphere_centre = radius_m - emitter.depth_m;
        return emitter.centre_m + emitter.axes * Vec3(r * std::sin(angle) * std::cos(around),
                                                      r * std::sin(angle) * std::sin(around),
                                                      way * (sphere_centre - r * std::cos(angle)));
    }
    /// How far the cloth reaches at this turn.
    double reach(double turn) const {
        const double between = turn * ribs - std::floor(turn * ribs);
        return 1.0 + scallop * (1.0 - 4.0 * between * (1.0 - between));
    }
};

Canopy canopy_of(const Emitter& e) {
    const double rim = 0.5 * e.width_m;
    const double radius = (rim * rim + e.depth_m * e.depth_m) / (2.0 * e.depth_m);
    return {e, radius, std::acos(std::clamp((radius - e.depth_m) / radius, -1.0, 1.0))};
}

Mesh cloth(const Canopy& canopy) {
    const auto side = [&](double out_m) {
        return [&canopy, out_m](double u, double v) {
            const double turn = u >= 1.0 ? 0.0 : u;
            return canopy.at(turn, std::max(1e-3, 1.0 - v) * canopy.reach(turn), out_m);
        };
    };
    // The emitting face is the inside of a hollow canopy and the outside of a bulging one.
    const bool bulges = canopy.emitter.bulges;
    const double near = bulges ? -cloth_gap_m : cloth_gap_m;
    const double far = near + (bulges ? -cloth_thickness_m : cloth_thickness_m);
    return build::slab(ribs * pieces_between_ribs, canopy_rows, side(near), side(far));
}

} // namespace

void add_umbrella(PartList& list, const Emitter& emitter, const HeadPlace& place) {
    if (emitter.depth_m <= 0.0) return;
    const Canopy canopy = canopy_of(emitter);
    list.add("shell", emitter.bulges ? materials::diffuser() : materials::umbrella_black(),
             cloth(canopy), 30.0);
    // Ribs lie on the lamp's side of the cloth.
    const double inside_m = emitter.bulges ? -0.010 : -0.002;
    for (int rib = 0; rib < ribs; ++rib) {
        std::vector<Vec3> path;
        path.reserve(7);
        for (int step = 0; step <= 6; ++step)
            path.push_back(canopy.at(static_cast<double>(rib) / ribs, 0.03 + step / 6.0, inside_m));
        list.add("shell", materials::black_metal(), build::rod(path, 0.0018, 5));
    }
    const Vec3 z = emitter.axes[2] * (emitter.bulges ? -1.0 : 1.0);
    const Vec3 apex = emitter.centre_m - z * emitter.depth_m;
    list.add("shell", materials::chrome(),
             build::bar(apex - z * 0.04, place.front.origin_m, 0.004, 10));
    list.add("shell", materials::plastic(),
             build::drum(apex - z * 0.012, z, 0.009, 0.036, 12, 0.003));
    // The small bowl that keeps the lamp's light inside the canopy.
    const double r = place.radius_m;
    list.add("shell", materials::black_metal(),
             build::lathe(place.front,
                          {{0, 0},
                           {0.98 * r, 0},
                           {1.10 * r, 0.05},
                           {1.06 * r, 0.05},
                           {0.94 * r, 0.008},
                           {0, 0.008}},
                          28));
}

} // namespace keystead::gear
