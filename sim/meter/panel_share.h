// Light that comes to a receptor off panels, or through them.
#pragma once

#include "sim/light/panel_light.h"
#include "sim/studio/studio.h"

#include <memory>
#include <vector>

namespace keystead {

/// One light on every panel, in the order of the document, for an exitance of 1.
using PanelLights = std::vector<PanelLight>;
/// One a light of the set; null where it is off.
using LitPanels = std::vector<std::shared_ptr<const PanelLights>>;

PanelLights light_panels_with(const Studio& studio, std::size_t light);

} // namespace keystead
