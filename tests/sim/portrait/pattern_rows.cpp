#include "pattern_rows.h"

#include <algorithm>
#include <fstream>
#include <stdexcept>

namespace pattern_rows {

namespace {

std::vector<std::string> fields_of(const std::string& line, char separator) {
    std::vector<std::string> fields(1);
    bool quoted = false;
    for (const char c : line) {
        if (c == '"')
            quoted = !quoted;
        else if (c == separator && !quoted)
            fields.emplace_back();
        else
            fields.back() += c;
    }
    return fields;
}

std::vector<std::vector<std::string>> read_table(const std::string& name, std::size_t columns) {
    std::ifstream file(std::string(KEYSTEAD_TEST_DATA) + "/" + name);
    if (!file) throw std::runtime_error("no table " + name);
    std::vector<std::vector<std::string>> rows;
    std::string line;
    std::getline(file, line);
    while (std::getline(file, line)) {
        rows.push_back(fields_of(line, ','));
        if (rows.back().size() != columns) throw std::runtime_error(name + ": " + line);
    }
    if (rows.empty()) throw std::runtime_error(name + " is empty");
    return rows;
}

} // namespace

std::vector<Row> patterns() {
    std::vector<Row> rows;
    for (const auto& f : read_table("patterns.csv", 6))
        rows.push_back({std::stod(f[0]), std::stod(f[1]), fields_of(f[2], '|'),
                        fields_of(f[3], '|'), f[4] + " (" + f[5] + ")"});
    return rows;
}

std::vector<Pair> pairs() {
    std::vector<Pair> rows;
    for (const auto& f : read_table("crossed.csv", 8))
        rows.push_back({std::stod(f[0]), std::stod(f[1]), std::stod(f[2]), std::stod(f[3]),
                        std::stod(f[4]), f[5] == "crossed", f[6] + " (" + f[7] + ")"});
    return rows;
}

bool allows(const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

std::string joined(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names) text += (text.empty() ? "" : " or ") + name;
    return text;
}

} // namespace pattern_rows
