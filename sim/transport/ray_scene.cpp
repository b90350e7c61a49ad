#include "sim/transport/ray_scene.h"

#include "sim/transport/ray_group.h"
#include "sim/transport/ray_packet.h"
#include "sim/transport/ray_tree.h"

#include <algorithm>
#include <cassert>
#include <map>
#include <utility>
#include <vector>

namespace keystead {

namespace {

using lanes::lane_count;
using lanes::M16;
using lanes::U16;

float as_float(double value) {
    return static_cast<float>(value);
}

TracedRay make_ray(const RayQuery& query, std::uint32_t mask) {
    TracedRay ray{};
    ray.origin_x = as_float(query.origin_m.x);
    ray.origin_y = as_float(query.origin_m.y);
    ray.origin_z = as_float(query.origin_m.z);
    ray.direction_x = as_float(query.direction.x);
    ray.direction_y = as_float(query.direction.y);
    ray.direction_z = as_float(query.direction.z);
    ray.near = as_float(query.start_m);
    ray.far = as_float(query.end_m);
    ray.mask = mask;
    ray.member = ray_miss;
    return ray;
}

/// Ray number `i` of a packet; lanes that are switched off keep whatever they hold.
void set_lane(RayPacket& packet, std::size_t i, const RayQuery& query) {
    packet.origin_m.set(i, glm::vec3(query.origin_m));
    packet.direction.set(i, glm::vec3(query.direction));
    packet.start.set(i, as_float(query.start_m));
    packet.end.set(i, as_float(query.end_m));
}

RayPacket empty_packet() {
    RayPacket packet;
    packet.origin_m = lanes::V16(lanes::F16(0.0F));
    packet.direction = lanes::V16(lanes::F16(1.0F));
    packet.start = packet.end = lanes::F16(0.0F);
    packet.active = M16(false);
    return packet;
}

/// The part of a segment that lies `margin_m` inside both ends; empty where nothing is left.
RayQuery inner_part(const Segment& segment, double margin_m) {
    const Vec3 way = segment.to_m - segment.from_m;
    const double length = glm::length(way);
    RayQuery query{segment.from_m, Vec3(0.0, 0.0, 1.0), margin_m, length - margin_m};
    if (length > 0.0) query.direction = way / length;
    return query;
}

void set_rays(TracedPacket& to, const RayPacket& from, std::uint32_t mask) {
    to.origin_x = from.origin_m.x;
    to.origin_y = from.origin_m.y;
    to.origin_z = from.origin_m.z;
    to.direction_x = from.direction.x;
    to.direction_y = from.direction.y;
    to.direction_z = from.direction.z;
    to.near = from.start;
    to.far = from.end;
    to.time = lanes::F16(0.0F);
    to.mask = U16(mask);
    to.id = to.flags = U16(0U);
}

} // namespace

struct RayScene::Data {
    struct Entry {
        RayMesh member;
        bool present = false;
    };
    std::shared_ptr<const RayDevice> device;
    std::vector<Entry> entries; ///< by id
    std::vector<PlacedGroup> groups;
    std::vector<std::uint32_t> waiting; ///< added since the last commit
    bool changed = false;
    int built = 0;
    RayTree tree;

    void add_group(const std::vector<std::uint32_t>& ids, const Data* previous) {
        std::vector<RayMesh> members;
        for (const std::uint32_t id : ids) members.push_back(entries[id].member);
        if (previous != nullptr)
            for (const PlacedGroup& old : previous->groups)
                if (old.group->members() == members) {
                    groups.push_back({old.group, ids});
                    return;
                }
        groups.push_back({std::make_shared<const RayGroup>(device, std::move(members)), ids});
        ++built;
    }

    /// Groups that lost a member are built again of what is left.
    void renew_groups() {
        const std::vector<PlacedGroup> old = std::exchange(groups, {});
        for (const PlacedGroup& placed : old) {
            std::vector<std::uint32_t> left;
            for (const std::uint32_t id : placed.ids)
                if (entries[id].present) left.push_back(id);
            if (left.size() == placed.ids.size())
                groups.push_back(placed);
            else if (!left.empty())
                add_group(left, nullptr);
        }
    }

    /// The winding of the mesh gives the normal in double precision.
    RayHit hit_of(std::uint32_t id, std::uint32_t triangle, float distance, float u,
                  float v) const {
        const Mesh& mesh = *entries[id].member.mesh;
        const glm::uvec3& corner = mesh.triangles[triangle];
        const Vec3 p0(mesh.positions_m[corner.x]);
        const Vec3 across = glm::cross(Vec3(mesh.positions_m[corner.y]) - p0,
                                       Vec3(mesh.positions_m[corner.z]) - p0);
        const double length = glm::length(across);
        return {static_cast<double>(distance),
                id,
                triangle,
                static_cast<double>(u),
                static_cast<double>(v),
                length > 0.0 ? across / length : Vec3(0.0)};
    }
};

RayScene::RayScene(std::shared_ptr<const RayDevice> device)
    : data_(std::make_unique<Data>()) {
    data_->device = device ? std::move(device) : std::make_shared<const RayDevice>();
}

RayScene::RayScene(std::span<const RayMesh> meshes, std::span<const std::uint32_t> group_of,
                   const RayScene* previous)
    : RayScene(previous != nullptr ? previous->device() : nullptr) {
    assert(meshes.size() == group_of.size());
    std::map<std::uint32_t, std::vector<std::uint32_t>> groups;
    for (std::uint32_t id = 0; id < meshes.size(); ++id) {
        assert(meshes[id].mesh != nullptr);
        data_->entries.push_back({meshes[id], true});
        groups[group_of[id]].push_back(id);
    }
    for (const auto& [number, ids] : groups)
        data_->add_group(ids, previous != nullptr ? previous->data_.get() : nullptr);
    data_->tree = RayTree(data_->groups);
}

RayScene::~RayScene() = default;
RayScene::RayScene(RayScene&&) noexcept = default;
RayScene& RayScene::operator=(RayScene&&) noexcept = default;

std::uint32_t RayScene::add(std::shared_ptr<const Mesh> mesh, std::uint32_t mask) {
    assert(mesh != nullptr);
    const auto id = static_cast<std::uint32_t>(data_->entries.size());
    data_->entries.push_back({{std::move(mesh), mask}, true});
    data_->waiting.push_back(id);
    data_->changed = true;
    return id;
}

void RayScene::remove(std::uint32_t mesh) {
    assert(mesh < data_->entries.size() && data_->entries[mesh].present);
    data_->entries[mesh] = {};
    std::erase(data_->waiting, mesh);
    data_->changed = true;
}

void RayScene::commit() {
    if (!std::exchange(data_->changed, false)) return;
    data_->renew_groups();
    if (!data_->waiting.empty()) data_->add_group(std::exchange(data_->waiting, {}), nullptr);
    data_->tree = RayTree(data_->groups);
}

const std::shared_ptr<const RayDevice>& RayScene::device() const {
    return data_->device;
}

std::uint64_t RayScene::rays_cast() const {
    return data_->device->counted();
}

int RayScene::groups_built() const {
    return data_->built;
}

const Mesh& RayScene::mesh(std::uint32_t id) const {
    assert(id < data_->entries.size() && data_->entries[id].present);
    return *data_->entries[id].member.mesh;
}

bool RayScene::first_hit(const Vec3& origin_m, const Vec3& direction, double start_m, double end_m,
                         std::uint32_t mask, RayHit& hit) const {
    TracedRay ray = make_ray({origin_m, direction, start_m, end_m}, mask);
    data_->device->count(1);
    std::uint32_t mesh = ray_miss;
    data_->tree.first_hit(ray, mesh);
    if (mesh == ray_miss) return false;
    hit = data_->hit_of(mesh, ray.triangle, ray.far, ray.u, ray.v);
    return true;
}

bool RayScene::blocked(const Vec3& from_m, const Vec3& to_m, std::uint32_t mask,
                       double margin_m) const {
    TracedRay ray = make_ray(inner_part({from_m, to_m}, margin_m), mask);
    if (ray.far <= ray.near) return false;
    data_->device->count(1);
    return data_->tree.blocked(ray);
}

void RayScene::first_hits(std::span<const RayQuery> rays, std::uint32_t mask,
                          std::span<RayHit> hits) const {
    assert(hits.size() >= rays.size());
    RayPacket packet = empty_packet();
    HitPacket found;
    for (std::size_t begin = 0; begin < rays.size(); begin += lane_count) {
        const std::size_t count = std::min(lane_count, rays.size() - begin);
        for (std::size_t i = 0; i < lane_count; ++i) packet.active.set(i, i < count);
        for (std::size_t i = 0; i < count; ++i) set_lane(packet, i, rays[begin + i]);
        first_hits(packet, mask, RayOrder::coherent, found);
        for (std::size_t i = 0; i < count; ++i) {
            RayHit& hit = hits[begin + i];
            if (found.mesh[i] == ray_miss) {
                hit = {};
                hit.mesh = ray_miss;
            } else {
                hit = data_->hit_of(found.mesh[i], found.triangle[i], found.distance[i], found.u[i],
                                    found.v[i]);
            }
        }
    }
}

void RayScene::blocked_many(std::span<const Segment> segments, std::uint32_t mask,
                            std::span<std::uint8_t> is_blocked, double margin_m) const {
    assert(is_blocked.size() >= segments.size());
    RayPacket packet = empty_packet();
    for (std::size_t begin = 0; begin < segments.size(); begin += lane_count) {
        const std::size_t count = std::min(lane_count, segments.size() - begin);
        packet.active = M16(false);
        for (std::size_t i = 0; i < count; ++i) {
            const RayQuery ray = inner_part(segments[begin + i], margin_m);
            packet.active.set(i, ray.end_m > ray.start_m);
            set_lane(packet, i, ray);
        }
        M16 stopped;
        blocked(packet, mask, RayOrder::coherent, stopped);
        for (std::size_t i = 0; i < count; ++i) is_blocked[begin + i] = stopped[i] ? 1 : 0;
    }
}

void RayScene::first_hits(const RayPacket& rays, std::uint32_t mask, RayOrder order,
                          HitPacket& hits) const {
    TracedPacket packet;
    set_rays(packet, rays, mask);
    data_->device->count(static_cast<std::uint64_t>(lanes::count(rays.active)));
    data_->tree.first_hits(packet, rays.active, order, hits.mesh);
    hits.distance = packet.far;
    hits.u = packet.u;
    hits.v = packet.v;
    hits.triangle = packet.triangle;
}

void RayScene::blocked(const RayPacket& rays, std::uint32_t mask, RayOrder order,
                       M16& is_blocked) const {
    TracedPacket packet;
    set_rays(packet, rays, mask);
    data_->device->count(static_cast<std::uint64_t>(lanes::count(rays.active)));
    data_->tree.blocked(packet, rays.active, order);
    is_blocked = rays.active && packet.far < lanes::F16(0.0F);
}

} // namespace keystead
