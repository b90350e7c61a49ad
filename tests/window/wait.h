// Waiting on conditions, never on time: every wait has a limit and says what it waited for.
#pragma once

#include <catch2/catch.hpp>
#include <chrono>
#include <string>
#include <thread>

namespace keystead::journeys {

inline constexpr double patience_s = 30.0; ///< of a busy machine

/// True as soon as `holds()` is; false after `limit_s`.
template <class Condition>
bool within(double limit_s, Condition&& holds) {
    const auto end = std::chrono::steady_clock::now() + std::chrono::duration<double>(limit_s);
    while (!holds()) {
        if (std::chrono::steady_clock::now() > end) return false;
        std::this_thread::sleep_for(std::chrono::milliseconds(15));
    }
    return true;
}

template <class Condition>
void wait_for(const std::string& what, Condition&& holds, double limit_s = patience_s) {
    if (!within(limit_s, holds)) FAIL("waited " << limit_s << " s in vain for " << what);
}

} // namespace keystead::journeys
