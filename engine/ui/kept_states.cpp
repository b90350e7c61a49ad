#include "engine/ui/kept_states.h"

#include <algorithm>
#include <ctime>

namespace keystead::ui {

const KeptState* KeptStates::with(int number) const {
    const auto found = std::find_if(list.begin(), list.end(),
                                    [&](const KeptState& each) { return each.number == number; });
    return found != list.end() ? &*found : nullptr;
}

const KeptState* KeptStates::compared() const {
    return flipped || split ? with(picked) : nullptr;
}

void keep_state(KeptStates& kept, KeptState state) {
    state.number = kept.next++;
    kept.picked = state.number;
    kept.list.push_back(std::move(state));
    if (kept.list.size() > most_kept_states) kept.list.erase(kept.list.begin());
}

void forget_state(KeptStates& kept, int number) {
    std::erase_if(kept.list, [&](const KeptState& each) { return each.number == number; });
    if (kept.picked != number) return;
    kept.picked = kept.list.empty() ? 0 : kept.list.back().number;
    if (kept.list.empty()) kept.split = kept.flipped = false;
}

int picked_after(const KeptStates& kept, int step) {
    if (kept.list.empty()) return 0;
    const auto count = static_cast<int>(kept.list.size());
    int at = count - 1;
    for (int i = 0; i < count; ++i)
        if (kept.list[static_cast<std::size_t>(i)].number == kept.picked) at = i + step;
    return kept.list[static_cast<std::size_t>(std::clamp(at, 0, count - 1))].number;
}

std::vector<Difference> kept_differences(const KeptState& state, const Set& now,
                                         const Review* review) {
    if (!state.review || review == nullptr) return {};
    return differences({*state.set, *state.review}, {now, *review});
}

std::string clock_words() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    char words[8];
    return std::strftime(words, sizeof words, "%H:%M", &local) > 0 ? words : "";
}

} // namespace keystead::ui
