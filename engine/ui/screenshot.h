// The whole window into a PNG, without a screen.
#pragma once

#include "engine/ui/window.h"

namespace keystead::ui {

/// Settles first: the review is complete and the picture has its samples, or `settle_s` has passed.
/// Exit codes as run_window's; 1 if the file cannot be written.
int take_screenshot(const WindowOptions& options);

} // namespace keystead::ui
