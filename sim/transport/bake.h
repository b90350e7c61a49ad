// Light that arrives by way of other surfaces: walls, ceiling, floor, paper, panels, the sitter.
//
// Irradiance is found at points spread over every surface. From each point paths look over its half
// space (cosine-sampled); where they land every light is asked directly. That gives the first
// bounce. The next ones are had without further rays: what a place gets is the mean, over where its
// paths landed, of what the bake's points there got from the bounce before. Values are then shared
// among the vertices nearby that face the same way. Direct light is left out. Surfaces answer
// diffusely here: gloss is the direct light's affair.
#pragma once

#include "sim/light/emitter.h"
#include "sim/shape/scene.h"
#include "sim/transport/ray_scene.h"

#include <functional>
#include <glm/glm.hpp>
#include <memory>
#include <span>
#include <vector>

namespace keystead {

/// Irradiance for an exitance of 1 and white light, so that power, colour and gels are a remix.
struct IndirectLight {
    std::size_t emitters = 0;
    /// One a scene part: vertex-major, `emitters` values a vertex.
    std::vector<std::vector<glm::vec3>> parts;
    bool complete = false; ///< false if it was stopped, or shown before all paths were traced

    glm::vec3 at(std::size_t part, std::size_t vertex, std::size_t emitter) const {
        return parts[part][vertex * emitters + emitter];
    }
};

struct BakeOptions {
    int paths = 64;                  ///< a point; rounded up to sixteens
    /// Surfaces between light and point, 1 at least. In a white room the tenth still counts: three
    /// alone left its bounce a third too low.
    int bounces = 16;
    double subject_spacing_m = 0.02; ///< between points on the sitter
    double gear_spacing_m = 0.06;
    double room_spacing_m = 0.12; ///< walls, floor, paper, panels; never finer than the mesh
    std::function<bool()> stop;   ///< asked now and then; true gives up
    /// Gets a first, coarse result from the first few paths, which the others then add to. Not
    /// called where little has to be traced again.
    std::function<void(IndirectLight)> show;
};

struct BakeState;

/// What one bake leaves for the next one of an edited scene: where its paths landed, and what each
/// light sent there. Paths and shadow rays are traced again only where something that changed
/// stands, or stood, in their way, and all of a light that itself changed; the result is that of a
/// bake from nothing, byte for byte. A bake that was stopped leaves the memory as it was.
struct BakeMemory {
    std::shared_ptr<const BakeState> state;
    std::size_t traced = 0; ///< rays of the last bake, for tests
};

/// `rays` holds the scene's parts in order. The same scene gives the same values at any number of
/// threads.
IndirectLight bake_indirect(const Scene& scene, const RayScene& rays,
                            std::span<const Emitter> emitters, const BakeOptions& options,
                            BakeMemory* memory = nullptr);

} // namespace keystead
