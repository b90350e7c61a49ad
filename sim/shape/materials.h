// What things in a studio are made of: linear albedo (metals: reflectance at normal incidence) and
// GGX roughness. Typical values judged on rendered pictures against the real things.
#pragma once

#include "sim/shape/scene.h"

namespace keystead::materials {

inline Material plain(const glm::vec3& albedo, float roughness) {
    return {albedo, roughness, 0.04F, false, Finish::plain};
}
inline Material metal(const glm::vec3& reflectance, float roughness) {
    return {reflectance, roughness, 0.04F, true, Finish::plain};
}
/// A document's reflectance as an albedo.
inline Material painted(const Reflectance& reflectance, float roughness,
                        Finish finish = Finish::plain) {
    return {glm::vec3(reflectance.rgb), roughness, 0.04F, false, finish};
}

/// What a meter is calibrated to: 18 %, without a highlight.
inline Material grey_card() {
    return {glm::vec3(0.18F), 1.0F, 0.0F, false, Finish::plain};
}

inline Material chrome() {
    return metal(glm::vec3(0.62F), 0.22F);
}
inline Material aluminium() {
    return metal(glm::vec3(0.58F), 0.36F);
}
/// Anodised or powder-coated tube: nearly black, yet with the sheen of metal.
inline Material black_metal() {
    return plain(glm::vec3(0.018F), 0.32F);
}
inline Material plastic() {
    return plain(glm::vec3(0.035F), 0.42F);
}
inline Material rubber() {
    return plain(glm::vec3(0.022F), 0.70F);
}
inline Material box_fabric() {
    return plain(glm::vec3(0.028F), 0.75F);
}
/// Diffuser cloth with its light off.
inline Material diffuser() {
    return plain(glm::vec3(0.74F), 0.80F);
}
inline Material bag_cloth() {
    return plain(glm::vec3(0.045F, 0.040F, 0.036F), 0.60F);
}
inline Material red_trim() {
    return plain(glm::vec3(0.35F, 0.03F, 0.02F), 0.50F);
}
inline Material wood() {
    return plain(glm::vec3(0.34F, 0.21F, 0.115F), 0.45F);
}
inline Material yellow() {
    return plain(glm::vec3(0.55F, 0.52F, 0.10F), 0.50F);
}
inline Material cardboard() {
    return plain(glm::vec3(0.40F, 0.29F, 0.18F), 0.80F);
}
inline Material white_paint() {
    return plain(glm::vec3(0.72F, 0.71F, 0.69F), 0.45F);
}
inline Material reflector_silver() {
    return metal(glm::vec3(0.78F), 0.30F);
}
inline Material umbrella_black() {
    return plain(glm::vec3(0.024F), 0.70F);
}

} // namespace keystead::materials
