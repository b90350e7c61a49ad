#include "sim/meter/panel_share.h"

#include "sim/support/panel_pose.h"

namespace keystead {

PanelLights light_panels_with(const Studio& studio, std::size_t light) {
    PanelLights lit;
    Emitter emitter = studio.emitters[light];
    emitter.exitance = 1.0;
    for (const Panel& panel : studio.set.panels)
        lit.push_back(
            light_on_panel(pose_panel(panel), surface_of(panel), emitter, studio.rays.get()));
    return lit;
}

} // namespace keystead
