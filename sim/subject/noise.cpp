#include "sim/subject/noise.h"

#include <cmath>
#include <cstdint>

namespace keystead::sculpt {

namespace {

double lattice(std::int64_t x, std::int64_t y, std::int64_t z) {
    std::uint64_t h = static_cast<std::uint64_t>(x) * 0x9E3779B97F4A7C15ULL ^
                      static_cast<std::uint64_t>(y) * 0xC2B2AE3D27D4EB4FULL ^
                      static_cast<std::uint64_t>(z) * 0x165667B19E3779F9ULL;
    h ^= h >> 31U;
    h *= 0xBF58476D1CE4E5B9ULL;
    h ^= h >> 29U;
    return static_cast<double>(h >> 11U) * 0x1.0p-52 - 1.0;
}

double fade(double t) {
    return t * t * t * (t * (t * 6.0 - 15.0) + 10.0);
}
double between(double a, double b, double t) {
    return a + (b - a) * t;
}

} // namespace

double value_noise(const Vec3& p) {
    const Vec3 base = glm::floor(p);
    const auto x = static_cast<std::int64_t>(base.x);
    const auto y = static_cast<std::int64_t>(base.y);
    const auto z = static_cast<std::int64_t>(base.z);
    const double u = fade(p.x - base.x), v = fade(p.y - base.y), w = fade(p.z - base.z);
    const auto edge = [&](std::int64_t j, std::int64_t k) {
        return between(lattice(x, y + j, z + k), lattice(x + 1, y + j, z + k), u);
    };
    return between(between(edge(0, 0), edge(1, 0), v), between(edge(0, 1), edge(1, 1), v), w);
}

} // namespace keystead::sculpt
