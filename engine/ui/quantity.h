// What people type into a number field: arithmetic with any usual unit.
//
// Understood: + - × * / ( ), decimal point or comma, mixed fractions ("68 1/4 in"), a unit after a
// number or a bracket, compound lengths ("6 ft 3 in", 5'8", "1 m 73"), a bare number in the field's
// own unit. Units are the SI ones and the customary ones of NIST SP 811 appendix B (1 in = 25.4 mm,
// 1 ft = 0.3048 m, 1 lb = 0.453 592 37 kg exactly).
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace keystead::ui {

enum class Dimension { plain, length, mass, angle, stops, energy, temperature, time, flux, power };

/// What a field accepts. `unit` is the unit the field's value is kept in.
struct QuantityRule {
    Dimension dimension = Dimension::plain;
    std::string unit;            ///< "m", "mm", "kg", "°", "stop", "Ws", "K", "s", "lm", "W", ""
    double min = 0.0, max = 0.0; ///< in `unit`; no limits where min == max
    int decimals = 2;            ///< how values are written
    /// Present value: a field that cannot be negative takes "+5 cm" and "-5 cm" as steps from it.
    std::optional<double> current;
    bool fixed_unit =
        false; ///< shown in `unit` whatever units the screen uses: a lens's millimetres
};

/// The value in the rule's unit, or what is wrong in a few words: "not a length", "0.6 to 2.6 m".
struct Quantity {
    std::optional<double> value;
    std::string trouble;
};

Quantity parse_quantity(std::string_view text, const QuantityRule& rule);

/// A number as it is printed everywhere: fixed decimals, a true minus sign, never "−0.00".
std::string number_text(double value, int decimals);

/// The same with its unit, spaced as in sentences: "1.95 m", "12°", "8".
std::string quantity_text(double value, const QuantityRule& rule);

} // namespace keystead::ui
