// Wishes about files for the subject and for props, and about placing a face's points.
#pragma once

#include "engine/ui/app.h"

namespace keystead::ui {

/// Carries the wish out if it is one of these; else false, and nothing is done.
bool carry_out_mesh_wish(App& app, const Wish& wish);

} // namespace keystead::ui
