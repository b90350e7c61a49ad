// The build seen light by light: the set with none of its lights on, then with the first, then with
// the first two, and so on. A way of looking: the document is not touched, and the first edit ends
// it.
#pragma once

#include "engine/ui/drawn.h"
#include "engine/ui/selection.h"
#include "sim/review/review.h"
#include "sim/studio/studio.h"

#include <memory>
#include <string>
#include <vector>

namespace keystead::ui {

struct BuildStep {
    std::string added; ///< id of the light this step switches on; empty for the first step
    std::string words; ///< "build order 2 of 4: + fill"
    Drawn drawn;       ///< the set with only these lights on
    std::shared_ptr<const Studio> studio; ///< null until it is made in the background
    std::shared_ptr<const Review> review; ///< likewise
};

struct BuildOrder {
    std::vector<BuildStep> steps; ///< empty: not looked at
    std::size_t at = 0;
    std::uint64_t revision = 0; ///< of the document whose build this is
    Selection before;           ///< what was selected when it began

    /// The step to be seen; null when the build is not looked at, or the document has changed.
    const BuildStep* shown(std::uint64_t document_revision) const {
        return steps.empty() || document_revision != revision ? nullptr : &steps[at];
    }
};

/// All steps of a set; lights that are off in the document stay off and make no step. At the first
/// light, the step before it is one back. Empty where no light is on.
BuildOrder build_order_of(const Set& set, const Landmarks* landmarks, std::uint64_t revision);

/// One on or back; stays at either end.
void go_step(BuildOrder& order, int by);

} // namespace keystead::ui
