// Wishes about kept states and the build order, and their keys.
#pragma once

#include "engine/ui/app.h"

namespace keystead::ui {

/// True if the wish was one of these.
bool carry_out_state_wish(App& app, const Wish& wish);

/// Ctrl+K, K held, Ctrl+B, Page Up and Page Down, Escape.
void state_shortcuts(const App& app, Outbox& out);

/// The build order goes as soon as the document is another one.
void heed_new_revision(App& app);

} // namespace keystead::ui
