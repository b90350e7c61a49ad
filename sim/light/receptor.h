// Receptors of a hand meter: how they weigh light by the angle it comes from.
#pragma once

#include <algorithm>

namespace keystead {

enum class Receptor { flat, dome };

/// Response relative to light on the axis, from the cosine of the angle to the axis. Flat:
/// Lambert's cosine, nothing from behind. Dome: the ideal cardioid (1 + cos)/2, down to 0 straight
/// behind (ISO 2720 calls hemispherical receptors cardioid; from memory).
inline double receptor_response(Receptor receptor, double cosine) {
    return receptor == Receptor::flat ? std::max(0.0, cosine) : 0.5 * (1.0 + cosine);
}

} // namespace keystead
