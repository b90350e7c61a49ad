// What sixteen rays hit, as surfaces: place, normals, grain, colour and gloss with the unevenness
// of their finish. The same as the OpenGL renderer's G-buffer holds (shaders/gbuffer.frag).
#pragma once

#include "sim/light/reflection_text.h"
#include "sim/shape/scene.h"
#include "sim/transport/ray_packet.h"

#include <memory>
#include <vector>

namespace keystead {

/// Sixteen floats that a triangle's corner brings: place twice (for the two edges), smooth normal
/// (zero: none), linear albedo, roughness.
struct alignas(64) CornerRecord {
    float values[16];
};

/// A part of a scene made ready for looking surfaces up; shared as long as its mesh is.
struct SurfacePart {
    std::shared_ptr<const Mesh> mesh; ///< null: the part has no triangles
    Material material;
    int emitting_light = -1;
    std::shared_ptr<const std::vector<CornerRecord>> corners; ///< one a vertex
};

/// One part a part of the scene, in its order.
struct SurfaceTable {
    std::vector<SurfacePart> parts;
};

/// Takes over from `previous` (may be null) what has not changed.
std::shared_ptr<const SurfaceTable> make_surface_table(const Scene& scene,
                                                       const SurfaceTable* previous = nullptr);

/// The surfaces that `rays` met. `hits.mesh` counts as the table's parts; lanes that hit nothing
/// get a black, matt surface and emitting light -1. Geometric normals face where the rays come
/// from; shading normals face their side too, but for hair, whose smooth normal stands for both.
/// Finer unevenness than `footprint_m` (the width of a pixel or a path there) is left out.
void surfaces_at(const SurfaceTable& table, const RayPacket& rays, const HitPacket& hits,
                 const lanes::F16& footprint_m, reflection_lanes::Surface& surfaces);

} // namespace keystead
