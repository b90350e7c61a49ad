// Many paths at a time, bounce by bounce, so that their rays can be cast sixteen at once.
#pragma once

#include "sim/subject/subject.h"
#include "sim/transport/reference.h"
#include "sim/transport/reference_lamp.h"

#include <array>
#include <span>
#include <vector>

namespace keystead::reference {

/// What all paths share.
struct World {
    const Studio* studio = nullptr;
    View view;
    ReferenceOptions options;
    std::vector<Lamp> lamps; ///< those that are on
    bool lenses = false;
};

World make_world(const Studio& studio, const View& view, const ReferenceOptions& options);

inline constexpr int block_side = 4;
inline constexpr int block_pixels = block_side * block_side;

/// Sums of a block's pixels, a batch each.
struct BlockSums {
    std::array<std::array<glm::vec3, reference_batches>, block_pixels> pixels{};
};

/// Traces every sample of the block of pixels whose top left one is `left`, `top`. Pixels past the
/// picture's edge are traced too.
void trace_block(const World& world, int left, int top, BlockSums& sums);

} // namespace keystead::reference
