// How large type and marks are, beside what the screen says: a slider in a menu, and its keys.
#pragma once

#include "engine/ui/outbox.h"

namespace keystead::ui {

inline constexpr int smallest_size_percent = 100, largest_size_percent = 300,
                     size_step_percent = 25;

/// To the next step up or down.
int size_after(int percent, int step);
/// The nearest allowed size for a share 0..1 of the slider.
int size_at(float share);

/// In an open menu. The wish comes when the pointer lets go: the menu itself grows with it.
void size_slider(int percent, Outbox& out);
/// Ctrl with plus, minus and nought.
void size_keys(int percent, Outbox& out);

} // namespace keystead::ui
