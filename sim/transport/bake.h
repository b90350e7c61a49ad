// Light that arrives by way of other surfaces: walls, ceiling, floor, paper, panels, the sitter.
//
// Irradiance is found at points spread over every surface by tracing diffuse paths (cosine-sampled,
// every light asked at each hit), then shared among the vertices nearby that face the same way.
// Direct light is left out. Surfaces answer diffusely here: gloss is the direct light's affair.
#pragma once

#include "sim/light/emitter.h"
#include "sim/shape/scene.h"
#include "sim/transport/ray_scene.h"

#include <functional>
#include <glm/glm.hpp>
#include <span>
#include <vector>

namespace keystead {

struct BakeOptions {
    int paths = 64;                  ///< a point
    int bounces = 3;                 ///< surfaces between light and point, 1 at least
    double subject_spacing_m = 0.02; ///< between points on the sitter
    double gear_spacing_m = 0.06;
    double room_spacing_m = 0.12; ///< walls, floor, paper, panels; never finer than the mesh
    std::function<bool()> stop;   ///< asked now and then; true gives up
};

/// Irradiance for an exitance of 1 and white light, so that power, colour and gels are a remix.
struct IndirectLight {
    std::size_t emitters = 0;
    /// One a scene part: vertex-major, `emitters` values a vertex.
    std::vector<std::vector<glm::vec3>> parts;
    bool complete = false; ///< false if it was stopped

    glm::vec3 at(std::size_t part, std::size_t vertex, std::size_t emitter) const {
        return parts[part][vertex * emitters + emitter];
    }
};

/// `rays` holds the scene's parts in order. The same scene gives the same values at any number of
/// threads.
IndirectLight bake_indirect(const Scene& scene, const RayScene& rays,
                            std::span<const Emitter> emitters, const BakeOptions& options);

} // namespace keystead
