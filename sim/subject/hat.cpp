// A brimmed hat: where it sits on a head, its felt and band, and the hair under it.
#include "sim/shape/build/finish.h"
#include "sim/shape/build/sweep.h"
#include "sim/subject/field.h"
#include "sim/subject/worn.h"

namespace keystead::worn {

namespace {

using sculpt::bump;
using sculpt::mix;
using sculpt::smooth_step;

constexpr int fine_sides = 80, coarse_sides = 32;
constexpr double felt_m = 2.5e-3, brim_thick_m = 2.2e-3;
constexpr double band_m = 26e-3, band_proud_m = 1.2e-3;
constexpr double corner_m = 20e-3; ///< rounding between the crown's wall and its top
constexpr double over_head_m = 4e-3;

bool is_skull(std::uint8_t region) {
    const auto r = static_cast<Region>(region);
    return r != Region::ear && r != Region::neck && r != Region::body && r != Region::clothing;
}

/// Share of the brim's ellipse that the crown keeps at a height; 1 at the brim.
double taper(double y_m, double crown_m) {
    return 1.0 - 0.07 * std::clamp(y_m / crown_m, 0.0, 1.0);
}

/// A ring about the crown: the inside ellipse, shrunk by `scale`, widened by `out_m`.
struct Ring {
    double scale = 1.0, out_m = 0.0, y_m = 0.0;
};

struct Pattern {
    const HatSeat& seat;
    double brim_m = 0.0;
    int sides = fine_sides;

    /// Lengthways dent of the crown's top, and its sides pinched in front.
    Vec3 shaped(Vec3 p, double scale) const {
        const double high = p.y / seat.crown_m;
        const double room = std::max(seat.crown_m - seat.head_top_m - over_head_m - felt_m, 0.0);
        const double inner = smooth_step(1.0, 0.75, scale) * smooth_step(0.7, 1.0, high);
        const double along = smooth_step(1.0, 0.5, std::abs(p.z) / seat.half_length_m);
        p.y -= std::min(room, 16e-3) * inner * along * bump(p.x, 15e-3);
        const double pinch = smooth_step(0.45, 1.0, high) *
                             smooth_step(0.1, 0.9, p.z / seat.half_length_m) *
                             std::min(room / 16e-3, 1.0);
        p.x *= 1.0 - 0.16 * pinch;
        return p;
    }

    /// The brim's sides curl up; before the eyes and behind it is level.
    double curl(double across, double out_m) const {
        const double s = std::max(out_m - felt_m, 0.0) / std::max(brim_m, 1e-3);
        return 0.18 * brim_m * s * s * sculpt::square(across * across);
    }

    std::vector<Vec3> points(const Ring& ring) const {
        std::vector<Vec3> made;
        made.reserve(static_cast<std::size_t>(sides));
        const double a = seat.half_breadth_m * ring.scale, b = seat.half_length_m * ring.scale;
        for (int i = 0; i < sides; ++i) {
            const double angle = 2.0 * pi * i / sides;
            const Vec2 unit(std::sin(angle), std::cos(angle));
            const Vec2 outward = glm::normalize(Vec2(unit.x / a, unit.y / b));
            Vec3 p(a * unit.x + outward.x * ring.out_m, ring.y_m,
                   b * unit.y + outward.y * ring.out_m);
            p.y += curl(unit.x, ring.out_m);
            if (ring.y_m > band_m) p = shaped(p, ring.scale);
            made.push_back(seat.origin_m + seat.axes * p);
        }
        return made;
    }
};

/// One face of the crown, from the brim up: straight wall, rounded corner, flat top.
std::vector<Ring> crown_face(double from_m, double out_m, double crown_m) {
    std::vector<Ring> rings;
    const double wall_top = std::max(crown_m - corner_m, 0.55 * crown_m);
    const int steps = 6;
    for (int i = 0; i <= steps; ++i) {
        const double y = mix(from_m, wall_top, double(i) / steps);
        rings.push_back({taper(y, crown_m), out_m, y});
    }
    const double edge = rings.back().scale;
    for (int i = 1; i <= 5; ++i) {
        const double t = 0.5 * pi * i / 5;
        rings.push_back({edge - 0.2 * (1.0 - std::cos(t)), out_m,
                         wall_top + (crown_m - wall_top) * std::sin(t)});
    }
    const double flat = rings.back().scale;
    for (const double share : {0.8, 0.6, 0.42, 0.26, 0.12, 0.02})
        rings.push_back({flat * share, out_m * share, crown_m});
    return rings;
}

/// From the middle of the crown's inside down, round the brim and up the outside.
std::vector<Ring> all_rings(double crown_m, double brim_m) {
    std::vector<Ring> rings = crown_face(0.0, 0.0, crown_m - felt_m);
    std::reverse(rings.begin(), rings.end());
    const double wall = felt_m + band_proud_m;
    for (const double share : {0.0, 0.25, 0.5, 0.75, 1.0})
        rings.push_back({1.0, mix(wall, wall + brim_m, share), 0.0});
    for (const double share : {1.0, 0.75, 0.5, 0.25, 0.01, 0.0})
        rings.push_back({1.0, mix(wall, wall + brim_m, share), brim_thick_m});
    rings.push_back({taper(band_m, crown_m), wall, band_m});
    for (const Ring& ring : crown_face(band_m, felt_m, crown_m)) rings.push_back(ring);
    return rings;
}

void paint_band(Mesh& mesh, const HatSeat& seat) {
    for (std::size_t i = 0; i < mesh.positions_m.size(); ++i) {
        const Vec3 p = seat.local(Vec3(mesh.positions_m[i]));
        if (p.y < 0.5 * brim_thick_m || p.y > band_m + 1e-4) continue;
        const double scale = taper(p.y, seat.crown_m);
        const auto beyond = [&](double out_m) {
            return std::hypot(p.x / (seat.half_breadth_m * scale + out_m),
                              p.z / (seat.half_length_m * scale + out_m)) > 1.0;
        };
        // The foot of the band is drawn in a little by the taper; the brim begins beyond it.
        if (!beyond(felt_m + 0.5 * band_proud_m) || beyond(felt_m + band_proud_m + 0.4e-3))
            continue;
        mesh.colours[i] = glm::vec3(0.45F);
        mesh.roughness[i] = 0.5F;
    }
}

} // namespace

HatSeat seat_of(const SubjectForm& form, const Hat& hat) {
    const Mesh& skin = *form.skin;
    HatSeat seat;
    const double tilt = radians(hat.tilt_deg);
    seat.axes = Mat3(Vec3(1, 0, 0), Vec3(0, std::cos(tilt), -std::sin(tilt)),
                     Vec3(0, std::sin(tilt), std::cos(tilt)));
    const Landmarks& l = form.landmarks;
    const double brim_y = 0.5 * (l.pupil_left.y + l.pupil_right.y) + brim_above_pupils_m;
    // The middle of the head does not depend on the tilt: the hat is tipped about it.
    double front = -1.0, back = 1.0;
    for (std::size_t i = 0; i < skin.positions_m.size(); ++i) {
        const glm::vec3& p = skin.positions_m[i];
        if (!is_skull(skin.regions[i]) || p.y < brim_y) continue;
        front = std::max(front, double(p.z)), back = std::min(back, double(p.z));
    }
    seat.origin_m = {0.0, brim_y, 0.5 * (front + back)};
    std::vector<Vec3> head;
    for (std::size_t i = 0; i < skin.positions_m.size(); ++i)
        if (is_skull(skin.regions[i])) {
            const Vec3 p = seat.local(Vec3(skin.positions_m[i]));
            if (p.y > -2e-3) head.push_back(p);
        }
    double a = 1e-3, b = 1e-3, scale = 1.0;
    for (const Vec3& p : head) {
        a = std::max(a, std::abs(p.x)), b = std::max(b, std::abs(p.z));
        seat.head_top_m = std::max(seat.head_top_m, p.y);
    }
    for (const Vec3& p : head) scale = std::max(scale, std::hypot(p.x / a, p.z / b));
    const double hair_m = form.hair == nullptr || form.hair->positions_m.empty() ? 1.5e-3 : 4e-3;
    seat.half_breadth_m = a * scale + hair_m;
    seat.half_length_m = b * scale + hair_m;
    seat.crown_m = std::max(hat.crown_mm * 1e-3, seat.head_top_m + over_head_m + felt_m);
    return seat;
}

Mesh hat_mesh(const HatSeat& seat, const Hat& hat, Detail detail) {
    const int sides = detail == Detail::fine ? fine_sides : coarse_sides;
    const Pattern pattern{seat, hat.brim_mm * 1e-3, sides};
    std::vector<std::vector<Vec3>> rings;
    for (const Ring& ring : all_rings(seat.crown_m, pattern.brim_m))
        rings.push_back(pattern.points(ring));
    Mesh mesh = build::tinted(build::finished(build::joined(rings), 42.0), glm::vec3(1.0F), 0.9F);
    paint_band(mesh, seat);
    mesh.regions.assign(mesh.positions_m.size(), static_cast<std::uint8_t>(Region::hat));
    return mesh;
}

void press_hair(Mesh& mesh, const HatSeat& seat, bool hair_only) {
    for (std::size_t i = 0; i < mesh.positions_m.size(); ++i) {
        if (hair_only && mesh.regions[i] != static_cast<std::uint8_t>(Region::hair)) continue;
        Vec3 p = seat.local(Vec3(mesh.positions_m[i]));
        // From well below the brim on the hair draws in toward the band.
        const double held = smooth_step(-30e-3, -3e-3, p.y);
        if (held == 0.0) continue;
        const double scale = 0.985 * taper(p.y, seat.crown_m);
        const double beyond =
            std::hypot(p.x / (seat.half_breadth_m * scale), p.z / (seat.half_length_m * scale));
        if (beyond > 1.0) {
            const double keep = mix(1.0, 1.0 / beyond, held);
            p.x *= keep, p.z *= keep;
        }
        p.y = std::min(p.y, seat.head_top_m + 0.5 * over_head_m);
        mesh.positions_m[i] = glm::vec3(seat.origin_m + seat.axes * p);
    }
}

} // namespace keystead::worn
