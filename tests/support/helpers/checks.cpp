#include "support/helpers/checks.h"

#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <vector>

namespace checks {

namespace {

std::vector<std::string> split_csv(const std::string& line) {
    std::vector<std::string> fields(1);
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (line[i] == '"') {
            if (quoted && i + 1 < line.size() && line[i + 1] == '"')
                fields.back() += line[++i];
            else
                quoted = !quoted;
        } else if (line[i] == ',' && !quoted) {
            fields.emplace_back();
        } else if (line[i] != '\r') {
            fields.back() += line[i];
        }
    }
    return fields;
}

/// "1e-6 rel", "1e-6 abs", "0.5": relative ones are taken of the expected value. A published figure
/// printed to n digits cannot be met closer than half its last digit.
double tolerance_of(const std::string& text, const std::string& expected_text) {
    const double number = std::stod(text);
    const double expected = std::stod(expected_text);
    const double wanted =
        text.find("rel") != std::string::npos ? number * std::abs(expected) : number;
    const std::size_t point = expected_text.find('.');
    const double half_digit =
        point == std::string::npos
            ? 0.0
            : 0.5 * std::pow(10.0, -static_cast<double>(expected_text.size() - point - 1));
    const char* scale = std::getenv("KEYSTEAD_TOLERANCE_SCALE");
    return std::max(wanted, half_digit) * (scale != nullptr ? std::atof(scale) : 1.0) + 1e-15;
}

std::map<int, Row> read_rows() {
    std::ifstream file(std::string(KEYSTEAD_TEST_DATA) + "/checks.csv");
    std::map<int, Row> rows;
    std::string line;
    std::getline(file, line);
    while (std::getline(file, line)) {
        const std::vector<std::string> f = split_csv(line);
        if (f.size() < 7) continue;
        Row row;
        row.id = std::stoi(f[0]);
        row.topic = f[1];
        row.inputs = f[2];
        row.expected = std::stod(f[3]);
        row.unit = f[4];
        row.tolerance = tolerance_of(f[5], f[3]);
        row.source = f[6];
        rows[row.id] = row;
    }
    return rows;
}

const std::map<int, Row>& rows_by_id() {
    static const std::map<int, Row> rows = read_rows();
    return rows;
}

} // namespace

const Row& row(int id) {
    const auto found = rows_by_id().find(id);
    if (found == rows_by_id().end())
        throw std::runtime_error("checks.csv has no row " + std::to_string(id));
    return found->second;
}

void record(const Row& row, double value) {
    const char* file = std::getenv("KEYSTEAD_CHECK_LOG");
    if (file == nullptr) return;
    std::ofstream log(file, std::ios::app);
    log.precision(12);
    log << row.id << '\t' << value << '\t' << row.expected << '\t' << row.tolerance << '\n';
}

std::vector<Row> all_rows() {
    std::vector<Row> rows;
    for (const auto& [id, row] : rows_by_id()) rows.push_back(row);
    return rows;
}

} // namespace checks
