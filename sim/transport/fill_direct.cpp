// Direct light on seen blocks.
#include "sim/light/emission_lanes.h"
#include "sim/transport/fill.h"
#include "sim/transport/seen_lanes.h"

#include <cassert>
#include <tbb/parallel_for.h>
#include <vector>

namespace keystead {

namespace {

using namespace seen_lanes;
using reflection_lanes::Surface;

/// What throws shadows: faces of lights and grids are in the emission itself, strands are too fine.
constexpr std::uint32_t blockers = ray_mask::casters | ray_mask::background;
/// Shadow rays start this far along the normal, and end this share short of the light's point.
constexpr float lift_m = 2e-4F, end_share = 1.0F - 5e-4F;
/// Skin whose light wraps around starts outside itself.
constexpr float wrapped_lift_m = 9e-4F;

/// A point of the face, in single precision.
struct LitPoint {
    glm::vec3 position{0.0F}, normal{0.0F};
    float area = 0.0F, exitance = 1.0F;
};

struct DirectJob {
    const SeenPicture::Data* picture;
    const RayScene* rays;
    emission_lanes::EmitterFace face;
    const DirectionTable* measured; ///< null: the face's profile holds
    int light;
    std::vector<LitPoint> points;
    SurfaceAnswer answer;
    float* layer;
    bool fresh; ///< what the layer holds does not count
};

/// A block about to be lit: where it is, and where the rest is to be read from.
struct Lit16 {
    V16 position, geometric;
    V16 to_eye; ///< not of unit length
    M16 sees;
    const SeenBlock* block;
    const TangentBlock* tangents; ///< null: no hair
    bool one_part;
};

KEYSTEAD_INLINE F16 per_lumen(const DirectJob& job, const V16& direction) {
    if (job.measured == nullptr) return F16(0.0F);
    return lane_intensity(job.face, *job.measured, direction);
}

KEYSTEAD_INLINE void read_surface(const DirectJob& job, const Lit16& lit, Surface& s) {
    const SeenBlock& block = *lit.block;
    s.position = lit.position;
    s.geometric = lit.geometric;
    read_answer(job.picture->table->parts, block, lit.tangents, lit.one_part, s);
}

/// The light's own face as the eye sees it.
KEYSTEAD_INLINE F16 own_face(const DirectJob& job, const Surface& s, const V16& from_surface) {
    const F16 away = length(from_surface);
    const V16 v = from_surface / away;
    const F16 footprint = away * job.picture->lines.pixel_slope;
    return emission_lanes::seen_radiance(job.face, s.position, v, footprint, per_lumen(job, v)) *
           static_cast<float>(job.points.size());
}

/// The face mirrored in the cornea.
KEYSTEAD_INLINE F16 in_cornea(const DirectJob& job, const Surface& s, const V16& v) {
    const V16 toward = reflect(-v, s.normal);
    const M16 outward =
        s.finish == I16(static_cast<int>(Finish::eye)) && dot(s.geometric, toward) > F16(0.0F);
    if (!any(outward)) return F16(0.0F);
    const F16 fresnel =
        s.f0 + (F16(1.0F) - s.f0) * reflection_lanes::grazing(max(dot(s.normal, v), 0.0F));
    const F16 sent = emission_lanes::mirrored_face(job.face, s.position, toward, s.roughness,
                                                   per_lumen(job, -toward));
    return choose(outward, fresnel * sent, F16(0.0F));
}

/// Light of one point that leaves for each lane: which lanes it can reach, and irradiance on a
/// surface that faces it.
struct Arriving {
    V16 toward; ///< to the point, not of unit length
    V16 direction;
    F16 irradiance;
    M16 reaches;
};

KEYSTEAD_INLINE Arriving arriving_from(const DirectJob& job, const LitPoint& point,
                                       const Lit16& lit, const F16& horizon) {
    Arriving light;
    light.toward = V16(point.position) - lit.position;
    const F16 d2 = dot(light.toward, light.toward);
    light.direction = light.toward * inversesqrt(d2);
    light.reaches = lit.sees && dot(lit.geometric, light.direction) > horizon;
    const F16 leaving = -dot(V16(point.normal), light.direction);
    light.reaches = light.reaches && leaving > F16(0.0F);
    light.irradiance = F16(0.0F);
    if (!any(light.reaches)) return light;
    const V16 away = -light.direction;
    const F16 sent =
        emission_lanes::sample_radiance(job.face, V16(point.position), V16(point.normal),
                                        F16(point.exitance), away, per_lumen(job, away));
    light.irradiance = sent * leaving * point.area / d2;
    light.reaches = light.reaches && sent > F16(0.0F);
    return light;
}

KEYSTEAD_INLINE M16 unblocked(const DirectJob& job, const Lit16& lit, const Arriving& light,
                              const F16& lift, RayOrder order) {
    // From the light: rays from one place are the most alike.
    const RayPacket packet{lit.position + light.toward, lit.geometric * lift - light.toward,
                           F16(1.0F - end_share), F16(1.0F), light.reaches};
    M16 blocked;
    job.rays->blocked(packet, blockers, order, blocked);
    return light.reaches && !blocked;
}

/// Radiance toward the eye from all points of the light.
KEYSTEAD_INLINE V16 lit_block(const DirectJob& job, const Lit16& lit, bool special,
                              RayOrder order) {
    V16 sum(F16(0.0F));
    Surface s;
    V16 v;
    bool read = false;
    F16 horizon(0.0F), lift(lift_m), cornea(0.0F);
    M16 dark(false); // lanes of the light's own face
    const auto read_rest = [&]() __attribute__((always_inline)) {
        if (read) return;
        read = true;
        read_surface(job, lit, s);
        v = normalize(lit.to_eye);
    };
    if (special || job.answer.skin_wrap) {
        read_rest();
        dark = lit.sees && s.emitting_light == I16(job.light);
        if (any(dark)) sum = choose(dark, V16(own_face(job, s, lit.to_eye)), sum);
        if (job.answer.specular) cornea = in_cornea(job, s, v);
        if (job.answer.skin_wrap) {
            const M16 skin = s.finish == I16(static_cast<int>(Finish::skin));
            horizon = choose(skin, F16(-0.1F), horizon);
            lift = choose(skin, F16(wrapped_lift_m), lift);
        }
    }
    for (const LitPoint& point : job.points) {
        Arriving light = arriving_from(job, point, lit, horizon);
        light.reaches = light.reaches && !dark;
        if (!any(light.reaches)) continue;
        const M16 reached = unblocked(job, lit, light, lift, order);
        if (!any(reached)) continue;
        read_rest();
        const V16 answer =
            reflection_lanes::reflection(s, v, light.direction, job.answer.specular,
                                         job.answer.skin_wrap, lit.tangents != nullptr);
        sum += choose(reached, answer * light.irradiance + V16(cornea), V16(F16(0.0F)));
    }
    if (job.answer.ambient > 0.0F) {
        read_rest();
        const F16 share = F16(static_cast<float>(job.points.size()) * job.answer.ambient /
                              static_cast<float>(pi)) *
                          (F16(0.75F) + s.normal.y * 0.25F);
        sum += choose(lit.sees && !dark, s.albedo * share, V16(F16(0.0F)));
    }
    return sum;
}

KEYSTEAD_INLINE void add_to(float* layer, const V16& radiance) {
    lanes::store(layer, lanes::load(layer) + radiance.x);
    lanes::store(layer + 16, lanes::load(layer + 16) + radiance.y);
    lanes::store(layer + 32, lanes::load(layer + 32) + radiance.z);
}

KEYSTEAD_INLINE void put_into(float* layer, const V16& radiance) {
    lanes::store(layer, radiance.x);
    lanes::store(layer + 16, radiance.y);
    lanes::store(layer + 32, radiance.z);
}

/// Dims what is behind lenses and adds what they mirror.
KEYSTEAD_SIMD void light_lens(const DirectJob& job, const LensBlock& lens, V16& radiance) {
    const F16 share = mirrored_share(lens, job.answer.specular);
    Lit16 lit;
    lit.position = {lanes::load(lens.x.data()), lanes::load(lens.y.data()),
                    lanes::load(lens.z.data())};
    lit.geometric = from_octahedral(load_bits(lens.mirrored.geometric));
    lit.to_eye = V16(lanes::load(lens.from_x.data()), lanes::load(lens.from_y.data()),
                     lanes::load(lens.from_z.data())) -
                 lit.position;
    lit.sees = load_shorts(lens.mirrored.part) != U16(no_part);
    lit.to_eye = choose(lit.sees, lit.to_eye, V16(0.0F, 0.0F, 1.0F));
    lit.block = &lens.mirrored;
    lit.tangents = nullptr;
    lit.one_part = false;
    radiance = radiance * (F16(1.0F) - max(share, 0.0F)) +
               lit_block(job, lit, true, RayOrder::incoherent) * lanes::abs(share);
}

KEYSTEAD_SIMD void light_row(const DirectJob& job, int row) {
    const SeenPicture::Data& picture = *job.picture;
    const SeenRow& lists = picture.rows[static_cast<std::size_t>(row)];
    const int across = picture.size.blocks_across();
    for (int column = 0; column < across; ++column) {
        const auto index = static_cast<std::size_t>(row * across + column);
        const BlockFacts& facts = picture.facts[index];
        const bool empty = !facts.sees && facts.lens < 0;
        if (empty && !job.fresh) continue;
        V16 radiance(F16(0.0F));
        if (facts.sees) {
            const SeenBlock& block = picture.blocks[index];
            Lit16 lit;
            const F16 distance = lanes::load(block.distance);
            const V16 line = block_lines(picture.lines, column, row);
            lit.position = V16(picture.lines.eye) + line * distance;
            lit.geometric = from_octahedral(load_bits(block.geometric));
            lit.sees = distance > F16(0.0F);
            lit.to_eye = -line * choose(lit.sees, distance, F16(1.0F));
            lit.block = &block;
            lit.tangents = facts.tangents >= 0
                               ? &lists.tangents[static_cast<std::size_t>(facts.tangents)]
                               : nullptr;
            lit.one_part = facts.one_part;
            radiance = lit_block(job, lit, facts.shining || facts.eyes, RayOrder::coherent);
        }
        if (facts.lens >= 0)
            light_lens(job, lists.lenses[static_cast<std::size_t>(facts.lens)], radiance);
        float* const layer = job.layer + index * layer_block_floats;
        if (job.fresh)
            put_into(layer, radiance);
        else
            add_to(layer, radiance);
    }
}

} // namespace

void add_direct(const Studio& studio, const SeenPicture& picture, const View&,
                const Emitter& emitter, int light_index, std::span<const EmitterPoint> points,
                const SurfaceAnswer& answer, std::span<float> layer, bool fresh) {
    const SeenPicture::Data& data = picture.data();
    assert(layer.size() >= data.size.blocks() * layer_block_floats);
    DirectJob job{&data,
                  studio.rays.get(),
                  lane_face(emitter),
                  emitter.measured.get(),
                  light_index,
                  {},
                  answer,
                  layer.data(),
                  fresh};
    for (const EmitterPoint& point : points)
        job.points.push_back({glm::vec3(point.position_m), glm::vec3(point.normal),
                              static_cast<float>(point.area_m2),
                              static_cast<float>(point.relative_exitance)});
    tbb::parallel_for(0, data.size.blocks_down(), [&](int row) { light_row(job, row); });
}

} // namespace keystead
