#include "sim/meter/reading_aids.h"

#include "sim/meter/bounce.h"
#include "sim/meter/meter_point.h"
#include "sim/shape/content_key.h"

namespace keystead {

namespace {

double present_factor(const Studio& studio, std::size_t light) {
    const Emitter& emitter = studio.emitters[light];
    return emitter.power * emitter.exitance * counted_time_s(emitter, studio.set.camera);
}

/// Around all of a panel.
Extent extent_of(const Panel& panel) {
    const PanelPose pose = pose_panel(panel);
    Vec3 low(1e30), high(-1e30);
    for (const PanelLeaf& leaf : pose.leaves)
        for (const double x : {-0.5, 0.5})
            for (const double y : {-0.5, 0.5}) {
                const Vec3 corner = leaf.centre_m + x * leaf.width_m * leaf.axes[0] +
                                    y * leaf.height_m * leaf.axes[1];
                low = glm::min(low, corner);
                high = glm::max(high, corner);
            }
    return {0.5 * (low + high), 0.5 * (high - low) + board_thickness_m};
}

} // namespace

double direct_lx_s(const Studio& studio, const ReadingAids& aids, std::size_t light,
                   const Probe& probe, int points) {
    const double factor = present_factor(studio, light);
    if (aids.memory == nullptr) return light_exposure_lx_s(studio, light, probe, points);
    const std::uint64_t key = aids.memory->direct_key(light, probe, points);
    if (factor <= 0.0) {
        aids.memory->keep(key); // it may be switched on again
        return 0.0;
    }
    const auto full = [&] {
        Emitter emitter = studio.emitters[light];
        emitter.power = emitter.exitance = 1.0;
        return std::vector<double>{exposure_at(emitter, probe, studio.rays.get(), points)};
    };
    return factor * aids.memory->values(key, full).front();
}

namespace {

std::uint64_t off_panel_key(const Studio& studio, const ReadingAids& aids, std::size_t panel,
                            const Probe& probe) {
    const Extent board = extent_of(studio.set.panels[panel]);
    return ContentKey()
        .add("panel seen")
        .add(first_part_key(studio.set.panels[panel]))
        .add(static_cast<int>(panel))
        .add(probe_key(probe))
        .add(aids.memory->keys().shades.between(board, {probe.position_m, Vec3(0.0)}))
        .value();
}

} // namespace

double off_panel_lx_s(const Studio& studio, const ReadingAids& aids, std::size_t light,
                      std::size_t panel, const Probe& probe) {
    const double factor = present_factor(studio, light);
    if (factor <= 0.0 || light >= aids.panels.size() || !aids.panels[light]) {
        // It may be switched on again.
        if (aids.memory != nullptr) aids.memory->keep(off_panel_key(studio, aids, panel, probe));
        return 0.0;
    }
    const PanelLight& lit = (*aids.panels[light])[panel];
    if (lit.dark) return 0.0;
    if (aids.memory == nullptr) return factor * exposure_off_panel(lit, probe, studio.rays.get());
    const auto look = [&] { return patches_seen(lit, probe, studio.rays.get()); };
    const std::vector<double>& seen =
        aids.memory->values(off_panel_key(studio, aids, panel, probe), look);
    return factor * exposure_off_panel(lit, probe, seen);
}

double off_panels_lx_s(const Studio& studio, const ReadingAids& aids, std::size_t light,
                       const Probe& probe) {
    double sum = 0.0;
    for (std::size_t p = 0; p < studio.set.panels.size(); ++p)
        sum += off_panel_lx_s(studio, aids, light, p, probe);
    return sum;
}

std::vector<double> bounces_lx_s(const Studio& studio, const ReadingAids& aids,
                                 const Probe& probe) {
    std::vector<double> result(studio.emitters.size(), 0.0);
    if (!aids.bounce) return result;
    result = aids.memory != nullptr ? aids.memory->bounce(studio, probe) : bounce_at(studio, probe);
    for (std::size_t i = 0; i < result.size(); ++i) result[i] *= present_factor(studio, i);
    return result;
}

std::uint64_t panel_light_key(const Studio& studio, const ReadingKeys& keys, std::size_t light) {
    ContentKey key;
    key.add(keys.lights[light]);
    for (const Panel& panel : studio.set.panels)
        key.add(first_part_key(panel))
            .add(keys.shades.between(keys.faces[light], extent_of(panel)));
    return key.value();
}

} // namespace keystead
