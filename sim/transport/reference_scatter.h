// Which way a path goes on from a surface, and how likely that way was.
#pragma once

#include "sim/transport/reference_surface.h"

namespace keystead::reference {

/// Whole reflection of the shared text with the cosine, the cornea's highlight included.
glm::vec3 reflected(const Surface& s, const glm::vec3& to_eye, const glm::vec3& to_light,
                    bool specular);

/// Density per steradian of `scattered` for direction `to_light`.
float scatter_density(const Surface& s, const glm::vec3& to_eye, const glm::vec3& to_light,
                      bool specular);

/// A unit direction: by the cosine, or from the visible normals of the highlight's lobe (Heitz,
/// "Sampling the GGX distribution of visible normals", 2018). `lobe`, `u`, `v`: 0..1.
glm::vec3 scattered(const Surface& s, const glm::vec3& to_eye, bool specular, float lobe, float u,
                    float v);

} // namespace keystead::reference
