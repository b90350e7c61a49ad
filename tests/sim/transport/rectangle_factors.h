// Configuration factors between finite rectangles with parallel edges, in closed form, and the
// radiosity of a box cut into such rectangles: independent of any ray.
#pragma once

#include <array>
#include <vector>

namespace rectangle_factors {

/// A rectangle's extent along two axes.
struct Extent {
    double low_1, high_1, low_2, high_2;
};

/// From one rectangle to another in a parallel plane `apart` away; both given along the same two
/// axes (Howell's catalogue C-13; Ehlert and Smith 1993; formula from memory, checked by the sum
/// over an enclosure).
double parallel(const Extent& from, const Extent& to, double apart);

/// From one rectangle to another in a plane at right angles. `1` runs along the line where the
/// planes meet, `2` is the distance from that line in each plane (C-15, as above).
double perpendicular(const Extent& from, const Extent& to);

/// A box from the origin to `size`, its walls in the order x = 0, x = far, y = 0, y = far, z = 0,
/// z = far, each cut into `cuts` x `cuts` patches.
struct Box {
    std::array<double, 3> size{};
    int cuts = 1;
    std::array<double, 6> reflectance{};

    std::size_t patches() const { return 6 * static_cast<std::size_t>(cuts * cuts); }
    double factor(std::size_t from, std::size_t to) const;
};

/// Irradiance of each patch where wall `glowing` emits an exitance of 1, after `reflections`
/// reflections have been added up (0: direct light only).
std::vector<double> irradiance(const Box& box, std::size_t glowing, int reflections);

} // namespace rectangle_factors
