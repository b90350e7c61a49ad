// What surfaces mirror toward the camera beside what they scatter evenly. Dark cloth, hair and
// paper send as much by gloss as by colour, and most of it at the outline, where they are seen
// edge-on. The lobes are those of shaders/shared/reflection.glsl, as the renderer has them.
#pragma once

#include "sim/light/emitter.h"
#include "sim/light/meter.h"
#include "sim/light/reflection_text.h"
#include "sim/review/sight.h"

namespace keystead {

/// Where a ray from the eye met a surface, and how the surface answers. Without the finish's fine
/// unevenness, which is nothing in the mean.
struct GlossyPoint {
    reflection::Surface surface{};
    Vec3 to_eye{0.0, 0.0, 1.0}; ///< unit
};
GlossyPoint glossy_point(const Studio& studio, const RayHit& hit, const SurfacePoint& point,
                         const Vec3& direction);

/// Roughness where a ray met a part.
double roughness_at(const ScenePart& part, const RayHit& hit);

/// What a light gives a receptor on a surface, and pi times the luminance that the surface mirrors
/// of it toward the eye: both as an exposure, so that tone = (reflectance · given + mirrored) /
/// camera exposure.
struct GivenLight {
    double given = 0.0, mirrored = 0.0;
};
GivenLight light_on(const Emitter& emitter, const Probe& probe, const GlossyPoint& point,
                    const RayScene* rays, int points);

struct Bench;

/// The same of light number `light` of a bench at its present power, kept in the bench's memory:
/// zero for a light that is off.
GivenLight direct_light(const Bench& bench, std::size_t light, const GlossyPoint& point,
                        const Probe& probe);

/// Luminous share of light from all round that goes toward the eye.
double even_share(const GlossyPoint& point);

} // namespace keystead
