#include "engine/render/filler.h"

#include <algorithm>

namespace keystead {

glm::vec3 layer_factor(const Emitter& emitter, double shutter_s, bool with_shutter, int samples) {
    const double time = !emitter.flash && with_shutter ? shutter_s : 1.0;
    const double scale = emitter.exitance * emitter.power * time / std::max(1, samples);
    return glm::vec3(emitter.colour * scale);
}

int fewest_samples(std::span<const Emitter> emitters, std::span<const int> counts) {
    int least = -1;
    for (std::size_t i = 0; i < std::min(emitters.size(), counts.size()); ++i)
        if (emitters[i].power > 0.0) least = least < 0 ? counts[i] : std::min(least, counts[i]);
    return std::max(0, least);
}

} // namespace keystead
