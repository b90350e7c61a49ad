// What each pixel sees first: place, normals, surface. Kept for several sub-pixel places of the
// camera, so that edges are smooth once every place has been shaded.
#pragma once

#include "engine/gl/program.h"
#include "engine/render/geometry.h"
#include "sim/transport/light_sequence.h"
#include "sim/transport/view.h"

#include <array>
#include <vector>

namespace keystead {

struct GBuffer {
    Texture position; ///< RGBA32F room position, w = part + 1 (0 = nothing)
    Texture normals;  ///< RGBA16F octahedral geometric and shading normal
    Texture surface;  ///< RGBA16F albedo and roughness
    Texture tangent;  ///< RG16F octahedral direction of the grain
    Framebuffer framebuffer;
    int set = -1; ///< sub-pixel place it holds, -1 = none
};

/// The sets of one view; fewer are kept than exist where the picture is large.
struct GBufferCache {
    int width_px = 0, height_px = 0;
    Texture depth;
    std::vector<GBuffer> kept;
};

GBufferCache make_gbuffers(int width_px, int height_px);
void forget(GBufferCache& cache);

/// The G-buffer of sub-pixel place `set`, drawn if it is not kept.
GBuffer& gbuffer_of(GBufferCache& cache, int set, const Geometry& geometry, const View& view,
                    Program& program);

/// About `wide` x `high` positions spread over the picture, without those that see nothing.
std::vector<glm::vec3> spread_positions(const GBufferCache& cache, const GBuffer& buffer, int wide,
                                        int high);

} // namespace keystead
