// What places of a tile have in common: sixteen small numbers and how they spread over neighbours.
// For kernels (see lanes.h).
#pragma once

#include "sim/base/lanes.h"

namespace keystead {

/// Least and greatest blocker of several places: alike where both are one.
struct TileRange {
    lanes::I16 least, greatest;
    lanes::I16 away; ///< bits: does one of them face away?
};

KEYSTEAD_INLINE lanes::I16 lesser(const lanes::I16& a, const lanes::I16& b) {
    return lanes::choose(a < b, a, b);
}
KEYSTEAD_INLINE lanes::I16 greater(const lanes::I16& a, const lanes::I16& b) {
    return lanes::choose(a < b, b, a);
}
KEYSTEAD_INLINE TileRange joined(const TileRange& a, const TileRange& b) {
    return {lesser(a.least, b.least), greater(a.greatest, b.greatest), a.away | b.away};
}

#define KEYSTEAD_REORDERED(name, ...)                                                              \
    KEYSTEAD_INLINE TileRange name(const TileRange& a) {                                           \
        return {lanes::I16(__builtin_shufflevector(a.least.v, a.least.v, __VA_ARGS__)),            \
                lanes::I16(__builtin_shufflevector(a.greatest.v, a.greatest.v, __VA_ARGS__)),      \
                lanes::I16(__builtin_shufflevector(a.away.v, a.away.v, __VA_ARGS__))};             \
    }
// Neighbours on the four by four places of a block; those on the rim are their own.
KEYSTEAD_REORDERED(from_left, 0, 0, 1, 2, 4, 4, 5, 6, 8, 8, 9, 10, 12, 12, 13, 14)
KEYSTEAD_REORDERED(from_right, 1, 2, 3, 3, 5, 6, 7, 7, 9, 10, 11, 11, 13, 14, 15, 15)
KEYSTEAD_REORDERED(from_below, 0, 1, 2, 3, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11)
KEYSTEAD_REORDERED(from_above, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 12, 13, 14, 15)
// Inner columns and rows of a tile, 1 3 4 6, lie between the outer ones, 0 2 5 7.
KEYSTEAD_REORDERED(left_of_inner, 0, 1, 1, 2, 4, 5, 5, 6, 8, 9, 9, 10, 12, 13, 13, 14)
KEYSTEAD_REORDERED(right_of_inner, 1, 2, 2, 3, 5, 6, 6, 7, 9, 10, 10, 11, 13, 14, 14, 15)
KEYSTEAD_REORDERED(below_inner, 0, 1, 2, 3, 4, 5, 6, 7, 4, 5, 6, 7, 8, 9, 10, 11)
KEYSTEAD_REORDERED(above_inner, 4, 5, 6, 7, 8, 9, 10, 11, 8, 9, 10, 11, 12, 13, 14, 15)
#undef KEYSTEAD_REORDERED

/// Of every place and those around it.
KEYSTEAD_INLINE TileRange around(const TileRange& a) {
    const TileRange row = joined(a, joined(from_left(a), from_right(a)));
    return joined(row, joined(from_below(row), from_above(row)));
}

/// Of the places of a tile's first block that surround those of another.
KEYSTEAD_INLINE TileRange surrounding(const TileRange& first, bool inner_columns, bool inner_rows) {
    TileRange range = first;
    if (inner_columns) range = joined(left_of_inner(range), right_of_inner(range));
    if (inner_rows) range = joined(below_inner(range), above_inner(range));
    return range;
}

} // namespace keystead
