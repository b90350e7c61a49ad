#include "sim/light/falloff.h"

#include <cmath>

namespace keystead {

double inverse_square_stops(double from_m, double to_m) {
    return 2.0 * std::log2(from_m / to_m);
}

double distance_factor_of_stops(double stops) {
    return std::exp2(-0.5 * stops);
}

double background_stops_against_grey(double reflectance, double light_to_subject_m,
                                     double light_to_background_m) {
    return std::log2(reflectance / 0.18) +
           inverse_square_stops(light_to_subject_m, light_to_background_m);
}

double stops_to_white(double reflectance) {
    return -std::log2(reflectance);
}

double penumbra_width_m(double source_width_m, double source_to_occluder_m,
                        double occluder_to_receiver_m) {
    return source_width_m * occluder_to_receiver_m / source_to_occluder_m;
}

Vec2 shadow_shift(double depth, double azimuth_deg, double elevation_deg) {
    const double azimuth = radians(azimuth_deg);
    return {depth * std::tan(azimuth),
            depth * std::tan(radians(elevation_deg)) / std::cos(azimuth)};
}

double feathering_stops(double turned_deg) {
    return std::log2(std::cos(radians(turned_deg)));
}

double apparent_width_m(double width_m, double turned_deg) {
    return width_m * std::cos(radians(turned_deg));
}

double room_bounce_stops(std::span<const RoomSurface> surfaces, double distance_m) {
    double area = 0.0, reflecting = 0.0;
    for (const RoomSurface& surface : surfaces) {
        area += surface.area_m2;
        reflecting += surface.area_m2 * surface.reflectance;
    }
    const double mean = reflecting / area;
    const double bounced_per_flux = mean / (area * (1.0 - mean));
    const double direct_per_flux = 1.0 / (pi * distance_m * distance_m); // I = flux/pi on axis
    return std::log2(bounced_per_flux / direct_per_flux);
}

} // namespace keystead
