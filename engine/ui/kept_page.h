// The side panel's page of kept states: the list, what can be done with one, and what differs.
#pragma once

#include "engine/ui/kept_states.h"
#include "engine/ui/widgets.h"

namespace keystead::ui {

struct KeptPageInput {
    const KeptStates& kept;
    const Set& now;
    const Review* review = nullptr; ///< of `now`; null until it is known
    bool review_is_current = false;
};
void kept_page(Flow& flow, const KeptPageInput& in);

/// "loop, short side, f/8 + 3/10": what a kept state is told by; empty until it is reviewed.
std::string kept_summary(const KeptState& state);

} // namespace keystead::ui
