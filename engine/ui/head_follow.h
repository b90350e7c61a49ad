// Keep the pattern while the head turns: the key moves with the head, by row and by grip.
#pragma once

#include "engine/edit/follow_head.h"
#include "engine/ui/grips.h"

#include <memory>
#include <string>

namespace keystead::ui {

struct HeadFollow {
    bool on = false;
    /// The set as it was before the drag in hand, or as it is; null while it is being shaped.
    std::shared_ptr<const Studio> start;
    std::string light;   ///< id of the key; empty: nothing lights the face
    std::string letter;  ///< of it
    std::string stopped; ///< why the light went no further; empty where it went all the way
    bool possible() const { return start != nullptr && !light.empty(); }
    bool active() const { return on && possible(); }
};

/// The command for a head turned, nodded or leant to `value_deg` (`path` of the document), with the
/// light where it is active. Says in `stopped` what kept the light from following further.
Command head_command(HeadFollow& follow, const std::string& path, double value_deg);

/// The same for a drag of the head's grip: takes the light along and says so.
void take_light_along(HeadFollow& follow, const Grip& grip, Dragged& dragged);

} // namespace keystead::ui
