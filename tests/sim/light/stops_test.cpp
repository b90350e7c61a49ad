#include "sim/light/stops.h"

#include "sim/light/exposure.h"
#include "sim/light/falloff.h"
#include "sim/light/output.h"
#include "support/helpers/checks.h"

#include <limits>

using namespace keystead;

TEST_CASE("Thirds, tenths and exact f-numbers are powers of the root of two", "[stops]") {
    CHECK_ROW(28, f_number_plus_stops(1, 1.0 / 3));
    CHECK_ROW(29, f_number_plus_stops(1, 0.1));
    CHECK_ROW(30, parse_f_number("8 + 6/10").value());
    CHECK_ROW(31, exact_f_number(5.6));
    CHECK_ROW(32, exact_f_number(11));
    CHECK_ROW(33, stops_between(100, 250));
}

TEST_CASE("Every mark of the third-stop scale finds its own exact value", "[stops]") {
    // The scale as printed on lenses (common practice).
    const char* scale[] = {"1",   "1.1", "1.2", "1.4", "1.6", "1.8", "2",  "2.2",
                           "2.5", "2.8", "3.2", "3.5", "4",   "4.5", "5",  "5.6",
                           "6.3", "7.1", "8",   "9",   "10",  "11",  "13", "14",
                           "16",  "18",  "20",  "22",  "25",  "29",  "32"};
    int third = 0;
    for (const char* mark : scale) {
        const double exact = std::exp2(third++ / 6.0);
        CHECK(parse_f_number(mark).value() == Approx(exact));
        CHECK(nominal_f_number(exact) == mark);
    }
}

TEST_CASE("A meter prints full stop and tenths", "[stops]") {
    CHECK(meter_notation(8) == "f/8");
    CHECK(meter_notation(8 * std::exp2(0.15)) == "f/8 + 3/10");
    CHECK(meter_notation(exact_f_number(5.6) * std::exp2(0.49)) == "f/8");
    CHECK(meter_notation(0.5) == "f/0.5");
    CHECK(meter_notation(0.45) == "below f/0.5");
    CHECK(meter_notation(0) == "below f/0.5");
    CHECK(meter_notation(std::numeric_limits<double>::quiet_NaN()) == "below f/0.5");
    CHECK(meter_notation(128) == "f/128");
    CHECK(meter_notation(400) == "above f/128");
    CHECK(meter_notation(std::numeric_limits<double>::infinity()) == "above f/128");
}

TEST_CASE("What a meter prints is read back within half a tenth", "[stops]") {
    for (double f_number = 0.5; f_number < 128; f_number *= 1.013) {
        const Result<double> back = parse_f_number(meter_notation(f_number));
        REQUIRE(back.ok());
        CHECK(std::abs(stops_between_f_numbers(f_number, back.value())) <= 0.0501);
    }
}

TEST_CASE("f/8 and a small 7 is f/10.2, and 5.6 and 3 is f/6.28", "[stops]") {
    CHECK(parse_f_number("8.0 7").value() == Approx(10.2).margin(0.005));
    CHECK(parse_f_number("5.6 3").value() == Approx(6.28).margin(0.005));
    CHECK(parse_f_number("f/8").value() == Approx(8));
    CHECK(parse_f_number("f8 2/3").value() == Approx(8 * std::exp2(1.0 / 3)));
    CHECK(parse_f_number("5,6").value() == Approx(std::exp2(2.5)));
    CHECK(parse_f_number(" F 11 ").value() == Approx(std::exp2(3.5)));
    CHECK(parse_f_number("f/8 + 0/10").value() == Approx(8));
    CHECK(parse_f_number("10.2").value() == Approx(10.2));
    CHECK(parse_f_number("8.70").value() == Approx(8.7));
}

TEST_CASE("A reading that may be a decimal or tenths is refused, and so is nonsense", "[stops]") {
    for (const char* text : {"8.7", "F11.5", "8.07", "5.63", "8,7"}) {
        const Result<double> read = parse_f_number(text);
        REQUIRE_FALSE(read.ok());
        CHECK(read.problem().message().find("tenths") != std::string::npos);
    }
    for (const char* text : {"", "f/", "abc", "-8", "0", "8 12", "8 3/2", "8 1/0", "1/125", "8 7 2",
                             "8..1", "1e3", "nan", "inf", "9999", "8 x"}) {
        INFO(text);
        CHECK_FALSE(parse_f_number(text).ok());
    }
}

TEST_CASE("Power arithmetic: inverse square, energy, guide number", "[stops]") {
    // f/8 down to f/2.8 is three stops: a quarter becomes 1/32.
    const double down = power_change_stops(8, exact_f_number(2.8));
    CHECK(down == Approx(-3));
    CHECK(0.25 * std::exp2(down) == Approx(1.0 / 32));
    CHECK(inverse_square_stops(1.5, 2.1) == Approx(-0.97).margin(0.005));
    CHECK(stops_between(200, 600) == Approx(1.58).margin(0.005));
    // f/8 at 2 m on ISO 200: guide number 16, 11.3 m at ISO 100.
    CHECK(guide_number_at_iso(8.0 * 2, 200, 100) == Approx(11.3).margin(0.05));
    // Twice the distance is a quarter of the light, not half.
    CHECK(inverse_square_stops(1, 2) == Approx(-2));
}
