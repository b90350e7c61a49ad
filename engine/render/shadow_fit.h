// Where a shadow map looks: fitted to what is visible and to what can throw a shadow on it.
#pragma once

#include "engine/render/box.h"

#include <glm/glm.hpp>
#include <span>
#include <vector>

namespace keystead {

/// One perspective depth map seen from a point of a light.
struct ShadowView {
    glm::mat4 clip_from_room{1.0F};
    glm::vec4 depth_row{0.0F}; ///< distance along the map's axis = dot(depth_row, (p, 1))
    float texel_slope = 0.0F;  ///< width of a texel at unit distance, the wider way
};

/// Maps from `point_m`, whose light leaves on the side of `axis` (all round if it is zero). One map
/// is enough up to about 65 degrees off its middle; wider views take a half cube. None when no
/// caster's box lies before any receiver. What lies outside all maps is lit.
std::vector<ShadowView> fit_shadow_views(const glm::vec3& point_m, const glm::vec3& axis,
                                         std::span<const glm::vec3> receivers_m,
                                         std::span<const Box> casters, int map_px);

/// Can a box be partly inside the frustum? Never false for one that is.
bool may_see(const glm::mat4& clip_from_room, const Box& box);

} // namespace keystead
