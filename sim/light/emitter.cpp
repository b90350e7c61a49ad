#include "sim/light/emitter.h"

#include "sim/light/colour.h"
#include "sim/light/emission_text.h"
#include "sim/light/emitter_face.h"
#include "sim/light/grid.h"
#include "sim/light/measured.h"
#include "sim/light/output.h"

#include <algorithm>

namespace keystead {

namespace {

int cell_of(const Emitter& emitter) {
    if (!emitter.grid) return emission::cell_none;
    return emitter.grid->cell == GridCell::square ? emission::cell_square : emission::cell_round;
}

bool is_cap(const Emitter& emitter) {
    return emitter.shape == ModifierShape::umbrella && emitter.depth_m > 0.0;
}

/// A dish whose deflector shows shines as the ring around it.
bool shows_deflector(const Modifier& modifier) {
    return modifier.shape == ModifierShape::disc && modifier.deflector_width_m > 0.0 &&
           modifier.diffusion_layers == 0;
}

void set_beam(Emitter& emitter, const Modifier& modifier) {
    emitter.beam.exponent = modifier.beam_exponent;
    emitter.beam.cutoff_half_deg = modifier.cutoff_half_deg;
    emitter.beam.cutoff_edge_deg = modifier.cutoff_edge_deg;
    emitter.beam.gain = emitter_gain(emitter);
}

/// The lamp in front of a reflecting canopy, with the small bowl around it (sim/shape/gear).
void set_lamp_in_front(Emitter& emitter, const Light& light, const SupportPose& pose) {
    constexpr double bowl_m = 0.05, bowl_over_lamp = 1.10;
    const double middle_m = glm::dot(pose.tip_m - emitter.centre_m, emitter.axes[2]);
    emitter.front.lamp_ahead_m = middle_m - 0.5 * light.head.length_m - bowl_m;
    emitter.front.lamp_radius_m = bowl_over_lamp * 0.5 * light.head.diameter_m;
}

void set_front(Emitter& emitter, const Light& light, const SupportPose& pose) {
    const Modifier& modifier = light.modifier;
    const bool flat =
        emitter.shape != ModifierShape::bare && emitter.shape != ModifierShape::umbrella;
    emitter.front.half_width_m = 0.5 * emitter.width_m;
    emitter.front.half_height_m = 0.5 * emitter.height_m;
    if (flat) emitter.front.lip_m = modifier.lip_m;
    if (flat && modifier.barn_doors) set_doors(emitter.front, *modifier.barn_doors);
    if (emitter.shape == ModifierShape::umbrella && !emitter.bulges)
        set_lamp_in_front(emitter, light, pose);
}

/// The face's shape and place; its output comes later.
Emitter shape_emitter(const Light& light, const SupportPose& pose) {
    const Modifier& modifier = light.modifier;
    Emitter emitter;
    emitter.light = light.id;
    // A diffusing ball shines as a bare lamp of its size does.
    emitter.shape = modifier.shape == ModifierShape::sphere ? ModifierShape::bare : modifier.shape;
    emitter.centre_m = pose.emitter_m;
    emitter.axes = pose.head_axes;
    emitter.width_m = modifier.width_m;
    emitter.height_m = modifier.height_m;
    if (emitter.shape == ModifierShape::bare || modifier.shape == ModifierShape::umbrella)
        emitter.height_m = modifier.width_m;
    if (modifier.shape == ModifierShape::ring) emitter.inner_width_m = modifier.inner_width_m;
    if (shows_deflector(modifier)) {
        emitter.shape = ModifierShape::ring;
        emitter.inner_width_m = modifier.deflector_width_m;
        emitter.deflector = modifier.deflector_width_m / modifier.width_m;
    }
    if (modifier.shape == ModifierShape::umbrella) {
        emitter.depth_m = modifier.depth_m;
        emitter.bulges = modifier.umbrella == UmbrellaKind::shoot_through;
    }
    emitter.area_m2 = face_area_m2(emitter);
    emitter.hot_spot = emitter.shape == ModifierShape::bare
                           ? 0.0
                           : hot_spot_behind(modifier.hot_spot, modifier.diffusion_layers);
    if (modifier.grid) emitter.grid = resolved_grid(*modifier.grid);
    set_beam(emitter, modifier);
    set_front(emitter, light, pose);
    return emitter;
}

emission::FaceFront front_text(const FaceFront& front) {
    const auto& s = front.door_sine;
    const auto& c = front.door_cosine;
    return {{front.half_width_m, front.half_height_m},
            front.lip_m,
            front.door_length_m,
            {s[0], s[1], s[2], s[3]},
            {c[0], c[1], c[2], c[3]},
            front.lamp_ahead_m,
            front.lamp_radius_m};
}

/// Profile and grid for light along `local`; `leaving` is the cosine at the point it leaves.
double directional(const Emitter& emitter, const Vec3& local, double leaving) {
    if (emitter.measured != nullptr) {
        // Radiance that makes the measured intensity on the area seen from there.
        const double per_lumen = intensity_per_lumen(*emitter.measured, local);
        return emitter.shape == ModifierShape::bare ? 4.0 * pi * per_lumen
                                                    : pi * per_lumen / std::max(local.z, 1e-4);
    }
    const Beam& beam = emitter.beam;
    double share = beam.gain;
    if (emitter.bulges && is_cap(emitter))
        // Translucent cloth spreads about its own normal.
        share *= emission::gathering(beam.exponent, leaving);
    else if (!beam.plain())
        share *= emission::beam_profile(beam.exponent, radians(beam.cutoff_half_deg),
                                        radians(beam.cutoff_edge_deg), local);
    return share;
}

} // namespace

Emitter make_emitter(const Light& light, const SupportPose& pose, const MeterSettings& meter) {
    Emitter emitter = shape_emitter(light, pose);
    emitter.flash = light.head.kind == HeadKind::flash;
    emitter.power = light.on ? power_factor(light.head.power_stops_below) : 0.0;
    emitter.colour = gelled_colour(light.head.colour_k, light.modifier.gel);
    emitter.exitance = full_power_exitance(emitter, light, meter);
    return emitter;
}

double emitter_gain(const Emitter& emitter) {
    if (emitter.shape == ModifierShape::bare) return ball_gain(emitter.beam);
    if (!is_cap(emitter)) return flat_gain(emitter.beam);
    if (emitter.bulges) return flat_gain({emitter.beam.exponent, 90.0, 0.0, 1.0});
    const double mouth_m2 = 0.25 * pi * emitter.width_m * emitter.width_m;
    return flat_gain(emitter.beam) * face_area_m2(emitter) / mouth_m2;
}

double grid_transmittance(const Emitter& emitter, const Vec3& direction) {
    const Vec3 local = glm::transpose(emitter.axes) * direction;
    const bool all_round = (emitter.shape == ModifierShape::bare && emitter.beam.plain()) ||
                           (emitter.bulges && is_cap(emitter));
    if (all_round && !emitter.grid) return 1.0;
    const Grid grid = emitter.grid.value_or(Grid{});
    return emission::grid_transmittance(cell_of(emitter), grid.cell_depth_m / grid.cell_width_m,
                                        grid.open_fraction, grid.wall_reflection, local);
}

double radiance(const Emitter& emitter, const EmitterPoint& point, const Vec3& direction) {
    const double leaving = glm::dot(point.normal, direction);
    if (leaving <= 0.0) return 0.0;
    const bool hollow = is_cap(emitter) && !emitter.bulges;
    const Mat3 to_local = glm::transpose(emitter.axes);
    const Vec3 local = to_local * direction;
    if (hollow || !emitter.front.empty()) {
        const Vec3 place = to_local * (point.position_m - emitter.centre_m);
        if (hollow && !emission::leaves_cap(place, local, 0.5 * emitter.width_m, emitter.depth_m))
            return 0.0;
        if (!emitter.front.empty() &&
            !emission::clears_front(front_text(emitter.front), static_cast<int>(emitter.shape),
                                    place, local))
            return 0.0;
    }
    return emitter.exitance * point.relative_exitance / pi * directional(emitter, local, leaving) *
           grid_transmittance(emitter, direction);
}

} // namespace keystead
