// Findings that one command can mend, as that command.
#pragma once

#include "engine/edit/command.h"
#include "engine/ui/drawn.h"
#include "sim/review/review.h"

#include <optional>
#include <string>

namespace keystead::ui {

struct Remedy {
    std::string act; ///< what the button says: "hang 9.0 kg", "lock the wheels"
    Command command;
};

/// Empty where the remedy is a person's decision. Support remedies are tried on the statics first
/// and only offered when they leave the stand better off.
std::optional<Remedy> remedy_for(const Finding& finding, const Drawn& drawn, const Review& review);

} // namespace keystead::ui
