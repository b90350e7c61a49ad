#include "sim/review/passes.h"

#include "sim/review/keys.h"

namespace keystead {

std::vector<SupportReview> review_supports(const Studio& studio, ReviewMemory& memory) {
    std::vector<SupportReview> reviews;
    for (std::size_t i = 0; i < studio.set.lights.size(); ++i) {
        const Light& light = studio.set.lights[i];
        ReviewMemory::Statics& kept = memory.statics[light.id];
        const std::uint64_t key = statics_key(studio, i);
        if (kept.key != key) {
            kept = {key, assess(light, studio.supports[i], studio.set.limits)};
            ++memory.computed;
        }
        reviews.push_back({light.id, kept.stability});
    }
    return reviews;
}

} // namespace keystead
