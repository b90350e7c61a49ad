// Baked light on seen blocks.
#include "sim/transport/fill.h"
#include "sim/transport/seen_lanes.h"

#include <cassert>
#include <numeric>
#include <tbb/parallel_for.h>

namespace keystead {

namespace {

using namespace seen_lanes;

/// The vertices of a part with what one emitter sends them; null: nothing.
struct BakedPart {
    const glm::uvec3* triangles = nullptr;
    const glm::vec3* values = nullptr; ///< of the first vertex
};

struct IndirectJob {
    const SeenPicture::Data* picture;
    std::vector<BakedPart> parts;
    std::size_t stride; ///< values a vertex
    bool specular;
    float* layer;
};

KEYSTEAD_INLINE glm::vec3 vertex_value(const BakedPart& part, std::size_t stride,
                                       glm::uint vertex) {
    return part.values[vertex * stride];
}

/// Irradiance of each lane; 0 where the part is not baked.
KEYSTEAD_INLINE V16 irradiance_of(const IndirectJob& job, const SeenBlock& block,
                                  const SeenPlace& place, bool one_part) {
    V16 first(F16(0.0F)), second(F16(0.0F)), third(F16(0.0F));
    const F16 u = share_of(load_shorts(place.u)), v = share_of(load_shorts(place.v));
    if (one_part && all(load_bits(place.triangle) == U16(place.triangle[0]))) {
        const BakedPart& part = job.parts[block.part[0]];
        if (part.values == nullptr) return first;
        const glm::uvec3 corner = part.triangles[place.triangle[0]];
        first = V16(vertex_value(part, job.stride, corner.x));
        second = V16(vertex_value(part, job.stride, corner.y));
        third = V16(vertex_value(part, job.stride, corner.z));
    } else {
        for (std::size_t i = 0; i < block_lanes; ++i) {
            if (block.part[i] == no_part) continue;
            const BakedPart& part = job.parts[block.part[i]];
            if (part.values == nullptr) continue;
            const glm::uvec3 corner = part.triangles[place.triangle[i]];
            first.set(i, vertex_value(part, job.stride, corner.x));
            second.set(i, vertex_value(part, job.stride, corner.y));
            third.set(i, vertex_value(part, job.stride, corner.z));
        }
    }
    return first * (F16(1.0F) - u - v) + second * u + third * v;
}

/// Answer to light taken for even, as shaders/indirect.frag. `to_eye` of any length.
KEYSTEAD_INLINE V16 sent_back(const IndirectJob& job, const SeenBlock& block,
                              const SeenPlace& place, const TangentBlock* tangents,
                              const V16& to_eye, bool one_part) {
    reflection_lanes::Surface s;
    read_answer(job.picture->table->parts, block, tangents, one_part, s);
    const F16 over_pi(1.0F / static_cast<float>(pi));
    // What a cornea mirrors is drawn for itself.
    const V16 share =
        choose(s.finish == I16(static_cast<int>(Finish::eye)), s.albedo,
               reflection_lanes::even_reflectance(s, normalize(to_eye), job.specular));
    return share * irradiance_of(job, block, place, one_part) * over_pi;
}

KEYSTEAD_SIMD void bounce_row(const IndirectJob& job, int row) {
    const SeenPicture::Data& picture = *job.picture;
    const SeenRow& lists = picture.rows[static_cast<std::size_t>(row)];
    const int across = picture.size.blocks_across();
    for (int column = 0; column < across; ++column) {
        const auto index = static_cast<std::size_t>(row * across + column);
        const BlockFacts& facts = picture.facts[index];
        if (!facts.sees && facts.lens < 0) continue;
        V16 radiance(F16(0.0F));
        if (facts.sees) {
            const SeenBlock& block = picture.blocks[index];
            const M16 sees = load_shorts(block.part) != U16(no_part);
            const TangentBlock* tangents =
                facts.tangents < 0 ? nullptr
                                   : &lists.tangents[static_cast<std::size_t>(facts.tangents)];
            const V16 to_eye = -block_lines(picture.lines, column, row);
            radiance = choose(
                sees,
                sent_back(job, block, picture.places[index], tangents, to_eye, facts.one_part),
                radiance);
        }
        if (facts.lens >= 0) {
            const LensBlock& lens = lists.lenses[static_cast<std::size_t>(facts.lens)];
            const F16 share = mirrored_share(lens, job.specular);
            const M16 sees = load_shorts(lens.mirrored.part) != U16(no_part);
            const V16 to_lens(lanes::load(lens.from_x.data()) - lanes::load(lens.x.data()),
                              lanes::load(lens.from_y.data()) - lanes::load(lens.y.data()),
                              lanes::load(lens.from_z.data()) - lanes::load(lens.z.data()));
            const V16 mirrored =
                choose(sees, sent_back(job, lens.mirrored, lens.place, nullptr, to_lens, false),
                       V16(F16(0.0F)));
            radiance = radiance * (F16(1.0F) - max(share, 0.0F)) + mirrored * lanes::abs(share);
        }
        float* layer = job.layer + index * layer_block_floats;
        lanes::store(layer, lanes::load(layer) + radiance.x);
        lanes::store(layer + 16, lanes::load(layer + 16) + radiance.y);
        lanes::store(layer + 32, lanes::load(layer + 32) + radiance.z);
    }
}

/// A part that has fewer or more vertices than when it was baked gets nothing.
BakedPart baked_part(const ScenePart& part, const IndirectLight& light, int baked,
                     std::size_t emitter) {
    if (baked < 0 || static_cast<std::size_t>(baked) >= light.parts.size()) return {};
    const std::vector<glm::vec3>& values = light.parts[static_cast<std::size_t>(baked)];
    if (part.mesh == nullptr || values.empty() ||
        values.size() != part.mesh->positions_m.size() * light.emitters)
        return {};
    return {part.mesh->triangles.data(), values.data() + emitter};
}

} // namespace

void add_indirect(const Studio& studio, const SeenPicture& picture, const IndirectLight& light,
                  std::span<const int> baked_parts, std::size_t emitter,
                  const SurfaceAnswer& answer, std::span<float> layer) {
    const SeenPicture::Data& data = picture.data();
    assert(layer.size() >= data.size.blocks() * layer_block_floats);
    if (emitter >= light.emitters) return;
    IndirectJob job{&data, {}, light.emitters, answer.specular, layer.data()};
    const std::vector<ScenePart>& parts = studio.scene.parts;
    for (std::size_t i = 0; i < parts.size(); ++i)
        job.parts.push_back(
            baked_part(parts[i], light, i < baked_parts.size() ? baked_parts[i] : -1, emitter));
    tbb::parallel_for(0, data.size.blocks_down(), [&](int row) { bounce_row(job, row); });
}

void add_indirect(const Studio& studio, const SeenPicture& picture, const IndirectLight& light,
                  std::size_t emitter, const SurfaceAnswer& answer, std::span<float> layer) {
    std::vector<int> same(studio.scene.parts.size());
    std::iota(same.begin(), same.end(), 0);
    add_indirect(studio, picture, light, same, emitter, answer, layer);
}

} // namespace keystead
