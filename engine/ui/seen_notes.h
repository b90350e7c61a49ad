// Notes and cautions that a person has seen and needn't be told again: folded away until what they
// say changes. Kept with the window's settings, for each set file by itself; a danger can't be
// folded.
#pragma once

#include "sim/review/review.h"

#include <string>
#include <vector>

namespace keystead::ui {

struct SeenNote {
    std::string code, about;
    std::string words; ///< the message as it was: other figures are other words
    bool operator==(const SeenNote&) const = default;
};

/// Of one set file; `file` is empty for a set that has none yet.
struct SeenOfSet {
    std::string file;
    std::vector<SeenNote> notes;
};

/// Most files that are remembered, the ones used last first.
inline constexpr std::size_t most_seen_sets = 40;

bool can_be_seen(const Finding& finding);
bool is_seen(const std::vector<SeenNote>& notes, const Finding& finding);

/// Notes of that file; null where none were seen.
const std::vector<SeenNote>* seen_of(const std::vector<SeenOfSet>& all, const std::string& file);
/// Folds a finding away, or unfolds it.
void mark_seen(std::vector<SeenOfSet>& all, const std::string& file, const Finding& finding,
               bool seen);
/// The set was saved under another name: what was seen holds there too.
void seen_moved(std::vector<SeenOfSet>& all, const std::string& from, const std::string& to);

void forget_seen(std::vector<SeenOfSet>& all, const std::string& file);

/// Numbers of findings, in their order.
struct Folded {
    std::vector<std::size_t> open, seen;
};
Folded fold_seen(const Review* review, const std::vector<SeenNote>* notes);

} // namespace keystead::ui
