// One step of a diffuse light path: where a ray lands, what it finds there, and what each light
// sends to that place directly. Shared by the bake of pictures and by readings.
#pragma once

#include "sim/light/emitter.h"
#include "sim/shape/scene.h"
#include "sim/transport/ray_scene.h"

#include <cstdint>
#include <vector>

namespace keystead::light_path {

inline constexpr double start_m = 5e-4; ///< past the surface that a ray leaves
inline constexpr double far_m = 100.0;

/// SplitMix64 (Steele, Lea and Flood, 2014): small, the same everywhere; its seeds are mixed first,
/// as neighbouring ones would run alike.
class Random {
public:
    explicit Random(std::uint64_t number)
        : state_(number) {
        state_ = next();
    }
    double unit() { return (static_cast<double>(next() >> 11U) + 0.5) / 9007199254740992.0; }

private:
    std::uint64_t next() {
        std::uint64_t z = state_ += 0x9E3779B97F4A7C15ULL;
        z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
        z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
        return z ^ (z >> 31U);
    }
    std::uint64_t state_;
};

/// The second coordinate of a Hammersley set.
double radical_inverse(std::uint32_t i);

/// About a normal, as often as its cosine, from a unit square sample.
Vec3 cosine_direction(const Vec3& normal, double u, double v);

struct World {
    const Scene& scene;
    const RayScene& rays;            ///< holds the scene's parts in order
    std::vector<Emitter> emitters{}; ///< with an exitance of 1
};
World world_of(const Scene& scene, const RayScene& rays, std::vector<Emitter> emitters);

struct Hit {
    Vec3 position_m{0.0}, normal{0.0};
    Vec3 to_eye{0.0}; ///< back along the path
    Vec3 albedo{0.0};
    double transmission = 0.0; ///< diffused through
    double roughness = 1.0;
    bool metal = false;
    double distance_m = 0.0;
    std::uint32_t part = 0, triangle = 0;
    double u = 0.0, v = 0.0;
};

bool next_hit(const World& world, const Vec3& from_m, const Vec3& direction, Hit& hit);

/// A scrim is crossed as often as its share of what leaves it: the path goes on from the far side.
/// True where it is.
bool choose_side(Hit& hit, Random& random);

/// One light on a hit before its shadow is known.
struct Offer {
    Vec3 from_m{0.0}, to_m{0.0}; ///< the way that must be free, of `offer_blockers`
    double irradiance = 0.0;     ///< 0: nothing to ask for
};
inline constexpr std::uint32_t offer_blockers = ray_mask::casters | ray_mask::background;

/// From one point of an emitter. No surface can get more than the exitance of a face that fills its
/// sky, so a sample that claims more is cut to that (with the hot-spot's share and what the beam
/// gathers). Silver sends on what its lobe says and not what a matt surface would.
Offer direct_offer(const Emitter& emitter, const Hit& hit, double u, double v);

/// The same with its shadow.
double direct_at(const World& world, const Emitter& emitter, const Hit& hit, double u, double v);

} // namespace keystead::light_path
