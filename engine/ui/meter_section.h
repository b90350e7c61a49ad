// The hand meter's sections of the side panel.
#pragma once

#include "engine/ui/side_panel.h"

namespace keystead::ui {

/// Place, aim and receptor of the point in hand, its readings, and lists of real readings.
void meter_section(Flow& flow, const Shown& shown, OpenSections& open);
/// What a spot meter at the camera reads of the face and the background.
void spot_section(Flow& flow, const Shown& shown, OpenSections& open);

} // namespace keystead::ui
