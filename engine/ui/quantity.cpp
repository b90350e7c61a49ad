#include "engine/ui/quantity.h"

#include "engine/ui/quantity_units.h"

#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace keystead::ui {

namespace {

/// A value on the way: `known` dimensions are in the dimension's base unit, bare numbers are not
/// yet anything.
struct Term {
    double value = 0.0;
    bool bare = true;
};

/// Recursive descent over a normalised text. The first trouble found is kept; later ones follow
/// from it.
class Reader {
public:
    Reader(std::string text, const QuantityRule& rule)
        : text_(std::move(text))
        , rule_(rule)
        , own_(factor_of(rule.unit, rule.dimension)) {}

    std::optional<double> whole() {
        const Term term = sum();
        skip_spaces();
        if (trouble_.empty() && at_ < text_.size()) fail();
        if (!trouble_.empty() || !std::isfinite(term.value)) return std::nullopt;
        return term.bare ? term.value : term.value / own_;
    }
    const std::string& trouble() const { return trouble_; }

private:
    void fail(std::string words = {}) {
        if (trouble_.empty()) trouble_ = words.empty() ? not_a(rule_.dimension) : std::move(words);
    }
    void skip_spaces() {
        while (at_ < text_.size() && text_[at_] == ' ') ++at_;
    }
    bool take(char wanted) {
        skip_spaces();
        if (at_ >= text_.size() || text_[at_] != wanted) return false;
        ++at_;
        return true;
    }

    double in_base(const Term& term) const { return term.bare ? term.value * own_ : term.value; }

    Term sum() {
        Term left = product();
        while (trouble_.empty()) {
            const bool plus = take('+');
            if (!plus && !take('-')) break;
            const Term right = product();
            const double sign = plus ? 1.0 : -1.0;
            if (left.bare && right.bare)
                left.value += sign * right.value;
            else
                left = {in_base(left) + sign * in_base(right), false};
        }
        return left;
    }

    Term product() {
        Term left = factor();
        while (trouble_.empty()) {
            const bool times = take('*');
            if (!times && !take('/')) break;
            left = times ? multiplied(left, factor()) : divided(left, factor());
        }
        return left;
    }

    Term multiplied(const Term& left, const Term& right) {
        if (!left.bare && !right.bare) fail();
        return {left.value * right.value, left.bare && right.bare};
    }

    Term divided(const Term& left, const Term& right) {
        if (right.value == 0.0) fail("divided by zero");
        if (left.bare && !right.bare) fail();
        return {left.value / right.value, left.bare || !right.bare};
    }

    Term factor() {
        if (depth_ > 40) fail();
        if (!trouble_.empty()) return {};
        if (take('-')) return negated(deeper());
        if (take('+')) return deeper();
        if (take('(')) return bracket();
        return compound();
    }
    Term deeper() {
        ++depth_;
        const Term term = factor();
        --depth_;
        return term;
    }
    static Term negated(Term term) { return {-term.value, term.bare}; }

    Term bracket() {
        ++depth_;
        Term term = sum();
        --depth_;
        if (!take(')')) fail("a bracket is open");
        if (const auto unit = unit_here(); unit && term.bare) return {term.value * *unit, false};
        return term;
    }

    /// A number with its unit, and more such right after it: "6 ft 3 in", "5'8", "1 m 73".
    Term compound() {
        Term total = single(0.0);
        while (trouble_.empty() && !total.bare && number_next()) {
            const Term more = single(next_smaller(last_unit_));
            total.value += in_base(more);
        }
        return total;
    }

    /// `bare_unit` > 0: the unit of a number that has none of its own.
    Term single(double bare_unit) {
        const auto number = mixed_number();
        if (!number) {
            fail();
            return {};
        }
        if (const auto unit = unit_here()) return {*number * *unit, false};
        if (bare_unit > 0.0) return {*number * bare_unit, false};
        return {*number, true};
    }

    bool number_next() {
        skip_spaces();
        return at_ < text_.size() && (is_digit(text_[at_]) || text_[at_] == '.');
    }

    std::optional<double> plain_number() {
        if (!number_next()) return std::nullopt;
        std::size_t end = at_;
        int points = 0;
        while (end < text_.size() && (is_digit(text_[end]) || text_[end] == '.'))
            points += text_[end++] == '.' ? 1 : 0;
        const std::string digits = text_.substr(at_, end - at_);
        if (points > 1 || digits == ".") return std::nullopt;
        at_ = end;
        return std::strtod(digits.c_str(), nullptr);
    }

    /// "68", "68.25", "68 1/4", "1/4" before a unit.
    std::optional<double> mixed_number() {
        const std::size_t start = at_;
        if (const auto fraction = plain_fraction()) return fraction;
        at_ = start;
        auto whole = plain_number();
        if (!whole) return whole;
        const std::size_t after = at_;
        if (after < text_.size() && text_[after] == ' ')
            if (const auto part = plain_fraction()) return *whole + *part;
        at_ = after;
        return whole;
    }

    std::optional<double> plain_fraction() {
        const auto top = plain_number();
        if (!top || *top != std::floor(*top) || !take('/')) return std::nullopt;
        const auto bottom = plain_number();
        if (!bottom || *bottom == 0.0 || *bottom != std::floor(*bottom)) return std::nullopt;
        return *top / *bottom;
    }

    /// The unit at this place in the dimension's base unit; none leaves the place where it is.
    std::optional<double> unit_here() {
        skip_spaces();
        const std::string name = unit_name_at(text_, at_);
        if (name.empty()) return std::nullopt;
        const double factor = factor_of(name, rule_.dimension);
        if (factor <= 0.0) {
            fail(name + " is " + not_a(rule_.dimension));
            return std::nullopt;
        }
        at_ += name.size();
        last_unit_ = name;
        return factor;
    }

    std::string text_;
    const QuantityRule& rule_;
    double own_;
    std::size_t at_ = 0;
    int depth_ = 0;
    std::string last_unit_;
    std::string trouble_;
};

/// "+5 cm" in a field that cannot be negative is a step from the present value.
bool is_step(const std::string& text, const QuantityRule& rule) {
    return rule.current && rule.min >= 0.0 && rule.max > rule.min && !text.empty() &&
           (text[0] == '+' || text[0] == '-');
}

std::string trimmed_number(double value, int decimals) {
    std::string text = number_text(value, decimals);
    if (text.find('.') == std::string::npos) return text;
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

} // namespace

Quantity parse_quantity(std::string_view text, const QuantityRule& rule) {
    const std::string plain = normalised(text);
    if (plain.empty()) return {std::nullopt, not_a(rule.dimension)};
    Reader reader(plain, rule);
    auto value = reader.whole();
    if (!value) return {std::nullopt, reader.trouble().empty() ? "too large" : reader.trouble()};
    if (is_step(plain, rule)) *value += *rule.current;
    const double slack = 1e-9 * (std::abs(rule.max) + std::abs(rule.min));
    if (rule.max > rule.min && (*value < rule.min - slack || *value > rule.max + slack)) {
        const std::string tail = rule.unit.empty() || rule.unit == "°" ? "" : " " + rule.unit;
        return {std::nullopt, trimmed_number(rule.min, rule.decimals) + " to " +
                                  trimmed_number(rule.max, rule.decimals) +
                                  (rule.unit == "°" ? "°" : tail)};
    }
    return {value, {}};
}

std::string number_text(double value, int decimals) {
    char digits[64];
    std::snprintf(digits, sizeof digits, "%.*f", decimals, std::abs(value));
    const bool zero = std::string_view(digits).find_first_not_of("0.") == std::string_view::npos;
    return (value < 0.0 && !zero ? "\u2212" : "") + std::string(digits);
}

std::string quantity_text(double value, const QuantityRule& rule) {
    const std::string digits = number_text(value, rule.decimals);
    if (rule.unit.empty() || rule.unit == "°") return digits + rule.unit;
    return digits + " " + rule.unit;
}

} // namespace keystead::ui
