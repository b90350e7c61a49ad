// The hand meter's pass: points, shutter, spots from the camera, measured against predicted.
#include "sim/base/frames.h"
#include "sim/light/stops.h"
#include "sim/review/passes.h"
#include "sim/review/tone.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace keystead {

namespace {

/// Directions over a spot meter's round field, 1° across: its middle and a ring at two thirds.
std::array<Vec3, 7> spot_directions(const Vec3& middle) {
    constexpr double ring_deg = 1.0 / 3.0;
    const Mat3 axes = upright_frame(middle);
    std::array<Vec3, 7> directions{middle};
    for (std::size_t i = 1; i < directions.size(); ++i) {
        const double turn = 2.0 * pi * double(i) / 6.0;
        const double out = std::tan(radians(ring_deg));
        directions[i] =
            glm::normalize(middle + out * (std::cos(turn) * axes[0] + std::sin(turn) * axes[1]));
    }
    return directions;
}

/// Mean tone that the spot sees; what it misses is black.
double spot_tone(const Bench& bench, const Vec3& middle) {
    double sum = 0.0;
    const std::array<Vec3, 7> directions = spot_directions(middle);
    for (const Vec3& direction : directions) {
        RayHit hit;
        if (see(bench, direction, ray_mask::all, hit))
            sum += tone_of_hit(bench, hit, direction).tone;
    }
    return sum / double(directions.size());
}

SpotReading read_spot(const Bench& bench, const std::string& place, const Vec3& direction) {
    SpotReading spot;
    spot.place = place;
    const Set& set = bench.studio.set;
    // A tone is luminance·pi over the exposure that the camera is set to.
    spot.luminance_cd_s_m2 = spot_tone(bench, direction) * bench.camera_exposure_lx_s / pi;
    if (spot.luminance_cd_s_m2 <= 0.0) return spot;
    const double f_number =
        f_number_of_luminance(spot.luminance_cd_s_m2, 1.0, set.camera.iso, set.meter.reflected_k);
    spot.dial = {f_number, meter_notation(f_number)};
    spot.stops_from_camera = stops_between_f_numbers(bench.camera_f_number, f_number);
    return spot;
}

/// A spot on a place of the sitter, which something may hide from the camera.
SpotReading spot_on(const Bench& bench, const std::string& place, const Vec3& at_m) {
    constexpr double near_m = 0.02;
    const Vec3 way = at_m - bench.sight.frame.eye_m;
    if (hidden(bench, at_m - near_m * glm::normalize(way))) {
        SpotReading hidden;
        hidden.place = place;
        hidden.note = "hidden from the camera";
        return hidden;
    }
    return read_spot(bench, place, glm::normalize(way));
}

/// Cells of the sight's grid that half the spot covers.
int spot_half_cells(const Sight& sight) {
    const double cell = 2.0 * sight.frame.tan_half_height / sight.rows;
    return static_cast<int>(std::ceil(std::tan(radians(0.5)) / cell));
}

bool background_all_round(const Bench& bench, int column, int row, int reach) {
    const Sight& sight = bench.sight;
    for (int y = row - reach; y <= row + reach; ++y)
        for (int x = column - reach; x <= column + reach; ++x)
            if (x < 0 || y < 0 || x >= sight.columns || y >= sight.rows ||
                !is_background(bench, sight.hits[static_cast<std::size_t>(y * sight.columns + x)]))
                return false;
    return true;
}

/// The background beside the head: the place nearest to it that fills the spot.
SpotReading background_spot(const Bench& bench) {
    const Sight& sight = bench.sight;
    const Vec3 head = glm::normalize(bench.marks.face - sight.frame.eye_m);
    const int reach = spot_half_cells(sight);
    std::size_t best = sight.hits.size();
    double nearest = -std::numeric_limits<double>::infinity();
    for (int row = 0; row < sight.rows; ++row)
        for (int column = 0; column < sight.columns; ++column) {
            const auto cell = static_cast<std::size_t>(row * sight.columns + column);
            const double nearness = glm::dot(head, sight.directions[cell]);
            if (nearness <= nearest || !background_all_round(bench, column, row, reach)) continue;
            best = cell;
            nearest = nearness;
        }
    if (best < sight.hits.size()) return read_spot(bench, "background", sight.directions[best]);
    SpotReading none;
    none.place = "background";
    none.note = "not in the picture";
    return none;
}

} // namespace

std::vector<SpotReading> review_spots(const Bench& bench) {
    SpotReading one = spot_on(bench, "", bench.marks.cheek_left);
    SpotReading other = spot_on(bench, "", bench.marks.cheek_right);
    if (one.luminance_cd_s_m2 < other.luminance_cd_s_m2) std::swap(one, other);
    one.place = "face, lit side";
    other.place = "face, shadow side";
    return {one, other, spot_on(bench, "forehead", bench.marks.glabella), background_spot(bench)};
}

void review_meter(const Bench& bench, Review& review) {
    const Studio& studio = bench.studio;
    review.meter = read_points(studio, bench.aids);
    review.shutter = read_shutter(studio.set, review.meter.front());
    review.measured = compare_measured(studio, bench.aids);
    if (review.measured.corrections.empty()) return;
    for (PointReading& point : review.meter)
        if (point.together.f_number)
            point.corrected = corrected_together(studio.set, point, review.measured);
}

} // namespace keystead
