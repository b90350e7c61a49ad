// Stops and f-numbers: exact values, nominal marks, the notation of hand meters, and reading it.
//
// A stop doubles the light; f-numbers go with its square root, so a stop is a factor sqrt(2).
// Everything is computed on exact values and printed nominally: "5.6" is 2^2.5 = 5.657.
#pragma once

#include "sim/base/result.h"

#include <string>
#include <string_view>

namespace keystead {

/// Stops between two amounts of light: log2(to / from).
double stops_between(double from_light, double to_light);
/// Stops of light between two f-numbers: 2 log2(to / from).
double stops_between_f_numbers(double from_f_number, double to_f_number);
/// The f-number so many stops further up the scale: N 2^(stops/2).
double f_number_plus_stops(double f_number, double stops);

/// The exact power of 2^(1/6) behind a number of the third-stop scale (5.6 -> 5.657, 11 -> 11.31).
double exact_f_number(double nominal);
/// The mark that a lens carries for the third of a stop nearest to an exact value, e.g. "5.6".
std::string nominal_f_number(double f_number);

/// A hand meter's notation: full stop plus tenths, e.g. "f/8 + 3/10". "below f/0.5" under range,
/// "above f/128" over it.
std::string meter_notation(double f_number);

/// Reads what people write down: "f/8", "f8 2/3", "8.0 7" (tenths), "f/5.6 + 3/10", "5,6", "F11".
/// Numbers of the third-stop scale stand for their exact values, others for themselves. A full stop
/// followed at once by a digit ("8.7") is refused: it may be f/8.7 or f/8 and 7 tenths.
Result<double> parse_f_number(std::string_view text);

} // namespace keystead
