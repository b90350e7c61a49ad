#include "engine/ui/build_order.h"

#include <algorithm>

namespace keystead::ui {

namespace {

std::string none_words(const Set& set, std::size_t count) {
    std::string words = "build order 0 of " + std::to_string(count) + ": no light yet";
    if (set.room.ambient_lx > 0.0)
        words += ", room light " + std::to_string(static_cast<int>(set.room.ambient_lx + 0.5)) +
                 " lx is not drawn";
    return words;
}

} // namespace

BuildOrder build_order_of(const Set& set, const Landmarks* landmarks, std::uint64_t revision) {
    BuildOrder order;
    order.revision = revision;
    std::vector<std::size_t> built;
    for (std::size_t i = 0; i < set.lights.size(); ++i)
        if (set.lights[i].on) built.push_back(i);
    if (built.empty()) return order;
    Set now = set;
    for (Light& light : now.lights) light.on = false;
    order.steps.push_back(
        {{}, none_words(set, built.size()), draw_set(now, landmarks), nullptr, nullptr});
    for (std::size_t i = 0; i < built.size(); ++i) {
        Light& light = now.lights[built[i]];
        light.on = true;
        const std::string& name = light.role.empty() ? light.id : light.role;
        order.steps.push_back({light.id,
                               "build order " + std::to_string(i + 1) + " of " +
                                   std::to_string(built.size()) + ": + " + name,
                               draw_set(now, landmarks), nullptr, nullptr});
    }
    order.at = 1;
    return order;
}

void go_step(BuildOrder& order, int by) {
    if (order.steps.empty()) return;
    const auto last = static_cast<int>(order.steps.size()) - 1;
    order.at = static_cast<std::size_t>(std::clamp(static_cast<int>(order.at) + by, 0, last));
}

} // namespace keystead::ui
