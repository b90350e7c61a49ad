// Sixteen paths at a time, of the sixteen pixels of a block.
#pragma once

#include "sim/transport/path_lamp.h"
#include "sim/transport/reference.h"
#include "sim/transport/surface_lanes.h"

#include <array>
#include <memory>
#include <vector>

namespace keystead::reference {

using namespace path_lanes;

/// What all paths share.
struct World {
    const Studio* studio = nullptr;
    View view;
    ReferenceOptions options;
    std::vector<Lamp> lamps; ///< those that are on
    std::shared_ptr<const SurfaceTable> surfaces;
    bool lenses = false;             ///< does the sitter wear panes of glass?
    bool scrims = false;             ///< does anything let light through?
    std::uint32_t batches = 1;       ///< independent ones of each pixel's samples
    std::uint32_t batch_samples = 1; ///< of the largest, rounded up to a power of two
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
