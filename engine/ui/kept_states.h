// States of the set kept aside to be compared with what it is now: by flipping the picture, by a
// divider in it, and in words. They last as long as the set is open; the document knows nothing of
// them.
#pragma once

#include "engine/edit/become.h"
#include "engine/ui/layout.h"
#include "engine/ui/outbox.h"
#include "sim/review/difference.h"
#include "sim/studio/studio.h"
#include "sim/transport/bake.h"

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

namespace keystead::ui {

struct KeptState {
    int number = 0;             ///< 1, 2, … in the order they were kept; never given twice
    std::string when;           ///< "21:40"
    std::string called;         ///< a name given to it; may be empty
    std::uint64_t revision = 0; ///< of the document when it was kept
    std::shared_ptr<const Set> set;
    std::shared_ptr<const Studio> studio;          ///< null until it is made in the background
    std::shared_ptr<const Review> review;          ///< likewise
    std::shared_ptr<const IndirectLight> indirect; ///< baked for `indirect_of`; may be null
    std::shared_ptr<const Studio> indirect_of;

    std::string name() const { return called.empty() ? "kept " + std::to_string(number) : called; }
};

struct KeptStates {
    std::vector<KeptState> list; ///< oldest first
    int next = 1;
    int picked = 0;         ///< number of the one to be compared; 0: none
    bool page_open = false; ///< the list stands in the side panel
    bool flipped = false;   ///< the picked one is shown in place of now, while a key is held
    bool split = false;     ///< the picked one left of the divider, now right of it
    float divider = 0.5F;   ///< share of the picture's width
    Rect picture;           ///< where the picked one's picture goes, as laid out in the last frame

    const KeptState* with(int number) const;
    /// The picked one while it is to be seen; else null.
    const KeptState* compared() const;
};

/// Keeps a state; the one kept is picked. The oldest goes when there are more than `most`.
inline constexpr std::size_t most_kept_states = 24;
void keep_state(KeptStates& kept, KeptState state);
void forget_state(KeptStates& kept, int number);

/// The picked or the next one after it, older last.
int picked_after(const KeptStates& kept, int step);

/// Picked state against the present one, in words; empty until both are reviewed.
std::vector<Difference> kept_differences(const KeptState& state, const Set& now,
                                         const Review* review);

/// The hour and minute by this machine's clock.
std::string clock_words();

} // namespace keystead::ui
