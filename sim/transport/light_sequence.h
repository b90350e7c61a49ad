// Which point of every light, and which sub-pixel place of the camera, belongs to sample n.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>

namespace keystead {

/// Sub-pixel places whose G-buffers may be kept.
inline constexpr int jitter_sets = 8;
/// A place that no sample uses: the pixel's centre, for positions that stand for a whole pixel.
inline constexpr int centre_set = jitter_sets;
/// Consecutive samples that share one sub-pixel place, so that they can be shaded in one pass.
inline constexpr int samples_per_set = 4;

/// Point n of an Owen-scrambled (0,2) sequence in the unit square: every power of two of points is
/// a stratified set.
glm::dvec2 light_sample(std::uint32_t n);

/// Sub-pixel place of sample n, 0..jitter_sets-1. Turned from block to block, so that each place
/// sees every part of the lights in the end.
int sample_set(std::uint32_t n);

/// Offset of a place from the pixel's centre, in pixels, -0.5..0.5.
glm::vec2 set_offset_px(int set);

} // namespace keystead
