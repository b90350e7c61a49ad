#include "sim/transport/ray_scene.h"

#include "sim/transport/ray_packet.h"

#include <algorithm>
#include <cassert>
#include <cstring>
#include <embree3/rtcore.h>
#include <limits>
#include <utility>
#include <vector>

namespace keystead {

namespace {

constexpr std::size_t packet_size = 16;

struct Entry {
    std::shared_ptr<const Mesh> mesh;
    RTCGeometry geometry = nullptr;
};

/// Embree reads 16 bytes at every 12-byte vertex, so it may look at our array only where memory
/// beyond the last vertex belongs to the array too; otherwise it gets a padded copy.
bool readable_past_the_end(const std::vector<glm::vec3>& positions) {
    return positions.capacity() > positions.size();
}

void give_vertices(RTCGeometry geometry, const std::vector<glm::vec3>& positions) {
    if (readable_past_the_end(positions)) {
        rtcSetSharedGeometryBuffer(geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3,
                                   positions.data(), 0, sizeof(glm::vec3), positions.size());
        return;
    }
    void* copy = rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3,
                                         sizeof(glm::vec3), positions.size());
    std::copy(positions.begin(), positions.end(), static_cast<glm::vec3*>(copy));
}

RTCGeometry make_geometry(RTCDevice device, const Mesh& mesh, std::uint32_t mask) {
    RTCGeometry geometry = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_TRIANGLE);
    if (!mesh.triangles.empty()) {
        give_vertices(geometry, mesh.positions_m);
        rtcSetSharedGeometryBuffer(geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3,
                                   mesh.triangles.data(), 0, sizeof(glm::uvec3),
                                   mesh.triangles.size());
    }
    rtcSetGeometryMask(geometry, mask);
    rtcCommitGeometry(geometry);
    return geometry;
}

float as_float(double value) {
    return static_cast<float>(value);
}

RTCRay make_ray(const RayQuery& query, std::uint32_t mask) {
    RTCRay ray{};
    ray.org_x = as_float(query.origin_m.x);
    ray.org_y = as_float(query.origin_m.y);
    ray.org_z = as_float(query.origin_m.z);
    ray.dir_x = as_float(query.direction.x);
    ray.dir_y = as_float(query.direction.y);
    ray.dir_z = as_float(query.direction.z);
    ray.tnear = as_float(query.start_m);
    ray.tfar = as_float(query.end_m);
    ray.mask = mask;
    return ray;
}

/// Ray number `i` of a packet; lanes that are switched off keep whatever they hold.
template <class Packet>
void set_lane(Packet& packet, std::size_t i, const RTCRay& ray) {
    packet.org_x[i] = ray.org_x;
    packet.org_y[i] = ray.org_y;
    packet.org_z[i] = ray.org_z;
    packet.dir_x[i] = ray.dir_x;
    packet.dir_y[i] = ray.dir_y;
    packet.dir_z[i] = ray.dir_z;
    packet.tnear[i] = ray.tnear;
    packet.tfar[i] = ray.tfar;
    packet.mask[i] = ray.mask;
    packet.time[i] = 0.0F;
    packet.id[i] = static_cast<unsigned>(i);
    packet.flags[i] = 0;
}

/// The part of a segment that lies `margin_m` inside both ends; empty where nothing is left.
RayQuery inner_part(const Segment& segment, double margin_m) {
    const Vec3 way = segment.to_m - segment.from_m;
    const double length = glm::length(way);
    RayQuery query{segment.from_m, Vec3(0.0, 0.0, 1.0), margin_m, length - margin_m};
    if (length > 0.0) query.direction = way / length;
    return query;
}

/// A packet's rays as Embree wants them.
template <class Packet>
void set_rays(Packet& to, const RayPacket& from, std::uint32_t mask) {
    lanes::store(to.org_x, from.origin_m.x);
    lanes::store(to.org_y, from.origin_m.y);
    lanes::store(to.org_z, from.origin_m.z);
    lanes::store(to.dir_x, from.direction.x);
    lanes::store(to.dir_y, from.direction.y);
    lanes::store(to.dir_z, from.direction.z);
    lanes::store(to.tnear, from.start);
    lanes::store(to.tfar, from.end);
    for (std::size_t i = 0; i < packet_size; ++i) {
        to.time[i] = 0.0F;
        to.mask[i] = mask;
        to.id[i] = static_cast<unsigned>(i);
        to.flags[i] = 0;
    }
}

RTCIntersectContextFlags flags_of(RayOrder order) {
    return order == RayOrder::coherent ? RTC_INTERSECT_CONTEXT_FLAG_COHERENT
                                       : RTC_INTERSECT_CONTEXT_FLAG_INCOHERENT;
}

RTCIntersectContext make_context(RTCIntersectContextFlags flags) {
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    context.flags = flags;
    return context;
}

} // namespace

struct RayScene::Data {
    RTCDevice device = rtcNewDevice(nullptr);
    RTCScene scene = rtcNewScene(device);
    std::vector<Entry> entries; ///< by id

    Data() { rtcSetSceneFlags(scene, RTC_SCENE_FLAG_ROBUST); }
    Data(const Data&) = delete;
    Data& operator=(const Data&) = delete;
    ~Data() {
        for (const Entry& entry : entries)
            if (entry.geometry != nullptr) rtcReleaseGeometry(entry.geometry);
        rtcReleaseScene(scene);
        rtcReleaseDevice(device);
    }

    /// Embree's own normal is single precision; the winding of the mesh gives it exactly.
    RayHit hit_of(std::uint32_t id, std::uint32_t triangle, float distance, float u,
                  float v) const {
        const Mesh& mesh = *entries[id].mesh;
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

RayScene::RayScene()
    : data_(std::make_unique<Data>()) {}
RayScene::~RayScene() = default;
RayScene::RayScene(RayScene&&) noexcept = default;
RayScene& RayScene::operator=(RayScene&&) noexcept = default;

std::uint32_t RayScene::add(std::shared_ptr<const Mesh> mesh, std::uint32_t mask) {
    assert(mesh != nullptr);
    RTCGeometry geometry = make_geometry(data_->device, *mesh, mask);
    const std::uint32_t id = rtcAttachGeometry(data_->scene, geometry);
    if (data_->entries.size() <= id) data_->entries.resize(id + 1);
    data_->entries[id] = {std::move(mesh), geometry};
    return id;
}

void RayScene::remove(std::uint32_t mesh) {
    assert(mesh < data_->entries.size() && data_->entries[mesh].geometry != nullptr);
    Entry& entry = data_->entries[mesh];
    rtcDetachGeometry(data_->scene, mesh);
    rtcReleaseGeometry(entry.geometry);
    entry = {};
}

void RayScene::commit() {
    rtcCommitScene(data_->scene);
}

const Mesh& RayScene::mesh(std::uint32_t id) const {
    assert(id < data_->entries.size() && data_->entries[id].mesh != nullptr);
    return *data_->entries[id].mesh;
}

bool RayScene::first_hit(const Vec3& origin_m, const Vec3& direction, double start_m, double end_m,
                         std::uint32_t mask, RayHit& hit) const {
    RTCIntersectContext context = make_context(RTC_INTERSECT_CONTEXT_FLAG_INCOHERENT);
    RTCRayHit ray{make_ray({origin_m, direction, start_m, end_m}, mask), {}};
    ray.hit.geomID = RTC_INVALID_GEOMETRY_ID;
    rtcIntersect1(data_->scene, &context, &ray);
    if (ray.hit.geomID == RTC_INVALID_GEOMETRY_ID) return false;
    hit = data_->hit_of(ray.hit.geomID, ray.hit.primID, ray.ray.tfar, ray.hit.u, ray.hit.v);
    return true;
}

bool RayScene::blocked(const Vec3& from_m, const Vec3& to_m, std::uint32_t mask,
                       double margin_m) const {
    RTCIntersectContext context = make_context(RTC_INTERSECT_CONTEXT_FLAG_INCOHERENT);
    RTCRay ray = make_ray(inner_part({from_m, to_m}, margin_m), mask);
    if (ray.tfar <= ray.tnear) return false;
    rtcOccluded1(data_->scene, &context, &ray);
    return ray.tfar < 0.0F; // Embree marks an occluded ray with minus infinity.
}

void RayScene::first_hits(std::span<const RayQuery> rays, std::uint32_t mask,
                          std::span<RayHit> hits) const {
    assert(hits.size() >= rays.size());
    RTCIntersectContext context = make_context(RTC_INTERSECT_CONTEXT_FLAG_COHERENT);
    RTCRayHit16 packet{};
    alignas(64) int valid[packet_size];
    for (std::size_t begin = 0; begin < rays.size(); begin += packet_size) {
        const std::size_t count = std::min(packet_size, rays.size() - begin);
        for (std::size_t i = 0; i < packet_size; ++i) {
            valid[i] = i < count ? -1 : 0;
            packet.hit.geomID[i] = RTC_INVALID_GEOMETRY_ID;
            if (i < count) set_lane(packet.ray, i, make_ray(rays[begin + i], mask));
        }
        rtcIntersect16(valid, data_->scene, &context, &packet);
        for (std::size_t i = 0; i < count; ++i) {
            RayHit& hit = hits[begin + i];
            if (packet.hit.geomID[i] == RTC_INVALID_GEOMETRY_ID) {
                hit = {};
                hit.mesh = ray_miss;
            } else {
                hit = data_->hit_of(packet.hit.geomID[i], packet.hit.primID[i], packet.ray.tfar[i],
                                    packet.hit.u[i], packet.hit.v[i]);
            }
        }
    }
}

void RayScene::blocked_many(std::span<const Segment> segments, std::uint32_t mask,
                            std::span<std::uint8_t> is_blocked, double margin_m) const {
    assert(is_blocked.size() >= segments.size());
    RTCIntersectContext context = make_context(RTC_INTERSECT_CONTEXT_FLAG_COHERENT);
    RTCRay16 packet{};
    alignas(64) int valid[packet_size];
    for (std::size_t begin = 0; begin < segments.size(); begin += packet_size) {
        const std::size_t count = std::min(packet_size, segments.size() - begin);
        for (std::size_t i = 0; i < packet_size; ++i) {
            valid[i] = 0;
            if (i >= count) continue;
            const RTCRay ray = make_ray(inner_part(segments[begin + i], margin_m), mask);
            if (ray.tfar > ray.tnear) valid[i] = -1;
            set_lane(packet, i, ray);
        }
        rtcOccluded16(valid, data_->scene, &context, &packet);
        for (std::size_t i = 0; i < count; ++i)
            is_blocked[begin + i] = valid[i] != 0 && packet.tfar[i] < 0.0F ? 1 : 0;
    }
}

void RayScene::first_hits(const RayPacket& rays, std::uint32_t mask, RayOrder order,
                          HitPacket& hits) const {
    RTCIntersectContext context = make_context(flags_of(order));
    RTCRayHit16 packet;
    set_rays(packet.ray, rays, mask);
    for (unsigned& mesh : packet.hit.geomID) mesh = RTC_INVALID_GEOMETRY_ID;
    static_assert(RTC_INVALID_GEOMETRY_ID == ray_miss);
    alignas(64) int valid[packet_size];
    std::memcpy(valid, &rays.active, sizeof valid);
    rtcIntersect16(valid, data_->scene, &context, &packet);
    hits.distance = lanes::load(packet.ray.tfar);
    hits.u = lanes::load(packet.hit.u);
    hits.v = lanes::load(packet.hit.v);
    std::memcpy(&hits.mesh, packet.hit.geomID, sizeof hits.mesh);
    std::memcpy(&hits.triangle, packet.hit.primID, sizeof hits.triangle);
}

lanes::M16 RayScene::blocked(const RayPacket& rays, std::uint32_t mask, RayOrder order) const {
    RTCIntersectContext context = make_context(flags_of(order));
    RTCRay16 packet;
    set_rays(packet, rays, mask);
    alignas(64) int valid[packet_size];
    std::memcpy(valid, &rays.active, sizeof valid);
    rtcOccluded16(valid, data_->scene, &context, &packet);
    return rays.active && lanes::load(packet.tfar) < lanes::F16(0.0F);
}

} // namespace keystead
