#include "engine/ui/units.h"

#include <catch2/catch.hpp>

using namespace keystead::ui;

// 1 ft = 0.3048 m, 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg exactly: NIST SP 811 appendix B.
TEST_CASE("Imperial lengths and masses are written as they are spoken", "[units]") {
    CHECK(drawn_length(1.7272, Units::imperial) == "5'8\"");
    CHECK(drawn_length(1.73, Units::metric) == "1.73");
    CHECK(drawn_length(0.3048, Units::imperial) == "1'0\"");
    CHECK(drawn_length(0.1143, Units::imperial) == "4½\"");
    CHECK(drawn_length(-0.6096, Units::imperial) == "\u22122'0\"");
    CHECK(drawn_length(0.0, Units::imperial) == "0\"");
    // 11.99 in must not become 0'12".
    CHECK(drawn_length(0.30455, Units::imperial) == "1'0\"");
    const QuantityRule metres{Dimension::length, "m", 0, 3, 2, {}};
    CHECK(shown_value(1.7272, metres, Units::imperial).text == "5'8.0\"");
    CHECK(shown_value(1.7272, metres, Units::metric).text == "1.73");
    const QuantityRule kilograms{Dimension::mass, "kg", 0, 100, 1, {}};
    CHECK(shown_value(6.80388555, kilograms, Units::imperial).text == "15.0");
    CHECK(shown_value(6.80388555, kilograms, Units::imperial).unit == "lb");
    const QuantityRule lens{Dimension::length, "mm", 8, 800, 0, {}, true};
    CHECK(shown_value(85, lens, Units::imperial).text == "85");
}

TEST_CASE("A bare number in an imperial field is in feet or pounds, any unit still works",
          "[units]") {
    const QuantityRule metres{Dimension::length, "m", 0.6, 2.6, 2, {}};
    const auto typed = [&](const char* text) {
        const Quantity q = parse_quantity(text, rule_in(metres, Units::imperial));
        return q.value ? *q.value / factor_in(metres, Units::imperial) : -1.0;
    };
    CHECK(typed("6") == Approx(1.8288));
    CHECK(typed("5'8\"") == Approx(1.7272));
    CHECK(typed("173cm") == Approx(1.73));
    CHECK(typed("68 1/4 in") == Approx(1.73355));
    CHECK(typed("9") == -1.0); // 2.74 m is above it
    // What a field shows can be typed back.
    CHECK(typed(shown_value(1.7272, metres, Units::imperial).text.c_str()) == Approx(1.7272));
}

TEST_CASE("Sentences take imperial units, and nothing else in them changes", "[units]") {
    const auto said = [](const char* words) { return in_units(words, Units::imperial); };
    CHECK(said("The load is 0.12 m outside the feet.") == "The load is 5 in outside the feet.");
    CHECK(said("Hang 9 kg on the tail of the arm, or pull it in to 0.55 m.") ==
          "Hang 20 lb on the tail of the arm, or pull it in to 1'9½\".");
    CHECK(said("snags at 0.8 m/s tips it") == "snags at 0.8 m/s tips it");
    CHECK(said("85 mm, f/8") == "85 mm, f/8");
    CHECK(said("clamp holds 4.5 of 25 N·m") == "clamp holds 4.5 of 25 N·m");
    CHECK(said("A push of 31 N at 1.50 m") == "A push of 31 N at 4'11\"");
    CHECK(said("round, 25.4 × 50.8 mm") == "round, 1.0 in × 2 in");
    CHECK(said("f/5.6 + 8/10, 42° and 70 %") == "f/5.6 + 8/10, 42° and 70 %");
    CHECK(in_units("0.12 m", Units::metric) == "0.12 m");
}
