// Ways to part an outline from what is behind it, with numbers.
#pragma once

#include "sim/review/bench.h"

#include <string>
#include <vector>

namespace keystead {

struct PartWay {
    std::string words; ///< lower case, without a stop at the end
    Mend mend;         ///< empty: only a person can
};

/// For the named place and, where one light does for several, for the other places of `places` too.
/// What is already there comes first, then a new light, then what the background would need.
std::vector<PartWay> ways_to_part(const Bench& bench, const std::string& place,
                                  const std::vector<std::string>& places);

} // namespace keystead
