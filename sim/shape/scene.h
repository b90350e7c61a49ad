// Everything visible in a set as meshes with materials: consumed by the renderer and by ray casts.
#pragma once

#include "sim/base/mesh.h"
#include "sim/set/set.h"

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

namespace keystead {

/// How a surface is shaded beyond Lambert + GGX.
enum class Finish : std::uint8_t { plain, skin, eye, hair, cloth, paper, floor, grid };

struct Material {
    glm::vec3 albedo{0.18F}; ///< linear; metals: reflectance at normal incidence
    float roughness = 0.6F;  ///< GGX
    float f0 = 0.04F;        ///< dielectric reflectance at normal incidence
    bool metal = false;
    Finish finish = Finish::plain;
    float transmission = 0.0F; ///< of light diffused through to the other side (scrims)
};

/// One drawable and hittable piece, in room coordinates.
struct ScenePart {
    std::string owner; ///< "room", "background", "subject", "camera", a light's or panel's id
    std::string part;  ///< "floor", "skin", "leg", "column", "arm", "bag", "shell", "face" …
    std::shared_ptr<const Mesh> mesh;
    Material material;
    std::uint32_t mask = 0;  ///< ray_mask bits
    int emitting_light = -1; ///< index of the light whose face this is, else -1
    bool casts = true;       ///< room shells do not
    std::uint64_t key = 0;   ///< changes whenever the part's content does
};

struct Scene {
    std::vector<ScenePart> parts;
};

/// Parts of the fixed surroundings.
std::vector<ScenePart> room_parts(const Room& room);
std::vector<ScenePart> background_parts(const Background& background);
std::vector<ScenePart> seat_parts(const Subject& subject); ///< a stool, when seated
std::vector<ScenePart> panel_parts(const Panel& panel);
std::vector<ScenePart> camera_parts(const Camera& camera);

/// Key that the first of those parts will have: equal keys, equal parts.
std::uint64_t first_part_key(const Room& room);
std::uint64_t first_part_key(const Background& background);
std::uint64_t first_seat_key(const Subject& subject);
std::uint64_t first_part_key(const Panel& panel);
std::uint64_t first_part_key(const Camera& camera);

} // namespace keystead
