// What a bake knows of a scene: points, where their paths landed, what each light sent there.
#pragma once

#include "sim/transport/bake.h"
#include "sim/transport/bake_points.h"

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

namespace keystead {

/// Follows from the mesh alone: shared between bakes.
struct BakeLayout {
    std::shared_ptr<const Mesh> mesh;
    double spacing_m = 0.0;
    std::vector<BakePoint> points;
    std::vector<std::vector<BakeShare>> shares; ///< by vertex
    std::vector<std::uint32_t> nearest;         ///< by vertex: the point that it takes most of
};

/// Where a path from a bake's point landed.
struct BakeLanding {
    glm::vec3 position_m{0.0F}, normal{0.0F};
    glm::vec3 albedo{0.0F};  ///< what is sent on of what arrives there
    std::uint32_t part = 0;  ///< `ray_miss`: nowhere
    std::uint32_t point = 0; ///< of that part: which stands for the place in later bounces
    float distance_m = 0.0F;
    float roughness = 1.0F;
    bool metal = false;
};

struct BakePart {
    std::string name; ///< owner, part, and which of several
    Material material;
    std::uint32_t mask = 0;
    glm::vec3 low_m{0.0F}, high_m{0.0F}; ///< box
    std::shared_ptr<const BakeLayout> layout;
    std::vector<BakeLanding> landings; ///< point-major, one a path
    std::vector<float> direct;         ///< landing-major, one an emitter: irradiance there
};

struct BakeState {
    int paths = 0;
    double spacings_m[3] = {0.0, 0.0, 0.0};
    std::vector<std::uint64_t> emitters; ///< keys of their geometry
    std::vector<BakePart> parts;         ///< in the scene's order
};

} // namespace keystead
