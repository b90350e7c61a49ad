// Keys that act on what is picked: other lights by number, nudges, power.
#pragma once

#include "engine/ui/app.h"

namespace keystead::ui {

/// 1 to 9 pick a light, 0 the camera; arrows move what is picked over the floor, Page Up and Page
/// Down a column, comma and point its power; F10 opens the menu line. Not while something is typed.
void selection_keys(const App& app, Outbox& out);

} // namespace keystead::ui
