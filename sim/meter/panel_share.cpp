#include "sim/meter/panel_share.h"

#include "sim/meter/meter_point.h"
#include "sim/support/panel_pose.h"

namespace keystead {

PanelLights light_panels_with(const Studio& studio, std::size_t light) {
    PanelLights lit;
    for (const Panel& panel : studio.set.panels)
        lit.push_back(light_on_panel(pose_panel(panel), surface_of(panel), studio.emitters[light],
                                     studio.rays.get()));
    return lit;
}

double off_panel_lx_s(const Studio& studio, const LitPanels& panels, std::size_t light,
                      std::size_t panel, const Probe& probe) {
    if (light >= panels.size() || !panels[light]) return 0.0;
    const Emitter& emitter = studio.emitters[light];
    return counted_time_s(emitter, studio.set.camera) * emitter.power *
           exposure_off_panel((*panels[light])[panel], probe, studio.rays.get());
}

double off_panels_lx_s(const Studio& studio, const LitPanels& panels, std::size_t light,
                       const Probe& probe) {
    double sum = 0.0;
    for (std::size_t p = 0; p < studio.set.panels.size(); ++p)
        sum += off_panel_lx_s(studio, panels, light, p, probe);
    return sum;
}

} // namespace keystead
