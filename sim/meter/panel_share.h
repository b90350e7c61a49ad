// Light that comes to a receptor off panels, or through them.
#pragma once

#include "sim/light/panel_light.h"
#include "sim/studio/studio.h"

#include <memory>
#include <vector>

namespace keystead {

/// One light on every panel, in the order of the document, at full power.
using PanelLights = std::vector<PanelLight>;
/// One a light of the set; null where it is off.
using LitPanels = std::vector<std::shared_ptr<const PanelLights>>;

PanelLights light_panels_with(const Studio& studio, std::size_t light);

/// What one panel, or all of them, sends to the probe of one light at its present power, lx·s.
double off_panel_lx_s(const Studio& studio, const LitPanels& panels, std::size_t light,
                      std::size_t panel, const Probe& probe);
double off_panels_lx_s(const Studio& studio, const LitPanels& panels, std::size_t light,
                       const Probe& probe);

} // namespace keystead
