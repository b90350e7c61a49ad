// One light, a few points of its face at a time: maps from those points, then one shading pass
// that adds their light to the light's layer.
#pragma once

#include "engine/render/gbuffer.h"
#include "engine/render/lens_pass.h"
#include "engine/render/measured_tables.h"
#include "engine/render/shadow_fit.h"
#include "sim/light/emitter.h"

#include <map>
#include <span>
#include <string>
#include <vector>

namespace keystead {

inline constexpr int most_points = samples_per_set; ///< as in shaders/shade.frag
inline constexpr int most_maps = 12;                ///< as in shaders/shade.frag

/// Depth maps that the shading pass reads, all of one size.
struct ShadowMaps {
    int size_px = 1024;
    Texture maps;
    std::vector<Framebuffer> targets; ///< one a map
};

/// What a light's samples have to know about the picture.
struct LightPass {
    Program shadow;
    std::map<std::string, Program> shade; ///< variants by their defines, made when first needed
    std::string problem;                  ///< why a variant could not be made
    ShadowMaps maps;
    MeasuredTables measured;
    bool specular = true;
    bool skin_wrap = false;
};

/// What is looked at from where.
struct PictureFrame {
    View view;
    int width_px = 1, height_px = 1;
    float ambient = 0.0F; ///< irradiance from everywhere, for the work light only
};

/// A point of a light with its maps.
struct LightPoint {
    EmitterPoint point;
    std::vector<ShadowView> views;
};

/// The next points of `emitter`, from sample `first`, fitted to what is visible. At most `wanted`,
/// fewer if a sub-pixel place ends or their maps would be too many.
std::vector<LightPoint> next_points(const Emitter& emitter, int first, int wanted,
                                    std::span<const glm::vec3> receivers_m,
                                    std::span<const Box> casters, int map_px);

/// Draws the maps of the points.
void draw_maps(LightPass& pass, const Geometry& geometry, std::span<const LightPoint> points);

/// Adds the points' light, for an exitance of 1, to `target` (RGBA32F, blended additively). `lens`,
/// where not null, dims what is behind it and mirrors what is before it.
void shade_points(LightPass& pass, const GBuffer& buffer, const LensBuffer* lens,
                  const Geometry& geometry, const PictureFrame& frame, const Emitter& emitter,
                  int light_index, std::span<const LightPoint> points, const Framebuffer& target);

} // namespace keystead
