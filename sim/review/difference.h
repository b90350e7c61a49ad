// What two sets have not in common, in a photographer's words: where lights stand, what they do to
// the face, what the meter says.
#pragma once

#include "sim/review/review.h"

#include <string>
#include <vector>

namespace keystead {

/// One line of the table. Values are as a person would write them; "-" where a side has none.
struct Difference {
    std::string what; ///< "Pattern", "key: height of its face", …
    std::string first, second;
    std::string change; ///< second over first, signed, where both are numbers or readings
    bool same() const { return first == second; }
};

struct Reviewed {
    const Set& set;
    const Review& review;
};

/// Pattern, side, ratio and camera always; anything else only where the two differ by more than is
/// written. Lights are matched by id.
std::vector<Difference> differences(const Reviewed& first, const Reviewed& second);

/// The table in plain text; `first` and `second` name the columns.
std::string differences_text(const std::vector<Difference>& table, const std::string& first,
                             const std::string& second);

} // namespace keystead
