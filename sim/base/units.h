// Units people write that are not the document's.
#pragma once

namespace keystead {

/// International avoirdupois pound, exact by definition (1959 agreement).
inline constexpr double pound_kg = 0.45359237;

constexpr double kilograms_from_pounds(double mass_lb) {
    return mass_lb * pound_kg;
}

} // namespace keystead
