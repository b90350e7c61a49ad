#include "engine/ui/quantity.h"

#include <catch2/catch.hpp>

using namespace keystead::ui;

namespace {

// Exact by definition: NIST SP 811 (2008), appendix B: 1 in = 0.0254 m, 1 ft = 0.3048 m,
// 1 lb = 0.453 592 37 kg, 1 oz = 1/16 lb.
constexpr double inch = 0.0254, foot = 0.3048, pound = 0.45359237;

QuantityRule length() {
    return {Dimension::length, "m", 0.0, 0.0, 2, {}};
}

double metres(const char* text) {
    const Quantity typed = parse_quantity(text, length());
    INFO(text << ": " << typed.trouble);
    REQUIRE(typed.value);
    return *typed.value;
}

std::string trouble(const char* text, const QuantityRule& rule) {
    const Quantity typed = parse_quantity(text, rule);
    INFO(text);
    CHECK_FALSE(typed.value);
    return typed.trouble;
}

} // namespace

TEST_CASE("A bare number is in the field's own unit") {
    CHECK(metres("1.73") == Approx(1.73));
    CHECK(metres(" 1,73 ") == Approx(1.73));
    CHECK(metres(".5") == Approx(0.5));
    CHECK(*parse_quantity("85", {Dimension::length, "mm", 8, 800, 0, {}}).value == Approx(85.0));
    CHECK(*parse_quantity("8.5 cm", {Dimension::length, "mm", 8, 800, 0, {}}).value ==
          Approx(85.0));
}

TEST_CASE("Every usual way to write a length is understood") {
    CHECK(metres("173cm") == Approx(1.73));
    CHECK(metres("1730 mm") == Approx(1.73));
    CHECK(metres("5'8\"") == Approx(5 * foot + 8 * inch));
    CHECK(metres("5’ 8”") == Approx(5 * foot + 8 * inch));
    CHECK(metres("5'8") == Approx(5 * foot + 8 * inch));
    CHECK(metres("68 1/4 in") == Approx(68.25 * inch));
    CHECK(metres("68¼ in") == Approx(68.25 * inch));
    CHECK(metres("1/2 in") == Approx(0.5 * inch));
    CHECK(metres("6 ft 3 in") == Approx(6 * foot + 3 * inch));
    CHECK(metres("6 ft 3 1/2 in") == Approx(6 * foot + 3.5 * inch));
    CHECK(metres("1 m 73") == Approx(1.73));
}

TEST_CASE("Arithmetic mixes units") {
    CHECK(metres("6 ft 3 in + 4 cm") == Approx(6 * foot + 3 * inch + 0.04));
    CHECK(metres("1.73 - 4cm") == Approx(1.69));
    CHECK(metres("2*(1,2-0.3)m") == Approx(1.80));
    CHECK(metres("2 × 0.9") == Approx(1.8));
    CHECK(metres("5.4 m / 3") == Approx(1.8));
    CHECK(metres("3 m / 1 m") == Approx(3.0));
    CHECK(metres("−1.2 + 3") == Approx(1.8));
    CHECK(metres("1 + 2 * 3") == Approx(7.0));
}

TEST_CASE("Other dimensions have their own units") {
    const QuantityRule mass{Dimension::mass, "kg", 0, 100, 1, {}},
        angle{Dimension::angle, "°", -180, 180, 0, {}};
    CHECK(*parse_quantity("15 lb", mass).value == Approx(15 * pound));
    CHECK(*parse_quantity("15 lb 4", mass).value == Approx(15.25 * pound));
    CHECK(*parse_quantity("6800 g", mass).value == Approx(6.8));
    CHECK(*parse_quantity("-12.5°", angle).value == Approx(-12.5));
    CHECK(*parse_quantity("0.5 rad", angle).value == Approx(28.6479).epsilon(1e-5));
    CHECK(*parse_quantity("1/3", {Dimension::stops, "stop", -7, 7, 1, {}}).value ==
          Approx(1.0 / 3.0));
    CHECK(*parse_quantity("f/5,6", {Dimension::plain, "", 0.7, 90, 1, {}}).value == Approx(5.6));
    CHECK(*parse_quantity("400 W·s", {Dimension::energy, "Ws", 1, 10000, 0, {}}).value ==
          Approx(400.0));
}

TEST_CASE("What is not a quantity is said in words") {
    const QuantityRule column{Dimension::length, "m", 0.6, 2.6, 2, {}};
    CHECK(trouble("", column) == "not a length");
    CHECK(trouble("tall", column) == "not a length");
    CHECK(trouble("6 kg", column) == "kg is not a length");
    CHECK(trouble("(1 + 1", column) == "a bracket is open");
    CHECK(trouble("1 / 0", column) == "divided by zero");
    CHECK(trouble("1..2", column) == "not a length");
    CHECK(trouble("1 m * 1 m", column) == "not a length");
    CHECK(trouble("1.2 1.3", column) == "not a length");
    CHECK(trouble("9 kg", {Dimension::angle, "°", -180, 180, 0, {}}) == "kg is not an angle");
}

TEST_CASE("A value outside its limits is answered with the limits") {
    const QuantityRule column{Dimension::length, "m", 0.6, 2.6, 2, {}};
    CHECK(trouble("3 m", column) == "0.6 to 2.6 m");
    CHECK(trouble("200", {Dimension::angle, "°", -60, 75, 0, {}}) == "−60 to 75°");
    CHECK(*parse_quantity("2.6 m", column).value == Approx(2.6));
    CHECK(*parse_quantity("260 cm", column).value == Approx(2.6));
}

TEST_CASE("A leading sign is a step where values cannot be negative") {
    const QuantityRule column{Dimension::length, "m", 0.6, 2.6, 2, 1.90};
    CHECK(*parse_quantity("+5 cm", column).value == Approx(1.95));
    CHECK(*parse_quantity("-10 cm", column).value == Approx(1.80));
    const QuantityRule rise{Dimension::angle, "°", -60, 75, 0, 12.0};
    CHECK(*parse_quantity("-10", rise).value == Approx(-10.0));
}

TEST_CASE("Hostile text ends in words, not in a crash") {
    const std::string deep(5000, '('), minus(5000, '-'), digits(400, '9');
    for (const std::string& text : {deep, minus, digits, std::string("1e999"),
                                    std::string("\xff\xfe"), std::string("''''''")})
        CHECK_FALSE(parse_quantity(text, {Dimension::length, "m", 0.1, 9, 2, {}}).value);
}

TEST_CASE("Printed numbers carry a true minus sign and never a negative zero") {
    CHECK(number_text(-1.5, 1) == "−1.5");
    CHECK(number_text(-0.001, 2) == "0.00");
    CHECK(number_text(2.0, 0) == "2");
    CHECK(quantity_text(12.0, {Dimension::angle, "°", 0, 0, 0, {}}) == "12°");
    CHECK(quantity_text(1.95, length()) == "1.95 m");
}
