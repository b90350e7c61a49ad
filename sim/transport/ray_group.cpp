#include "sim/transport/ray_group.h"

#include "sim/transport/ray_packet.h"

#include <algorithm>
#include <cstddef>
#include <cstring>
#include <embree3/rtcore.h>
#include <functional>
#include <thread>
#include <utility>

namespace keystead {

namespace {

static_assert(sizeof(TracedRay) == sizeof(RTCRayHit));
static_assert(offsetof(TracedRay, far) == offsetof(RTCRayHit, ray) + offsetof(RTCRay, tfar));
static_assert(offsetof(TracedRay, triangle) == offsetof(RTCRayHit, hit) + offsetof(RTCHit, primID));
static_assert(sizeof(TracedPacket) == sizeof(RTCRayHit16));
static_assert(offsetof(TracedPacket, far) == offsetof(RTCRay16, tfar));
static_assert(offsetof(TracedPacket, triangle) ==
              offsetof(RTCRayHit16, hit) + offsetof(RTCHit16, primID));
static_assert(RTC_INVALID_GEOMETRY_ID == ray_miss);

RTCDevice device_of(const RayDevice& device) {
    return static_cast<RTCDevice>(device.handle());
}

RTCScene scene_of(void* scene) {
    return static_cast<RTCScene>(scene);
}

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

void attach(RTCDevice device, RTCScene scene, const RayMesh& member) {
    const Mesh& mesh = *member.mesh;
    RTCGeometry geometry = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_TRIANGLE);
    if (!mesh.triangles.empty()) {
        give_vertices(geometry, mesh.positions_m);
        rtcSetSharedGeometryBuffer(geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3,
                                   mesh.triangles.data(), 0, sizeof(glm::uvec3),
                                   mesh.triangles.size());
    }
    rtcSetGeometryMask(geometry, member.mask);
    rtcCommitGeometry(geometry);
    rtcAttachGeometry(scene, geometry);
    rtcReleaseGeometry(geometry);
}

RayBox box_around(RTCScene scene) {
    RTCBounds bounds;
    rtcGetSceneBounds(scene, &bounds);
    RayBox box;
    if (bounds.lower_x > bounds.upper_x) return box;
    box.low_m = {bounds.lower_x, bounds.lower_y, bounds.lower_z};
    box.high_m = {bounds.upper_x, bounds.upper_y, bounds.upper_z};
    const glm::vec3 room = 1e-4F + 1e-5F * glm::max(glm::abs(box.low_m), glm::abs(box.high_m));
    box.low_m -= room;
    box.high_m += room;
    return box;
}

RTCIntersectContext make_context(RayOrder order) {
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    context.flags = order == RayOrder::coherent ? RTC_INTERSECT_CONTEXT_FLAG_COHERENT
                                                : RTC_INTERSECT_CONTEXT_FLAG_INCOHERENT;
    return context;
}

} // namespace

RayDevice::RayDevice()
    : handle_(rtcNewDevice(nullptr)) {}

RayDevice::~RayDevice() {
    rtcReleaseDevice(static_cast<RTCDevice>(handle_));
}

void RayDevice::count(std::uint64_t rays) const {
    const std::size_t thread = std::hash<std::thread::id>{}(std::this_thread::get_id());
    stripes_[thread % stripes_.size()].rays.fetch_add(rays, std::memory_order_relaxed);
}

std::uint64_t RayDevice::counted() const {
    std::uint64_t sum = 0;
    for (const Stripe& stripe : stripes_) sum += stripe.rays.load(std::memory_order_relaxed);
    return sum;
}

RayGroup::RayGroup(std::shared_ptr<const RayDevice> device, std::vector<RayMesh> members)
    : device_(std::move(device))
    , members_(std::move(members)) {
    RTCScene scene = rtcNewScene(device_of(*device_));
    scene_ = scene;
    rtcSetSceneFlags(scene, RTC_SCENE_FLAG_ROBUST);
    for (const RayMesh& member : members_) {
        attach(device_of(*device_), scene, member);
        mask_ |= member.mask;
    }
    rtcCommitScene(scene);
    box_ = box_around(scene);
}

RayGroup::~RayGroup() {
    rtcReleaseScene(scene_of(scene_));
}

void RayGroup::first_hit(TracedRay& ray) const {
    RTCIntersectContext context = make_context(RayOrder::incoherent);
    rtcIntersect1(scene_of(scene_), &context, reinterpret_cast<RTCRayHit*>(&ray));
}

void RayGroup::blocked(TracedRay& ray) const {
    RTCIntersectContext context = make_context(RayOrder::incoherent);
    rtcOccluded1(scene_of(scene_), &context, reinterpret_cast<RTCRay*>(&ray));
}

void RayGroup::first_hits(TracedPacket& rays, const lanes::M16& active, RayOrder order) const {
    RTCIntersectContext context = make_context(order);
    alignas(64) int valid[lanes::lane_count];
    std::memcpy(valid, &active, sizeof valid);
    rtcIntersect16(valid, scene_of(scene_), &context, reinterpret_cast<RTCRayHit16*>(&rays));
}

void RayGroup::blocked(TracedPacket& rays, const lanes::M16& active, RayOrder order) const {
    RTCIntersectContext context = make_context(order);
    alignas(64) int valid[lanes::lane_count];
    std::memcpy(valid, &active, sizeof valid);
    rtcOccluded16(valid, scene_of(scene_), &context, reinterpret_cast<RTCRay16*>(&rays));
}

} // namespace keystead
