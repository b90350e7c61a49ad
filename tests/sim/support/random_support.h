// Random but plausible supports, from a seeded generator.
#pragma once

#include "sim/set/set.h"
#include "sim/support/ballast.h"

#include <random>

namespace rig {

struct RandomLight {
    keystead::Light light;
    keystead::Vec3 target_m{0.0};
};

/// Uniform; the same on every platform, unlike the standard distributions.
double between(std::mt19937& random, double low, double high);

RandomLight random_light(std::mt19937& random);

/// The same support with `share` of that ballast hung where it says.
RandomLight with_ballast(RandomLight rig, const keystead::Ballast& ballast, double share);

} // namespace rig
