// A light as the reference's paths ask it.
#pragma once

#include "sim/light/emitter.h"

#include <glm/glm.hpp>

namespace keystead::reference {

struct Lamp {
    Emitter emitter;           ///< with an exitance of 1
    int light = 0;             ///< index in the set
    glm::vec3 exitance{0.0F};  ///< at its power, in its colour, over the shutter time
    float flux = 0.0F;         ///< luminance of that times the area: for choosing lights
    float reach_m = 0.0F;      ///< from the centre to the farthest place of the face
    bool one_sided = false;    ///< nothing is sent behind the face's plane
    float widest = 1e9F;       ///< tangent of the angle to the beam past which a grid is dark
    float past_widest = 0.01F; ///< share of flux still counted there
};

Lamp make_lamp(const Emitter& emitter, int light, double shutter_s);

/// One place of a light as seen from a point.
struct LampView {
    glm::vec3 direction{0.0F}; ///< unit, to the light
    float distance_m = 0.0F;
    float radiance = 0.0F; ///< for an exitance of 1
    float density = 0.0F;  ///< of sampling that direction, per steradian
};

/// The place for numbers `u`, `v` of the unit square, uniform over the face.
LampView sample_lamp(const Lamp& lamp, const glm::vec3& from_m, float u, float v);

/// Where a ray meets the light, if it does: `radiance` is 0 where it does not.
LampView meet_lamp(const Lamp& lamp, const glm::vec3& from_m, const glm::vec3& direction);

/// Radiance of the light's own face toward `to_eye`, at a place on its drawn mesh.
float seen_lamp(const Lamp& lamp, const glm::vec3& place_m, const glm::vec3& to_eye);

/// A guess of how much it sends to a point that faces `normal`; 0 only where it sends nothing.
float guessed(const Lamp& lamp, const glm::vec3& at_m, const glm::vec3& normal);

} // namespace keystead::reference
