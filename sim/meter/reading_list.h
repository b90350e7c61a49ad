// A list of meter readings as people write it down.
//
//     # Tuesday, ISO 100
//     key   8.0 3
//     rim   f/5.6 + 3/10 at chin
//     fill; 4 2/3; dome
//
// One reading a line: a light's id, an f-number (see `parse_f_number`), then in any order `at` and
// a meter point's id (else the face) and `flat` or `dome` (else flat, held toward the light). Tabs
// and semicolons part as spaces do; `#` starts a comment; a line of a table whose cell is empty is
// a light that was not read. Case of ids counts.
#pragma once

#include "sim/base/result.h"
#include "sim/set/set.h"

#include <string_view>
#include <vector>

namespace keystead {

/// All readings, or the first line that is wrong: `line 3: "rim 8.7" may be …`. At least one
/// reading, at most as many as a set holds.
Result<std::vector<MeasuredReading>> parse_reading_list(std::string_view text, const Set& set);

/// The set with these readings in place of earlier ones of the same light, place and receptor.
Set with_readings(const Set& set, const std::vector<MeasuredReading>& readings);

} // namespace keystead
