// Meshes with a search tree of their own, built once and never changed: what a RayScene is put
// together from. Groups are shared between scenes, so that an edit builds only what it moved.
// Internal to the ray caster; its .cpp is the one that includes Embree.
#pragma once

#include "sim/base/lanes.h"
#include "sim/base/mesh.h"
#include "sim/transport/ray_scene.h"

#include <array>
#include <atomic>
#include <cstdint>
#include <memory>
#include <vector>

namespace keystead {

/// What groups are built with, and who counts their rays. One is handed from scene to scene.
class RayDevice {
public:
    RayDevice();
    ~RayDevice();
    RayDevice(const RayDevice&) = delete;
    RayDevice& operator=(const RayDevice&) = delete;

    void* handle() const { return handle_; }

    /// Threads count in places of their own, so that none waits for another.
    void count(std::uint64_t rays) const;
    std::uint64_t counted() const;

private:
    struct alignas(64) Stripe {
        std::atomic<std::uint64_t> rays{0};
    };
    void* handle_ = nullptr;
    mutable std::array<Stripe, 32> stripes_;
};

/// One ray under way, in Embree's layout (its RTCRayHit).
struct alignas(16) TracedRay {
    float origin_x, origin_y, origin_z, near;
    float direction_x, direction_y, direction_z, time;
    float far; ///< shortened by a hit; minus infinity once an occlusion query met something
    std::uint32_t mask, id, flags;
    float normal_x, normal_y, normal_z, u, v;
    std::uint32_t triangle, member, instance;
};

/// Sixteen, likewise (its RTCRayHit16).
struct alignas(64) TracedPacket {
    lanes::F16 origin_x, origin_y, origin_z, near;
    lanes::F16 direction_x, direction_y, direction_z, time;
    lanes::F16 far;
    lanes::U16 mask, id, flags;
    lanes::F16 normal_x, normal_y, normal_z, u, v;
    lanes::U16 triangle, member, instance;
};

/// A box a little larger than what is in it, so that rounding never loses a hit.
struct RayBox {
    glm::vec3 low_m{1e30F}, high_m{-1e30F};
    bool empty() const { return low_m.x > high_m.x; }
};

class RayGroup {
public:
    /// Builds at once. Members are numbered as given.
    RayGroup(std::shared_ptr<const RayDevice> device, std::vector<RayMesh> members);
    ~RayGroup();
    RayGroup(const RayGroup&) = delete;
    RayGroup& operator=(const RayGroup&) = delete;

    const std::vector<RayMesh>& members() const { return members_; }
    const RayBox& box() const { return box_; }
    std::uint32_t mask() const { return mask_; } ///< bits of any member

    /// Nearest hit before `far`: `member` is set and `far` shortened where there is one.
    void first_hit(TracedRay& ray) const;
    void blocked(TracedRay& ray) const;
    void first_hits(TracedPacket& rays, const lanes::M16& active, RayOrder order) const;
    void blocked(TracedPacket& rays, const lanes::M16& active, RayOrder order) const;

private:
    std::shared_ptr<const RayDevice> device_;
    std::vector<RayMesh> members_;
    void* scene_ = nullptr;
    RayBox box_;
    std::uint32_t mask_ = 0;
};

} // namespace keystead
