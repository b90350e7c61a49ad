// A measured light distribution taken into the set: by the list of files, or dropped on the window.
#pragma once

#include "engine/ui/app.h"

namespace keystead::ui {

/// True if the wish was one of these.
bool carry_out_measured_wish(App& app, const Wish& wish);

/// IES LM-63 or EULUMDAT, by its ending.
bool is_measured_file(const std::filesystem::path& file);

} // namespace keystead::ui
