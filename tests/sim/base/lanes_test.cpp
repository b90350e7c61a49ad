// Sixteen numbers at a time against the C library's functions for one.
#include "sim/base/lanes.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

namespace keystead::lanes {

namespace {

struct Sixteen {
    alignas(64) float in[16], second[16], out[16];
};

KEYSTEAD_SIMD void run_log2(Sixteen& s) {
    store(s.out, log2(load(s.in)));
}
KEYSTEAD_SIMD void run_exp2(Sixteen& s) {
    store(s.out, exp2(load(s.in)));
}
KEYSTEAD_SIMD void run_pow(Sixteen& s) {
    store(s.out, pow(load(s.in), load(s.second)));
}
KEYSTEAD_SIMD void run_sin(Sixteen& s) {
    store(s.out, sin(load(s.in)));
}
KEYSTEAD_SIMD void run_cos(Sixteen& s) {
    store(s.out, cos(load(s.in)));
}
KEYSTEAD_SIMD void run_atan(Sixteen& s) {
    store(s.out, atan(load(s.in), load(s.second)));
}
KEYSTEAD_SIMD void run_floor(Sixteen& s) {
    store(s.out, floor(load(s.in)));
}
KEYSTEAD_SIMD void run_root(Sixteen& s) {
    store(s.out, sqrt(load(s.in)));
}

/// Worst error of `run` against `expected` over a run of places from `low` to `high`: of the value,
/// or absolutely where that is under 1.
template <class Run, class Expected>
double worst(Run run, Expected expected, double low, double high, float second = 0.0F) {
    double most = 0.0;
    constexpr int rounds = 500;
    for (int round = 0; round < rounds; ++round) {
        Sixteen s{};
        for (int i = 0; i < 16; ++i) {
            s.in[i] =
                static_cast<float>(low + (high - low) * (round * 16 + i + 0.5) / (rounds * 16));
            s.second[i] = second;
        }
        run(s);
        for (int i = 0; i < 16; ++i) {
            const double wanted = expected(static_cast<double>(s.in[i]));
            const double error = std::abs(static_cast<double>(s.out[i]) - wanted);
            most = std::max(most, error / std::max(1.0, std::abs(wanted)));
        }
    }
    return most;
}

} // namespace

TEST_CASE("sixteen lanes agree with the C library", "[base][lanes]") {
    CHECK(worst(
              run_log2, [](double x) { return std::log2(x); }, 1e-6, 3.0) < 4e-7);
    CHECK(worst(
              run_log2, [](double x) { return std::log2(x); }, 3.0, 1e6) < 4e-7);
    CHECK(worst(
              run_exp2, [](double x) { return std::exp2(x); }, -30.0, 30.0) < 4e-7);
    CHECK(worst(
              run_sin, [](double x) { return std::sin(x); }, -7.0, 7.0) < 8e-7);
    CHECK(worst(
              run_cos, [](double x) { return std::cos(x); }, -7.0, 7.0) < 8e-7);
    for (const float x : {-2.0F, -0.1F, 0.1F, 2.0F})
        CHECK(worst(
                  run_atan, [x](double y) { return std::atan2(y, static_cast<double>(x)); }, -3.0,
                  3.0, x) < 4e-7);
    CHECK(worst(
              run_floor, [](double x) { return std::floor(x); }, -20.0, 20.0) == 0.0);
    CHECK(worst(
              run_root,
              [](double x) { return static_cast<double>(std::sqrt(static_cast<float>(x))); }, 0.0,
              9.0) == 0.0);
    // The sRGB curve's and a hair highlight's exponents.
    CHECK(worst(
              run_pow, [](double x) { return std::pow(x, static_cast<double>(1.0F / 2.4F)); },
              0.0031, 1.0, 1.0F / 2.4F) < 4e-7);
    CHECK(worst(
              run_pow, [](double x) { return std::pow(x, 110.0); }, 0.9, 1.0, 110.0F) < 2e-5);
}

TEST_CASE("conditions choose a lane at a time", "[base][lanes]") {
    F16 a(0.0F);
    for (std::size_t i = 0; i < lane_count; ++i) a.set(i, static_cast<float>(i));
    const M16 low = a < F16(4.0F), odd = (to_int(a) & I16(1)) != I16(0);
    CHECK(count(low) == 4);
    CHECK(count(low && odd) == 2);
    CHECK(count(low || odd) == 10);
    CHECK(count(!odd) == 8);
    CHECK(any(low));
    CHECK(!all(low));
    CHECK(all(M16(true)));
    CHECK(!any(M16(false)));
    const F16 chosen = choose(low, F16(1.0F), a);
    CHECK(chosen[3] == 1.0F);
    CHECK(chosen[4] == 4.0F);
}

} // namespace keystead::lanes
