// The feet from above with the centre of mass: why a support stands or falls.
#pragma once

#include "engine/ui/page.h"
#include "engine/ui/widgets.h"

namespace keystead::ui {

/// Draws the card at the flow's place and moves it on.
void footprint_card(Flow& flow, const Light& light, const SupportPose& pose,
                    const Stability& stability);

} // namespace keystead::ui
