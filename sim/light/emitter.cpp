#include "sim/light/emitter.h"

#include "sim/light/colour.h"
#include "sim/light/emission_text.h"
#include "sim/light/emitter_face.h"
#include "sim/light/output.h"

namespace keystead {

namespace {

int cell_of(const Emitter& emitter) {
    if (!emitter.grid) return emission::cell_none;
    return emitter.grid->cell == GridCell::square ? emission::cell_square : emission::cell_round;
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
    emitter.inner_width_m = modifier.shape == ModifierShape::ring ? modifier.inner_width_m : 0.0;
    emitter.depth_m = modifier.shape == ModifierShape::umbrella ? modifier.depth_m : 0.0;
    emitter.area_m2 = face_area_m2(emitter);
    emitter.hot_spot = emitter.shape == ModifierShape::bare ? 0.0 : modifier.hot_spot;
    emitter.grid = modifier.grid;
    return emitter;
}

} // namespace

Emitter make_emitter(const Light& light, const SupportPose& pose, const MeterSettings& meter) {
    Emitter emitter = shape_emitter(light, pose);
    emitter.flash = light.head.kind == HeadKind::flash;
    emitter.power = light.on ? power_factor(light.head.power_stops_below) : 0.0;
    const double shift = light.modifier.gel ? light.modifier.gel->mired_shift : 0.0;
    emitter.colour = lamp_colour(gelled_colour_k(light.head.colour_k, shift));
    emitter.exitance = full_power_exitance(emitter, light, meter);
    return emitter;
}

double grid_transmittance(const Emitter& emitter, const Vec3& direction) {
    const Vec3 local = glm::transpose(emitter.axes) * direction;
    const bool all_round = emitter.shape == ModifierShape::bare && !emitter.grid;
    if (all_round) return 1.0;
    const double ratio =
        emitter.grid ? emitter.grid->cell_depth_m / emitter.grid->cell_width_m : 0.0;
    return emission::grid_transmittance(cell_of(emitter), ratio,
                                        emitter.grid ? emitter.grid->open_fraction : 1.0, local);
}

double radiance(const Emitter& emitter, const EmitterPoint& point, const Vec3& direction) {
    if (glm::dot(point.normal, direction) <= 0.0) return 0.0;
    if (emitter.shape == ModifierShape::umbrella && emitter.depth_m > 0.0) {
        const Mat3 to_local = glm::transpose(emitter.axes);
        if (!emission::leaves_cap(to_local * (point.position_m - emitter.centre_m),
                                  to_local * direction, 0.5 * emitter.width_m, emitter.depth_m))
            return 0.0;
    }
    return emitter.exitance * point.relative_exitance / pi * grid_transmittance(emitter, direction);
}

} // namespace keystead
