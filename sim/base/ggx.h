// The GGX lobe of a rough metal: what silver cloth does to light, in sim and in the bake.
//
// D G F / (4 (n·l)(n·v)) with Smith's height-correlated masking and Schlick's Fresnel term
// (Walter, Marschner, Li and Torrance 2007; Heitz 2014; Schlick 1994). Roughness is perceptual:
// alpha = roughness².
#pragma once

#include "sim/base/vec.h"

#include <algorithm>
#include <cmath>

namespace keystead {

/// Per steradian, without the cosine. `normal`, `to_light` and `to_eye` are unit vectors; 0 below
/// the surface. `f0`: reflectance at normal incidence.
inline double ggx_metal(double f0, double roughness, const Vec3& normal, const Vec3& to_light,
                        const Vec3& to_eye) {
    const double nl = glm::dot(normal, to_light), nv = glm::dot(normal, to_eye);
    if (nl <= 0.0 || nv <= 0.0) return 0.0;
    const Vec3 half = glm::normalize(to_light + to_eye);
    const double nh = glm::dot(normal, half), lh = glm::dot(to_light, half);
    const double a2 = roughness * roughness * roughness * roughness;
    const double d = nh * nh * (a2 - 1.0) + 1.0;
    const double distribution = a2 / (pi * d * d);
    const double masking =
        nl * std::sqrt(nv * nv * (1.0 - a2) + a2) + nv * std::sqrt(nl * nl * (1.0 - a2) + a2);
    const double fresnel = f0 + (1.0 - f0) * std::pow(std::clamp(1.0 - lh, 0.0, 1.0), 5.0);
    return distribution * 0.5 / std::max(masking, 1e-9) * fresnel;
}

} // namespace keystead
