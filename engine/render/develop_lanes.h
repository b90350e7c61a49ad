// Kernels of the packet filler's pictures: weighted sums and display codes, sixteen pixels at once.
#pragma once

#include "sim/transport/picture_size.h"

#include <cstdint>
#include <glm/glm.hpp>
#include <span>

namespace keystead {

/// A layer and its factor.
struct LayerTerm {
    const float* blocks = nullptr; ///< layer_block_floats a block
    glm::vec3 factor{0.0F};
};

struct DevelopJob {
    PictureSize size;
    std::span<const LayerTerm> fixed, live;
    float* fixed_sum = nullptr; ///< where the sum of `fixed` is kept; null: nowhere
    float exposure = 1.0F, print_contrast = 0.0F;
    glm::mat3 balance{1.0F};
    bool soft = true, dither = true, bottom_first = false;
    std::uint8_t* shown = nullptr; ///< RGBA
};

/// Rows of blocks `begin` up to `end`.
void develop_rows(const DevelopJob& job, int begin, int end);

/// The same rows' weighted sums, a pixel each, rows from the top.
void sum_rows(PictureSize size, std::span<const LayerTerm> terms, int begin, int end,
              glm::vec3* pixels);

} // namespace keystead
