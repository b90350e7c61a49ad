#include "engine/plate/pattern_label.h"

namespace keystead {

PatternLabel pattern_label(const PlateCell& cell, const Review& review) {
    if (!cell.meant) return {name_of(review.lights.at(0).pattern_if_alone)};
    const Pattern named = review.portrait.pattern;
    if (named != *cell.meant)
        return {std::string(name_of(named)) + ", not " + name_of(*cell.meant), false};
    const bool sided =
        review.portrait.side != Side::front && named != Pattern::none && named != Pattern::crossed;
    return {std::string(name_of(named)) +
            (sided ? std::string(", ") + name_of(review.portrait.side) : std::string())};
}

} // namespace keystead
