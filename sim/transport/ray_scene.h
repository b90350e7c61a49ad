// Ray queries against triangle meshes: the public header of the ray caster.
#pragma once

#include "sim/base/mesh.h"
#include "sim/base/vec.h"

#include <cstdint>
#include <memory>
#include <span>

namespace keystead {

class RayDevice;
struct RayPacket; // sim/transport/ray_packet.h
struct HitPacket;
enum class RayOrder : std::uint8_t;
namespace lanes {
struct M16;
}

/// What a mesh in the scene belongs to; masks choose what a ray can hit.
namespace ray_mask {
inline constexpr std::uint32_t subject = 1U;
inline constexpr std::uint32_t gear = 2U; ///< stands, arms, modifiers, bags, camera
inline constexpr std::uint32_t panel = 4U;
inline constexpr std::uint32_t background = 8U;
inline constexpr std::uint32_t room = 16U;
inline constexpr std::uint32_t emitter = 32U; ///< emitting faces: never shadow their own light
inline constexpr std::uint32_t strands = 64U; ///< of hair: seen, but too fine to shadow anything
inline constexpr std::uint32_t all = 0xFFFFFFFFU & ~strands;
inline constexpr std::uint32_t visible = all | strands; ///< for rays from a camera
inline constexpr std::uint32_t casters = subject | gear | panel;
} // namespace ray_mask

struct RayHit {
    double distance_m = 0.0;
    std::uint32_t mesh = 0; ///< id given by `add`
    std::uint32_t triangle = 0;
    double u = 0.0, v = 0.0;    ///< barycentric: p = (1-u-v) p0 + u p1 + v p2
    Vec3 geometric_normal{0.0}; ///< unit, by winding
};

/// `RayHit::mesh` of a ray that met nothing, in bulk answers.
inline constexpr std::uint32_t ray_miss = 0xFFFFFFFFU;

/// One ray of a bulk query: unit direction, metres.
struct RayQuery {
    Vec3 origin_m{0.0};
    Vec3 direction{0.0, 0.0, 1.0};
    double start_m = 1e-4, end_m = 1e3;
};

/// Two points of a bulk visibility query.
struct Segment {
    Vec3 from_m{0.0}, to_m{0.0};
};

struct RayMesh {
    std::shared_ptr<const Mesh> mesh;
    std::uint32_t mask = 0;
    bool operator==(const RayMesh&) const = default;
};

/// A set of meshes that rays can hit. Thread-safe for queries after `commit`. Watertight along
/// shared edges. The same calls give the same answers at any thread count; another instruction set
/// may round differently in the last bit of a distance (single precision inside).
///
/// Inside, meshes stand in groups, each with a search tree that never changes once it is built, and
/// a small tree of the groups' boxes above them. Groups are shared between scenes. Measured on a
/// set of 130 k triangles and five lights, against one tree of everything: packets and single rays
/// within 10 % either way; Embree's own instancing was a quarter to a third slower.
class RayScene {
public:
    /// An empty scene. Scenes with one device count their rays together; without, a new one.
    explicit RayScene(std::shared_ptr<const RayDevice> device = nullptr);
    /// Ready for queries: the place in `meshes` is the id, meshes of one group are those with the
    /// same number. Groups that `previous` (may be null) has as well are shared with it, and so is
    /// its device.
    RayScene(std::span<const RayMesh> meshes, std::span<const std::uint32_t> group_of,
             const RayScene* previous);
    ~RayScene();
    RayScene(RayScene&&) noexcept;
    RayScene& operator=(RayScene&&) noexcept;

    /// Shares the mesh, which must not change while it is here; returns its id. The same mesh may
    /// be added again under another id, and each id is removed singly; an id is given once.
    std::uint32_t add(std::shared_ptr<const Mesh> mesh, std::uint32_t mask);
    void remove(std::uint32_t mesh);
    /// Makes a group of what was added since the last commit; needed after the last `add`/`remove`
    /// and before queries.
    void commit();

    const std::shared_ptr<const RayDevice>& device() const;
    /// How many rays all scenes of this one's device were asked for so far.
    std::uint64_t rays_cast() const;
    /// How many groups this scene had to build itself.
    int groups_built() const;

    /// The mesh added under `id`, which must be present.
    const Mesh& mesh(std::uint32_t id) const;

    /// Nearest hit along unit `direction`, or false. `start_m` skips the surface a ray leaves.
    bool first_hit(const Vec3& origin_m, const Vec3& direction, double start_m, double end_m,
                   std::uint32_t mask, RayHit& hit) const;
    /// Is anything between the two points (less `margin_m` at either end)?
    bool blocked(const Vec3& from_m, const Vec3& to_m, std::uint32_t mask,
                 double margin_m = 1e-4) const;

    /// The same two queries for many rays at once, some times faster where neighbours in the list
    /// run nearly parallel. `hits` and `is_blocked` are as long as the queries; `hits[i].mesh` is
    /// `ray_miss` where nothing is hit, else as `first_hit`; `is_blocked[i]` is 0 or 1.
    void first_hits(std::span<const RayQuery> rays, std::uint32_t mask,
                    std::span<RayHit> hits) const;
    void blocked_many(std::span<const Segment> segments, std::uint32_t mask,
                      std::span<std::uint8_t> is_blocked, double margin_m = 1e-4) const;

    /// Nearest hits of a packet.
    void first_hits(const RayPacket& rays, std::uint32_t mask, RayOrder order,
                    HitPacket& hits) const;
    /// Which active rays of a packet meet anything. The answer comes through a reference: how sixteen
    /// lanes are returned differs with the instruction set of the kernel that asks.
    void blocked(const RayPacket& rays, std::uint32_t mask, RayOrder order,
                 lanes::M16& is_blocked) const;

private:
    struct Data;
    std::unique_ptr<Data> data_;
};

} // namespace keystead
