// What is selected, and what the pointer is over: one of each for all views.
#pragma once

#include "sim/meter/meter_point.h" // light_index
#include "sim/set/set.h"

#include <optional>
#include <string>

namespace keystead::ui {

enum class Thing { room, light, subject, camera, background, panel };

struct Selection {
    Thing thing = Thing::room;
    std::string id; ///< of a light or a panel, else empty
    bool operator==(const Selection&) const = default;
};

inline bool is_light(const Selection& selection, const std::string& id) {
    return selection.thing == Thing::light && selection.id == id;
}

inline std::optional<std::size_t> panel_index(const Set& set, const std::string& id) {
    for (std::size_t i = 0; i < set.panels.size(); ++i)
        if (set.panels[i].id == id) return i;
    return std::nullopt;
}

/// The room instead of a light or panel that is no longer there.
inline Selection still_there(const Selection& selection, const Set& set) {
    const bool lost = (selection.thing == Thing::light && !light_index(set, selection.id)) ||
                      (selection.thing == Thing::panel && !panel_index(set, selection.id));
    return lost ? Selection{} : selection;
}

} // namespace keystead::ui
