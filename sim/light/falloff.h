// Light over distance: inverse square, backgrounds, shadow edges, room bounce. Stops and metres.
#pragma once

#include "sim/base/vec.h"

#include <span>

namespace keystead {

/// Change of a point source's exposure from one distance to another: -2 log2(to/from).
double inverse_square_stops(double from_m, double to_m);
/// Distance factor that makes a point source fall by so many stops (negative: less light).
double distance_factor_of_stops(double stops);

/// Luminance of a background of `reflectance` lit only by a light that is `light_to_subject_m` from
/// the subject and `light_to_background_m` from it, in stops against an 18 % card at the subject.
double background_stops_against_grey(double reflectance, double light_to_subject_m,
                                     double light_to_background_m);

/// Stops over a metered exposure at which a paper of that reflectance reaches full white.
double stops_to_white(double reflectance);

/// Width of a shadow's soft edge by similar triangles: source width, source to occluder, occluder
/// to receiver.
double penumbra_width_m(double source_width_m, double source_to_occluder_m,
                        double occluder_to_receiver_m);

/// Sideways and downward shift of a shadow on a plane `depth_m` behind what casts it, for a distant
/// light at these angles from the plane's normal: depth tan(az), depth tan(el)/cos(az). Same unit
/// as `depth`; sideways is away from the light for positive azimuth.
Vec2 shadow_shift(double depth, double azimuth_deg, double elevation_deg);

/// A flat Lambertian face turned away by an angle: stops lost, and how wide it looks.
double feathering_stops(double turned_deg);
double apparent_width_m(double width_m, double turned_deg);

/// One surface of a closed room.
struct RoomSurface {
    double area_m2 = 0.0;
    double reflectance = 0.0;
};
/// Bounced light against direct light from a Lambertian face `distance_m` away, stops: every
/// surface gets flux rho/(A (1 - rho)) (integrating-cavity estimate, mean reflectance by area).
double room_bounce_stops(std::span<const RoomSurface> surfaces, double distance_m);

} // namespace keystead
