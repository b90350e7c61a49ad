// The card at the right while a file is taken into the set: progress, what it may be, its face.
#pragma once

#include "engine/ui/taking_in.h"
#include "engine/ui/widgets.h"

namespace keystead::ui {

void taking_panel(Flow& flow, const TakingIn& taking);

} // namespace keystead::ui
