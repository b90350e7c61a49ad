// Published values from tests/data/checks.csv, row by row.
#pragma once

#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

namespace checks {

struct Row {
    int id = 0;
    std::string topic, inputs, unit, source;
    double expected = 0.0;
    double tolerance = 0.0; ///< absolute, relative tolerances already applied
};

/// The row with that id; the test fails if the file lacks it.
const Row& row(int id);

/// Appends what was compared to the file that KEYSTEAD_CHECK_LOG names, for tools/checks; nothing
/// without it. One line a comparison: id, value, expected, tolerance, parted by tabs.
void record(const Row& row, double value);

/// The whole file, in the order of ids.
std::vector<Row> all_rows();

} // namespace checks

/// Compares a value of ours with row `id`. The id must be a literal: a test counts these calls.
#define CHECK_ROW(row_id, value)                                                                   \
    do {                                                                                           \
        const checks::Row& row_ = checks::row(row_id);                                             \
        const double value_ = (value);                                                             \
        checks::record(row_, value_);                                                              \
        INFO("row " << row_.id << ": " << row_.inputs << " [" << row_.unit                         \
                    << "], source: " << row_.source << "; got " << value_ << ", expected "         \
                    << row_.expected << " within " << row_.tolerance);                             \
        CHECK(std::abs(value_ - row_.expected) <= row_.tolerance);                                 \
    } while (false)
