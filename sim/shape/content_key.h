// A running hash of the values something was built from. Equal inputs give equal keys on every
// machine; keys are compared, never stored in files.
#pragma once

#include "sim/base/vec.h"

#include <bit>
#include <cstdint>
#include <string_view>

namespace keystead {

/// 64-bit mixing after each value (the finaliser of SplitMix64, Steele et al. 2014).
class ContentKey {
public:
    ContentKey& add(std::uint64_t value) {
        state_ ^= value + 0x9E3779B97F4A7C15ULL + (state_ << 6U) + (state_ >> 2U);
        state_ = (state_ ^ (state_ >> 30U)) * 0xBF58476D1CE4E5B9ULL;
        state_ = (state_ ^ (state_ >> 27U)) * 0x94D049BB133111EBULL;
        state_ ^= state_ >> 31U;
        return *this;
    }
    ContentKey& add(int value) { return add(static_cast<std::uint64_t>(value)); }
    ContentKey& add(bool value) { return add(static_cast<std::uint64_t>(value ? 1 : 2)); }
    ContentKey& add(double value) {
        // Both zeros are the same length.
        return add(std::bit_cast<std::uint64_t>(value == 0.0 ? 0.0 : value));
    }
    ContentKey& add(const Vec2& value) { return add(value.x).add(value.y); }
    ContentKey& add(const Vec3& value) { return add(value.x).add(value.y).add(value.z); }
    ContentKey& add(const Mat3& value) { return add(value[0]).add(value[1]).add(value[2]); }
    /// Without it a literal would be taken for a bool.
    ContentKey& add(const char* text) { return add(std::string_view(text)); }
    ContentKey& add(std::string_view text) {
        for (const char letter : text)
            add(static_cast<std::uint64_t>(static_cast<unsigned char>(letter)));
        return add(static_cast<std::uint64_t>(text.size()));
    }
    std::uint64_t value() const { return state_; }

private:
    std::uint64_t state_ = 0x243F6A8885A308D3ULL;
};

} // namespace keystead
