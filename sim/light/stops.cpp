#include "sim/light/stops.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead {

namespace {

constexpr int lowest_stop = -2;  // f/0.5
constexpr int highest_stop = 14; // f/128

/// Marks of the third-stop scale from f/0.5, as lenses and meters print them (common practice;
/// ISO 517 is the standard, from memory).
constexpr std::array<const char*, 49> marks = {
    "0.5", "0.56", "0.63", "0.7", "0.8", "0.9", "1",   "1.1", "1.2", "1.4", "1.6", "1.8", "2",
    "2.2", "2.5",  "2.8",  "3.2", "3.5", "4",   "4.5", "5",   "5.6", "6.3", "7.1", "8",   "9",
    "10",  "11",   "13",   "14",  "16",  "18",  "20",  "22",  "25",  "29",  "32",  "36",  "40",
    "45",  "51",   "57",   "64",  "72",  "80",  "90",  "102", "114", "128"};

/// Thirds of a stop above f/1, kept within what an int holds whatever comes in.
int third_of(double f_number) {
    const double thirds = f_number > 0.0 ? 6.0 * std::log2(f_number) : 3.0 * lowest_stop;
    return static_cast<int>(std::lround(std::clamp(thirds, -1000.0, 1000.0)));
}

const char* mark_of_third(int third) {
    const int index = third - 3 * lowest_stop;
    return marks[static_cast<std::size_t>(std::clamp(index, 0, int(marks.size()) - 1))];
}

} // namespace

double stops_between(double from_light, double to_light) {
    return std::log2(to_light / from_light);
}

double stops_between_f_numbers(double from_f_number, double to_f_number) {
    return 2.0 * std::log2(to_f_number / from_f_number);
}

double f_number_plus_stops(double f_number, double stops) {
    return f_number * std::exp2(0.5 * stops);
}

double exact_f_number(double nominal) {
    return std::exp2(third_of(nominal) / 6.0);
}

std::string nominal_f_number(double f_number) {
    return mark_of_third(third_of(f_number));
}

std::string meter_notation(double f_number) {
    const double tenths_from_one = f_number > 0.0 ? 20.0 * std::log2(f_number) : -1e9;
    // `!(a >= b)` also refuses what is not a number.
    if (!(tenths_from_one >= 10.0 * lowest_stop - 0.5)) return "below f/0.5";
    if (tenths_from_one >= 10.0 * highest_stop + 9.5) return "above f/128";
    const int tenths = static_cast<int>(std::lround(tenths_from_one));
    const int stop = static_cast<int>(std::floor(tenths / 10.0));
    const int rest = tenths - 10 * stop;
    const std::string text = std::string("f/") + mark_of_third(3 * stop);
    return rest == 0 ? text : text + " + " + std::to_string(rest) + "/10";
}

} // namespace keystead
