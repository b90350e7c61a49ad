// Sixteen numbers side by side: what the picture's kernels compute with.
//
// Small classes around the compiler's vector extension, so that the formulas shared with GLSL
// (shaders/shared) read the same for one number and for sixteen. No instruction set is assumed: a
// kernel marked KEYSTEAD_SIMD is compiled several times and the machine's best is taken when the
// program starts; everything it calls must be inlined into it (KEYSTEAD_INLINE). No fused
// multiply-add and no approximate reciprocals: every machine gives the same bytes.
//
// Accuracy against the C library: exp2, log2, sine, cosine and inverse tangent within 4e-7 of the
// value or, for values under 1, absolutely (tests/sim/base/lanes_test.cpp).
#pragma once

#include <cstddef>
#include <cstdint>
#include <glm/glm.hpp>
#include <type_traits>

#define KEYSTEAD_INLINE [[gnu::always_inline]] inline

#if defined(__GNUC__) && !defined(__clang__)
// Vectors are passed between our own inlined functions only: no ABI can differ.
#pragma GCC diagnostic ignored "-Wpsabi"
#endif

// The run-time choice rests on the loader's indirect functions; sanitizers start later than that.
#if defined(__x86_64__) && defined(__GLIBC__) && defined(__GNUC__) && !defined(__clang__) &&       \
    !defined(__SANITIZE_ADDRESS__) && __GNUC__ >= 12
#define KEYSTEAD_SIMD [[gnu::target_clones("arch=x86-64-v4", "arch=x86-64-v3", "default")]]
#else
#define KEYSTEAD_SIMD
#endif

namespace keystead::lanes {

inline constexpr std::size_t lane_count = 16;

using FloatVector [[gnu::vector_size(64)]] = float;
using IntVector [[gnu::vector_size(64)]] = std::int32_t;
using UintVector [[gnu::vector_size(64)]] = std::uint32_t;

// Comparisons are made in halves: GCC 12 takes comparisons of 64-byte vectors apart into single
// ones wherever two are combined or the machine has no 64-byte registers; halves it does at once.
using HalfFloats [[gnu::vector_size(32)]] = float;
using HalfInts [[gnu::vector_size(32)]] = std::int32_t;
using HalfUints [[gnu::vector_size(32)]] = std::uint32_t;

KEYSTEAD_INLINE IntVector joined(const HalfInts& low, const HalfInts& high) {
    return __builtin_shufflevector(low, high, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15);
}
KEYSTEAD_INLINE FloatVector joined(const HalfFloats& low, const HalfFloats& high) {
    return __builtin_shufflevector(low, high, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15);
}
KEYSTEAD_INLINE HalfFloats low_half(const FloatVector& a) {
    return __builtin_shufflevector(a, a, 0, 1, 2, 3, 4, 5, 6, 7);
}
KEYSTEAD_INLINE HalfFloats high_half(const FloatVector& a) {
    return __builtin_shufflevector(a, a, 8, 9, 10, 11, 12, 13, 14, 15);
}
KEYSTEAD_INLINE HalfInts low_half(const IntVector& a) {
    return __builtin_shufflevector(a, a, 0, 1, 2, 3, 4, 5, 6, 7);
}
KEYSTEAD_INLINE HalfInts high_half(const IntVector& a) {
    return __builtin_shufflevector(a, a, 8, 9, 10, 11, 12, 13, 14, 15);
}
KEYSTEAD_INLINE HalfUints low_half(const UintVector& a) {
    return __builtin_shufflevector(a, a, 0, 1, 2, 3, 4, 5, 6, 7);
}
KEYSTEAD_INLINE HalfUints high_half(const UintVector& a) {
    return __builtin_shufflevector(a, a, 8, 9, 10, 11, 12, 13, 14, 15);
}
template <class Vector>
KEYSTEAD_INLINE IntVector is_less(const Vector& a, const Vector& b) {
    return joined(HalfInts(low_half(a) < low_half(b)), HalfInts(high_half(a) < high_half(b)));
}
template <class Vector>
KEYSTEAD_INLINE IntVector is_less_or_equal(const Vector& a, const Vector& b) {
    return joined(HalfInts(low_half(a) <= low_half(b)), HalfInts(high_half(a) <= high_half(b)));
}
template <class Vector>
KEYSTEAD_INLINE IntVector is_equal(const Vector& a, const Vector& b) {
    return joined(HalfInts(low_half(a) == low_half(b)), HalfInts(high_half(a) == high_half(b)));
}

/// True or false a lane (all bits or none).
struct M16 {
    IntVector v;
    M16() = default;
    KEYSTEAD_INLINE explicit M16(const IntVector& bits)
        : v(bits) {}
    KEYSTEAD_INLINE explicit M16(bool all)
        : v(IntVector{} - (all ? 1 : 0)) {}
    KEYSTEAD_INLINE bool operator[](std::size_t lane) const { return v[lane] != 0; }
    KEYSTEAD_INLINE void set(std::size_t lane, bool value) { v[lane] = value ? -1 : 0; }
};
KEYSTEAD_INLINE M16 operator&&(const M16& a, const M16& b) {
    return M16(a.v & b.v);
}
KEYSTEAD_INLINE M16 operator||(const M16& a, const M16& b) {
    return M16(a.v | b.v);
}
KEYSTEAD_INLINE M16 operator!(const M16& a) {
    return M16(~a.v);
}
KEYSTEAD_INLINE bool any(const M16& a) {
    std::int32_t bits = 0;
    for (std::size_t i = 0; i < lane_count; ++i) bits |= a.v[i];
    return bits != 0;
}
KEYSTEAD_INLINE bool all(const M16& a) {
    std::int32_t bits = -1;
    for (std::size_t i = 0; i < lane_count; ++i) bits &= a.v[i];
    return bits != 0;
}
KEYSTEAD_INLINE int count(const M16& a) {
    std::int32_t sum = 0;
    for (std::size_t i = 0; i < lane_count; ++i) sum -= a.v[i];
    return sum;
}

/// Sixteen of T: arithmetic lane by lane; a plain number stands for sixteen of itself.
template <class T, class Vector>
struct Lanes {
    Vector v;
    Lanes() = default;
    KEYSTEAD_INLINE explicit Lanes(const Vector& values)
        : v(values) {}
    template <class Number>
    requires std::is_arithmetic_v<Number>
        KEYSTEAD_INLINE Lanes(Number value) // NOLINT(google-explicit-constructor): as GLSL does
        : v(Vector{} + static_cast<T>(value)) {}
    KEYSTEAD_INLINE T operator[](std::size_t lane) const { return v[lane]; }
    KEYSTEAD_INLINE void set(std::size_t lane, T value) { v[lane] = value; }

    KEYSTEAD_INLINE friend Lanes operator+(const Lanes& a, const Lanes& b) {
        return Lanes(a.v + b.v);
    }
    KEYSTEAD_INLINE friend Lanes operator-(const Lanes& a, const Lanes& b) {
        return Lanes(a.v - b.v);
    }
    KEYSTEAD_INLINE friend Lanes operator*(const Lanes& a, const Lanes& b) {
        return Lanes(a.v * b.v);
    }
    KEYSTEAD_INLINE friend Lanes operator/(const Lanes& a, const Lanes& b) {
        return Lanes(a.v / b.v);
    }
    KEYSTEAD_INLINE friend Lanes operator-(const Lanes& a) { return Lanes(-a.v); }
    KEYSTEAD_INLINE Lanes& operator+=(const Lanes& b) {
        v += b.v;
        return *this;
    }
    KEYSTEAD_INLINE Lanes& operator-=(const Lanes& b) {
        v -= b.v;
        return *this;
    }
    KEYSTEAD_INLINE Lanes& operator*=(const Lanes& b) {
        v *= b.v;
        return *this;
    }
    KEYSTEAD_INLINE Lanes& operator/=(const Lanes& b) {
        v /= b.v;
        return *this;
    }
    KEYSTEAD_INLINE friend M16 operator<(const Lanes& a, const Lanes& b) {
        return M16(is_less(a.v, b.v));
    }
    KEYSTEAD_INLINE friend M16 operator<=(const Lanes& a, const Lanes& b) {
        return M16(is_less_or_equal(a.v, b.v));
    }
    KEYSTEAD_INLINE friend M16 operator>(const Lanes& a, const Lanes& b) {
        return M16(is_less(b.v, a.v));
    }
    KEYSTEAD_INLINE friend M16 operator>=(const Lanes& a, const Lanes& b) {
        return M16(is_less_or_equal(b.v, a.v));
    }
    KEYSTEAD_INLINE friend M16 operator==(const Lanes& a, const Lanes& b) {
        return M16(is_equal(a.v, b.v));
    }
    KEYSTEAD_INLINE friend M16 operator!=(const Lanes& a, const Lanes& b) {
        return M16(~is_equal(a.v, b.v));
    }
};
using F16 = Lanes<float, FloatVector>;
using I16 = Lanes<std::int32_t, IntVector>;
using U16 = Lanes<std::uint32_t, UintVector>;

// Bits of whole numbers.
template <class T, class Vector>
KEYSTEAD_INLINE Lanes<T, Vector> operator&(const Lanes<T, Vector>& a, const Lanes<T, Vector>& b) {
    return Lanes<T, Vector>(a.v & b.v);
}
template <class T, class Vector>
KEYSTEAD_INLINE Lanes<T, Vector> operator|(const Lanes<T, Vector>& a, const Lanes<T, Vector>& b) {
    return Lanes<T, Vector>(a.v | b.v);
}
template <class T, class Vector>
KEYSTEAD_INLINE Lanes<T, Vector> operator^(const Lanes<T, Vector>& a, const Lanes<T, Vector>& b) {
    return Lanes<T, Vector>(a.v ^ b.v);
}
template <class T, class Vector>
KEYSTEAD_INLINE Lanes<T, Vector> operator<<(const Lanes<T, Vector>& a, int bits) {
    return Lanes<T, Vector>(a.v << bits);
}
template <class T, class Vector>
KEYSTEAD_INLINE Lanes<T, Vector> operator>>(const Lanes<T, Vector>& a, int bits) {
    return Lanes<T, Vector>(a.v >> bits);
}

KEYSTEAD_INLINE IntVector selected(const IntVector& bits, const IntVector& yes,
                                   const IntVector& no) {
    return (bits & yes) | (~bits & no);
}
/// `yes` where the condition holds, else `no`; of plain numbers as well (see shaders/shared).
KEYSTEAD_INLINE F16 choose(const M16& condition, const F16& yes, const F16& no) {
    return F16(FloatVector(selected(condition.v, IntVector(yes.v), IntVector(no.v))));
}
KEYSTEAD_INLINE I16 choose(const M16& condition, const I16& yes, const I16& no) {
    return I16(selected(condition.v, yes.v, no.v));
}
KEYSTEAD_INLINE U16 choose(const M16& condition, const U16& yes, const U16& no) {
    return U16(UintVector(selected(condition.v, IntVector(yes.v), IntVector(no.v))));
}

// Toward zero, as a cast of one number.
KEYSTEAD_INLINE I16 to_int(const F16& a) {
    return I16(__builtin_convertvector(a.v, IntVector));
}
KEYSTEAD_INLINE F16 to_float(const I16& a) {
    return F16(__builtin_convertvector(a.v, FloatVector));
}
KEYSTEAD_INLINE I16 bits_of(const F16& a) {
    return I16(IntVector(a.v));
}
KEYSTEAD_INLINE F16 float_of_bits(const I16& a) {
    return F16(FloatVector(a.v));
}
KEYSTEAD_INLINE U16 as_unsigned(const I16& a) {
    return U16(UintVector(a.v));
}
KEYSTEAD_INLINE I16 as_signed(const U16& a) {
    return I16(IntVector(a.v));
}

/// From and to sixteen in a row, any alignment.
KEYSTEAD_INLINE F16 load(const float* from) {
    F16 a;
    __builtin_memcpy(&a.v, from, sizeof a.v);
    return a;
}
KEYSTEAD_INLINE void store(float* to, const F16& a) {
    __builtin_memcpy(to, &a.v, sizeof a.v);
}

KEYSTEAD_INLINE F16 min(const F16& a, const F16& b) {
    return F16(a.v < b.v ? a.v : b.v);
}
KEYSTEAD_INLINE F16 max(const F16& a, const F16& b) {
    return F16(a.v > b.v ? a.v : b.v);
}
KEYSTEAD_INLINE F16 clamp(const F16& a, const F16& low, const F16& high) {
    return min(max(a, low), high);
}
KEYSTEAD_INLINE F16 abs(const F16& a) {
    return float_of_bits(bits_of(a) & I16(0x7FFFFFFF));
}
KEYSTEAD_INLINE F16 sqrt(const F16& a) {
    F16 root;
    for (std::size_t i = 0; i < lane_count; ++i) root.v[i] = __builtin_sqrtf(a.v[i]);
    return root;
}
KEYSTEAD_INLINE F16 inversesqrt(const F16& a) {
    return F16(1.0F) / sqrt(a);
}
/// Of numbers a 32-bit integer can hold.
KEYSTEAD_INLINE F16 floor(const F16& a) {
    const F16 cut = to_float(to_int(a));
    return cut - choose(cut > a, F16(1.0F), F16(0.0F));
}
KEYSTEAD_INLINE F16 fract(const F16& a) {
    return a - floor(a);
}
KEYSTEAD_INLINE F16 mix(const F16& a, const F16& b, const F16& share) {
    return a * (F16(1.0F) - share) + b * share;
}
KEYSTEAD_INLINE F16 smoothstep(const F16& from, const F16& to, const F16& a) {
    const F16 t = clamp((a - from) / (to - from), 0.0F, 1.0F);
    return t * t * (F16(3.0F) - F16(2.0F) * t);
}

/// Logarithm to base 2 of positive normal numbers: the exponent, and the odd series of the inverse
/// hyperbolic tangent for a mantissa between the square roots of 1/2 and 2.
KEYSTEAD_INLINE F16 log2(const F16& a) {
    const I16 bits = bits_of(a);
    const I16 shifted = bits - I16(0x3F3504F3); // square root of 1/2
    const I16 exponent = shifted >> 23;
    const F16 mantissa = float_of_bits(bits - (exponent << 23));
    const F16 s = (mantissa - 1.0F) / (mantissa + 1.0F);
    const F16 s2 = s * s;
    const F16 series =
        F16(2.885390082F) +
        s2 * (F16(0.961796694F) +
              s2 * (F16(0.577078016F) + s2 * (F16(0.412198583F) + s2 * F16(0.320598898F))));
    return to_float(exponent) + s * series;
}
/// 2 to the power of numbers -126 … 127 (cut to that).
KEYSTEAD_INLINE F16 exp2(const F16& a) {
    const F16 cut = clamp(a, -126.0F, 127.0F);
    const F16 whole = floor(cut + 0.5F);
    const F16 f = cut - whole;
    // Taylor's series of exp(f ln 2) up to the seventh power.
    const F16 series =
        F16(1.0F) +
        f * (F16(0.6931471806F) +
             f * (F16(0.2402265070F) +
                  f * (F16(0.05550410866F) +
                       f * (F16(0.009618129108F) +
                            f * (F16(0.001333355815F) +
                                 f * (F16(0.0001540353039F) + f * F16(0.00001525273380F)))))));
    return float_of_bits(bits_of(series) + (to_int(whole) << 23));
}
KEYSTEAD_INLINE F16 exp(const F16& a) {
    return exp2(a * F16(1.442695041F));
}
KEYSTEAD_INLINE F16 log(const F16& a) {
    return log2(a) * F16(0.6931471806F);
}
/// Of numbers 0 and above; 0 gives 0.
KEYSTEAD_INLINE F16 pow(const F16& a, const F16& exponent) {
    return choose(a > F16(1e-37F), exp2(exponent * log2(max(a, 1e-37F))), F16(0.0F));
}

/// Sine and cosine of an angle in turns (1 is once round): folded to an eighth, then Taylor.
KEYSTEAD_INLINE void sine_cosine_of_turns(const F16& turns, F16& sine, F16& cosine) {
    const F16 quarters = floor(turns * 4.0F + 0.5F);
    const F16 x = (turns - quarters * 0.25F) * F16(6.283185307F);
    const F16 x2 = x * x;
    const F16 s =
        x * (F16(1.0F) + x2 * (F16(-0.1666666667F) +
                               x2 * (F16(0.008333333333F) + x2 * (F16(-0.0001984126984F) +
                                                                  x2 * F16(0.000002755731922F)))));
    const F16 c =
        F16(1.0F) +
        x2 * (F16(-0.5F) + x2 * (F16(0.04166666667F) +
                                 x2 * (F16(-0.001388888889F) + x2 * (F16(0.00002480158730F) +
                                                                     x2 * F16(-2.755731922e-7F)))));
    const I16 quarter = to_int(quarters) & I16(3);
    const M16 swapped = (quarter & I16(1)) != I16(0);
    const M16 sine_down = (quarter & I16(2)) != I16(0);
    const M16 cosine_down = quarter == I16(1) || quarter == I16(2);
    const F16 first = choose(swapped, c, s), second = choose(swapped, s, c);
    sine = choose(sine_down, -first, first);
    cosine = choose(cosine_down, -second, second);
}
KEYSTEAD_INLINE F16 sin(const F16& angle) {
    F16 s, c;
    sine_cosine_of_turns(angle * F16(0.1591549431F), s, c);
    return s;
}
KEYSTEAD_INLINE F16 cos(const F16& angle) {
    F16 s, c;
    sine_cosine_of_turns(angle * F16(0.1591549431F), s, c);
    return c;
}
/// Angle of the point (x, y), radians, as atan2; 0 for the origin.
KEYSTEAD_INLINE F16 atan(const F16& y, const F16& x) {
    const F16 ax = abs(x), ay = abs(y);
    const F16 low = min(ax, ay), high = max(ax, ay);
    const F16 t = low / max(high, 1e-30F);
    // Half the angle's range: past tan(pi/8) the rest from pi/4 is taken.
    const M16 far = t > F16(0.4142135624F);
    const F16 r = choose(far, (t - 1.0F) / (t + 1.0F), t);
    const F16 r2 = r * r;
    const F16 series =
        r *
        (F16(1.0F) +
         r2 * (F16(-0.3333333333F) +
               r2 * (F16(0.2F) +
                     r2 * (F16(-0.1428571429F) +
                           r2 * (F16(0.1111111111F) +
                                 r2 * (F16(-0.0909090909F) +
                                       r2 * (F16(0.0769230769F) + r2 * F16(-0.0666666667F))))))));
    const F16 eighth = series + choose(far, F16(0.7853981634F), F16(0.0F));
    const F16 quarter = choose(ay > ax, F16(1.570796327F) - eighth, eighth);
    const F16 half = choose(x < F16(0.0F), F16(3.141592654F) - quarter, quarter);
    return choose(y < F16(0.0F), -half, half);
}

/// Sixteen points or directions.
struct V16 {
    F16 x, y, z;
    V16() = default;
    KEYSTEAD_INLINE V16(const F16& a, const F16& b, const F16& c)
        : x(a)
        , y(b)
        , z(c) {}
    KEYSTEAD_INLINE explicit V16(const F16& all)
        : x(all)
        , y(all)
        , z(all) {}
    KEYSTEAD_INLINE explicit V16(const glm::vec3& one)
        : x(one.x)
        , y(one.y)
        , z(one.z) {}
    KEYSTEAD_INLINE glm::vec3 operator[](std::size_t lane) const {
        return {x[lane], y[lane], z[lane]};
    }
    KEYSTEAD_INLINE void set(std::size_t lane, const glm::vec3& one) {
        x.set(lane, one.x);
        y.set(lane, one.y);
        z.set(lane, one.z);
    }

    KEYSTEAD_INLINE friend V16 operator+(const V16& a, const V16& b) {
        return {a.x + b.x, a.y + b.y, a.z + b.z};
    }
    KEYSTEAD_INLINE friend V16 operator-(const V16& a, const V16& b) {
        return {a.x - b.x, a.y - b.y, a.z - b.z};
    }
    KEYSTEAD_INLINE friend V16 operator*(const V16& a, const V16& b) {
        return {a.x * b.x, a.y * b.y, a.z * b.z};
    }
    KEYSTEAD_INLINE friend V16 operator*(const V16& a, const F16& b) {
        return {a.x * b, a.y * b, a.z * b};
    }
    KEYSTEAD_INLINE friend V16 operator*(const F16& a, const V16& b) { return b * a; }
    KEYSTEAD_INLINE friend V16 operator/(const V16& a, const F16& b) {
        return {a.x / b, a.y / b, a.z / b};
    }
    KEYSTEAD_INLINE friend V16 operator/(const V16& a, const V16& b) {
        return {a.x / b.x, a.y / b.y, a.z / b.z};
    }
    KEYSTEAD_INLINE friend V16 operator-(const V16& a) { return {-a.x, -a.y, -a.z}; }
    KEYSTEAD_INLINE V16& operator+=(const V16& b) {
        x += b.x;
        y += b.y;
        z += b.z;
        return *this;
    }
};
KEYSTEAD_INLINE F16 dot(const V16& a, const V16& b) {
    return a.x * b.x + a.y * b.y + a.z * b.z;
}
KEYSTEAD_INLINE V16 cross(const V16& a, const V16& b) {
    return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
KEYSTEAD_INLINE F16 length(const V16& a) {
    return sqrt(dot(a, a));
}
KEYSTEAD_INLINE V16 normalize(const V16& a) {
    return a * inversesqrt(dot(a, a));
}
KEYSTEAD_INLINE V16 reflect(const V16& way, const V16& normal) {
    return way - normal * (F16(2.0F) * dot(normal, way));
}
KEYSTEAD_INLINE V16 choose(const M16& condition, const V16& yes, const V16& no) {
    return {choose(condition, yes.x, no.x), choose(condition, yes.y, no.y),
            choose(condition, yes.z, no.z)};
}
KEYSTEAD_INLINE V16 mix(const V16& a, const V16& b, const F16& share) {
    return a * (F16(1.0F) - share) + b * share;
}
KEYSTEAD_INLINE V16 max(const V16& a, const V16& b) {
    return {max(a.x, b.x), max(a.y, b.y), max(a.z, b.z)};
}
KEYSTEAD_INLINE V16 min(const V16& a, const V16& b) {
    return {min(a.x, b.x), min(a.y, b.y), min(a.z, b.z)};
}

} // namespace keystead::lanes
