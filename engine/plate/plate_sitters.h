// Who sits for the plates: four proportion presets, each in colours of its own.
#pragma once

#include "sim/set/set.h"

#include <array>

namespace keystead {

struct Sitter {
    const char* preset;
    const char* label;
    double skin_luminance;
    Vec3 hair, clothing;
    HairStyle cut; ///< where only one is shown
};

/// Mean male, mean female, small female, large male.
const std::array<Sitter, 4>& plate_sitters();

/// The sitter standing in an empty room, camera upright and not yet placed, no light.
Set sitter_set(const Sitter& sitter, HairStyle style);

} // namespace keystead
