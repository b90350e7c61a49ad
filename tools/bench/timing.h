// Medians of repeated runs, in the words of the report.
#pragma once

#include <algorithm>
#include <chrono>
#include <cmath>
#include <nlohmann/json.hpp>
#include <vector>

namespace keystead::bench {

using Json = nlohmann::ordered_json;

/// Milliseconds that `work` takes.
template <class Work>
double ms_of(Work&& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start)
        .count();
}

inline double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return values.empty() ? 0.0 : values[values.size() / 2];
}

/// `median_ms`, `least_ms`, `most_ms`, `runs`, and where there is an aim `aim_ms` and `met`.
inline Json figure(std::vector<double> runs_ms, double aim_ms = 0.0) {
    std::sort(runs_ms.begin(), runs_ms.end());
    const auto rounded = [](double ms) { return std::round(ms * 1000.0) / 1000.0; };
    Json json{{"median_ms", rounded(median(runs_ms))},
              {"least_ms", rounded(runs_ms.front())},
              {"most_ms", rounded(runs_ms.back())},
              {"runs", runs_ms.size()}};
    if (aim_ms > 0.0) {
        json["aim_ms"] = aim_ms;
        json["met"] = median(runs_ms) <= aim_ms;
    }
    return json;
}

} // namespace keystead::bench
