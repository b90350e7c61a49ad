// One step of diffuse light paths, sixteen at a time: where rays land, what they find there, and
// what a light sends to those places directly. Shared by the bake of pictures and by readings.
#pragma once

#include "sim/light/emitter.h"
#include "sim/shape/scene.h"
#include "sim/transport/path_lamp.h"
#include "sim/transport/ray_packet.h"

#include <cstdint>
#include <string_view>

namespace keystead::light_path {

using namespace path_lanes;

inline constexpr float leave_m = 5e-4F; ///< past the surface that a ray leaves
inline constexpr float far_m = 100.0F;

struct World {
    const Scene& scene;
    const RayScene& rays; ///< holds the scene's parts in order
    bool scrims = false;  ///< does anything let light through?
};
World world_of(const Scene& scene, const RayScene& rays);

/// A light for an exitance of 1.
struct Source {
    Lamp lamp;
    /// Radiance of its brightest place and direction over that of a matt face, at most.
    float brightest = 1.0F;
    std::uint32_t seed = 0; ///< of its name
};
Source source_of(const Emitter& emitter);

/// Thirty-two bits of a name, to mix seeds from.
std::uint32_t seed_of(std::string_view name);

/// Where sixteen paths landed. `part` is `ray_miss` where they did not: black there.
struct alignas(64) Landings {
    V16 position_m, normal;
    V16 albedo;     ///< what is sent on of what arrives there
    F16 distance_m; ///< of the stretch that ended there
    F16 silver;     ///< roughness of a silver panel, negative on all else
    U16 part;
    U16 point; ///< the bake's: of that part, which stands for the place in later bounces
};

/// What rays met where they hit (`hits.mesh` counts as the scene's parts). The share that surfaces
/// send on has their gloss in the mean over where light comes from: a wall's sheen brightens a
/// room. A scrim is crossed as often as its share of what leaves it (`through`): the path goes on
/// from the far side; `seeds` decide.
void land(const World& world, const RayPacket& rays, const HitPacket& hits, const U16& seeds,
          M16& through, Landings& landings);

/// Ways on from landings, or any other places: as often as the cosine about the normal, from unit
/// square samples.
void aim(const V16& position_m, const V16& normal, const F16& u, const F16& v, const M16& active,
         RayPacket& rays);

/// What a light would send to landings if nothing were in the way.
struct alignas(64) Offers {
    V16 place_m;    ///< on its face
    F16 irradiance; ///< 0: nothing to ask for
};

/// From the place of the light's face that `u`, `v` pick for each landing of paths that came from
/// `from_m`, where `asked` holds. No surface can get more than the exitance of a face that fills
/// its sky, so a sample that claims more is cut to that (with the hot-spot's share and what the
/// beam gathers). Silver sends on what its lobe says and not what a matt surface would.
void offers_of(const Source& source, const Landings& landings, const V16& from_m, const M16& asked,
               const F16& u, const F16& v, Offers& offers);

/// What is left of the offers with their shadows. Returns how many rays were cast.
int lit_by(const World& world, const Landings& landings, const Offers& offers, F16& irradiance);

} // namespace keystead::light_path
