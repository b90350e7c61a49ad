// The reference picture: paths traced from the camera until nothing is left out but what is stated
// here. Slow, without looks, and the judge of every quicker picture.
//
// The same emitters as readings (sim/light), the same reflection as the renderer's shaders
// (shaders/shared/reflection.glsl), lights' faces seen directly and in mirrors, panes of glasses
// mirrored and seen through. Every light is asked at the place that the camera sees, one light (in
// proportion to what it may send) at the places after that; whatever a surface mirrors is found
// both ways and weighed (Veach and Guibas, 1995). Nothing is clamped and nothing is filtered.
//
// Left out: light by way of more surfaces than `bounces`, refraction, light mirrored onto surfaces
// by glasses, and the work light.
#pragma once

#include "sim/studio/studio.h"
#include "sim/transport/view.h"

#include <cstdint>
#include <functional>
#include <glm/glm.hpp>
#include <span>
#include <vector>

namespace keystead {

struct ReferenceOptions {
    int width_px = 1280, height_px = 720;
    int samples = 64; ///< paths a pixel, 2 at least; powers of two are spread best
    int bounces = 3;  ///< surfaces between light and what the camera sees; 0: direct light
    std::uint32_t seed = 1;
    bool specular = true;         ///< off: diffuse reflection alone
    bool gloss_of_bounces = true; ///< off: later surfaces answer diffusely, as a bake has it
    std::function<bool(double)> progress; ///< told the share done, 0..1; false stops
};

/// Rows from the top. Radiance in cd·s/m², continuous light counted over the shutter time.
struct ReferencePicture {
    int width_px = 0, height_px = 0, samples = 0;
    std::vector<glm::vec3> radiance;
    std::vector<glm::vec3> standard_error; ///< of each pixel and channel, from independent batches
    bool complete = false;                 ///< false if it was stopped
};

/// Paths of a pixel that the standard error takes as one independent batch: an eighth of them.
inline constexpr int reference_batches = 8;

/// The same studio, view and options give the same bytes at any number of threads.
ReferencePicture trace_reference(const Studio& studio, const View& view,
                                 const ReferenceOptions& options);

/// A small square of a picture, `reference_square_px` wide, by its top left pixel.
struct ReferenceSquare {
    int left_px = 0, top_px = 0;
};
inline constexpr int reference_square_px = 4;
struct ReferenceMean {
    glm::vec3 radiance{0.0F}, standard_error{0.0F};
};

/// Means over squares of the picture that `options` describe: the same paths as trace_reference
/// takes there, without the rest of the picture.
std::vector<ReferenceMean> trace_squares(const Studio& studio, const View& view,
                                         const ReferenceOptions& options,
                                         std::span<const ReferenceSquare> squares);

} // namespace keystead
