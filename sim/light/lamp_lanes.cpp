#include "sim/light/lamp_lanes.h"

#include "sim/light/emission_lanes.h"
#include "sim/transport/ray_packet.h"

#include <cassert>

namespace keystead {

namespace {

using lanes::F16;
using lanes::M16;
using lanes::V16;

/// Rays keep this far from both ends.
constexpr float margin_m = 1e-4F;

/// A receptor and a lamp's face, in single precision.
struct ReadingJob {
    emission_lanes::EmitterFace face;
    const DirectionTable* measured; ///< null: the face's profile holds
    float exitance;
    glm::vec3 position, facing;
    bool dome;
    std::uint32_t blockers;
    const RayScene* rays;
};

KEYSTEAD_INLINE F16 response(const ReadingJob& job, const F16& cosine) {
    return job.dome ? (F16(1.0F) + cosine) * 0.5F : max(cosine, F16(0.0F));
}

} // namespace

/// Outside the unnamed namespace: functions compiled for several machines need a public name.
KEYSTEAD_SIMD void read_block(const ReadingJob& job, const PointBlock& block, float* shares) {
    const V16 toward = block.position_m - V16(job.position);
    const F16 d2 = max(dot(toward, toward), F16(1e-12F));
    const F16 distance = sqrt(d2);
    const V16 direction = toward / distance, away = -direction;
    const F16 leaving = dot(block.normal, away);
    const F16 weight = response(job, dot(V16(job.facing), direction));
    const M16 counts = leaving > F16(0.0F) && weight > F16(0.0F) && block.area_m2 > F16(0.0F);
    F16 share(0.0F);
    if (any(counts)) {
        F16 per_lumen(0.0F);
        if (job.measured != nullptr) per_lumen = lane_intensity(job.face, *job.measured, away);
        const F16 sent = emission_lanes::sample_radiance(job.face, block.position_m, block.normal,
                                                         block.relative_exitance, away, per_lumen);
        const F16 open = sent * job.exitance * leaving * weight * block.area_m2 / d2;
        M16 seen = counts && open > F16(0.0F);
        if (job.rays != nullptr && any(seen)) {
            const RayPacket packet{V16(job.position), direction, F16(margin_m), distance - margin_m,
                                   seen && distance > F16(2.0F * margin_m)};
            M16 blocked;
            job.rays->blocked(packet, job.blockers, RayOrder::coherent, blocked);
            seen = seen && !blocked;
        }
        share = choose(seen, open, F16(0.0F));
    }
    lanes::store(shares, share);
}

std::vector<PointBlock> blocks_of(std::span<const EmitterPoint> points) {
    std::vector<PointBlock> blocks((points.size() + lanes::lane_count - 1) / lanes::lane_count);
    for (std::size_t i = 0; i < blocks.size() * lanes::lane_count; ++i) {
        const EmitterPoint& point = points[std::min(i, points.size() - 1)];
        PointBlock& block = blocks[i / lanes::lane_count];
        const std::size_t lane = i % lanes::lane_count;
        block.position_m.set(lane, glm::vec3(point.position_m));
        block.normal.set(lane, glm::vec3(point.normal));
        block.area_m2.set(lane, i < points.size() ? static_cast<float>(point.area_m2) : 0.0F);
        block.relative_exitance.set(lane, static_cast<float>(point.relative_exitance));
    }
    return blocks;
}

void seen_shares(const Emitter& emitter, std::span<const PointBlock> points, const Probe& probe,
                 const RayScene* rays, std::span<float> shares) {
    assert(shares.size() >= points.size() * lanes::lane_count);
    const ReadingJob job{lane_face(emitter),
                         emitter.measured.get(),
                         static_cast<float>(emitter.exitance),
                         glm::vec3(probe.position_m),
                         glm::vec3(probe.facing),
                         probe.receptor == Receptor::dome,
                         probe.blockers,
                         rays};
    for (std::size_t b = 0; b < points.size(); ++b)
        read_block(job, points[b], shares.data() + b * lanes::lane_count);
}

double seen_exposure(const Emitter& emitter, std::span<const PointBlock> points, const Probe& probe,
                     const RayScene* rays) {
    std::vector<float> shares(points.size() * lanes::lane_count);
    seen_shares(emitter, points, probe, rays, shares);
    double sum = 0.0;
    for (const float share : shares) sum += static_cast<double>(share);
    return sum;
}

} // namespace keystead
