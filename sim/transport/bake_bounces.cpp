#include "sim/transport/bake_bounces.h"

#include <tbb/parallel_for.h>

namespace keystead {

namespace {

using lanes::F16;
using lanes::lane_count;
using light_path::Landings;

constexpr float buried_m = 0.004F; // skin under cloth has something this near all round
constexpr float buried_weight = 1e-4F;

/// By part: three rows (red, green, blue) of one value an emitter for each point.
using Values = std::vector<std::vector<float>>;

Values no_values(const BakeState& state) {
    Values values(state.parts.size());
    for (std::size_t p = 0; p < values.size(); ++p)
        values[p].resize(state.parts[p].layout->points.size() * 3 * state.emitters.size());
    return values;
}

template <class Do>
void for_blocks(const BakeState& state, Do&& act) {
    for (std::size_t p = 0; p < state.parts.size(); ++p)
        tbb::parallel_for(std::size_t{0}, state.parts[p].layout->blocks(),
                          [&](std::size_t b) { act(p, b); });
}

/// How many of a block's points there are.
std::size_t points_in(const BakePart& part, std::size_t block) {
    return std::min(lane_count, part.layout->points.size() - block * lane_count);
}

/// What a block's points get of the first bounce: from the lights by way of where paths landed.
KEYSTEAD_SIMD void first_bounce(const BakeState& state, const BakePart& part, std::size_t block,
                                std::size_t paths, float* values) {
    const std::size_t emitters = state.emitters.size();
    std::vector<float> sums(3 * emitters * lane_count);
    const auto add = [&](std::size_t k, const F16& value) __attribute__((always_inline)) {
        float* sum = sums.data() + k * lane_count;
        lanes::store(sum, lanes::load(sum) + value);
    };
    for (std::size_t path = 0; path < paths; ++path) {
        const std::size_t packet = block * state.paths + path;
        const Landings& landings = part.landings[packet];
        for (std::size_t e = 0; e < emitters; ++e) {
            const F16 direct = lanes::load(&part.direct[(packet * emitters + e) * lane_count]);
            add(e, landings.albedo.x * direct);
            add(emitters + e, landings.albedo.y * direct);
            add(2 * emitters + e, landings.albedo.z * direct);
        }
    }
    const float share = 1.0F / static_cast<float>(paths);
    const std::size_t points = points_in(part, block);
    for (std::size_t k = 0; k < 3 * emitters; ++k)
        for (std::size_t i = 0; i < points; ++i)
            values[i * 3 * emitters + k] = sums[k * lane_count + i] * share;
}

/// What a block's points get of one more bounce, from what all points got of the last.
KEYSTEAD_SIMD void next_bounce(const BakeState& state, const BakePart& part, std::size_t block,
                               std::size_t paths, const Values& last, float* values) {
    const std::size_t emitters = state.emitters.size(), width = 3 * emitters;
    const std::size_t points = points_in(part, block);
    const float share = 1.0F / static_cast<float>(paths);
    for (std::size_t k = 0; k < points * width; ++k) values[k] = 0.0F;
    for (std::size_t path = 0; path < paths; ++path) {
        const Landings& landings = part.landings[block * state.paths + path];
        const lanes::V16 albedo = landings.albedo * share;
        for (std::size_t i = 0; i < points; ++i) {
            if (landings.part[i] == ray_miss) continue;
            const float* from = last[landings.part[i]].data() + landings.point[i] * width;
            float* to = values + i * width;
            const glm::vec3 colour = albedo[i];
            for (std::size_t e = 0; e < emitters; ++e) to[e] += colour.r * from[e];
            for (std::size_t e = emitters; e < 2 * emitters; ++e) to[e] += colour.g * from[e];
            for (std::size_t e = 2 * emitters; e < width; ++e) to[e] += colour.b * from[e];
        }
    }
}

/// Of a part's points: buried ones hardly count.
std::vector<float> weights_of(const BakeState& state, const BakePart& part, std::size_t paths) {
    std::vector<float> weights(part.layout->points.size());
    for (std::size_t i = 0; i < weights.size(); ++i) {
        std::size_t near = 0;
        for (std::size_t path = 0; path < paths; ++path)
            if (part.landings[i / lane_count * state.paths + path].distance_m[i % lane_count] <
                buried_m)
                ++near;
        weights[i] = near > paths * 6 / 10 ? buried_weight : 1.0F;
    }
    return weights;
}

/// What vertices take of the points around them.
KEYSTEAD_SIMD void share_out(const BakeLayout& layout, const std::vector<float>& weights,
                             const std::vector<float>& values, std::size_t emitters,
                             std::size_t begin, std::size_t end, glm::vec3* result) {
    const std::size_t width = 3 * emitters;
    std::vector<float> sum(width);
    for (std::size_t v = begin; v < end; ++v) {
        const std::span<const BakeShare> shares = layout.shares.of(v);
        float all = 0.0F;
        for (const BakeShare& share : shares) all += share.share * weights[share.point];
        for (float& value : sum) value = 0.0F;
        for (const BakeShare& share : shares) {
            const float part = share.share * weights[share.point] / all;
            const float* from = values.data() + share.point * width;
            for (std::size_t k = 0; k < width; ++k) sum[k] += part * from[k];
        }
        for (std::size_t e = 0; e < emitters; ++e)
            result[v * emitters + e] = {sum[e], sum[emitters + e], sum[2 * emitters + e]};
    }
}

std::vector<glm::vec3> at_vertices(const BakeState& state, const BakePart& part, std::size_t paths,
                                   const std::vector<float>& values) {
    const BakeLayout& layout = *part.layout;
    const std::size_t emitters = state.emitters.size(), vertices = layout.shares.vertices();
    const std::vector<float> weights = weights_of(state, part, paths);
    std::vector<glm::vec3> result(vertices * emitters);
    constexpr std::size_t run = 512;
    tbb::parallel_for(std::size_t{0}, (vertices + run - 1) / run, [&](std::size_t r) {
        share_out(layout, weights, values, emitters, r * run, std::min(vertices, (r + 1) * run),
                  result.data());
    });
    return result;
}

} // namespace

IndirectLight bounced_light(const BakeState& state, std::size_t paths, int bounces) {
    const std::size_t width = 3 * state.emitters.size();
    const auto first_of = [&](Values& values, std::size_t p, std::size_t block) {
        return values[p].data() + block * lane_count * width;
    };
    Values last = no_values(state);
    for_blocks(state, [&](std::size_t p, std::size_t b) {
        first_bounce(state, state.parts[p], b, paths, first_of(last, p, b));
    });
    Values sum = last, next = no_values(state);
    for (int bounce = 1; bounce < bounces; ++bounce) {
        for_blocks(state, [&](std::size_t p, std::size_t b) {
            float* values = first_of(next, p, b);
            next_bounce(state, state.parts[p], b, paths, last, values);
            float* sums = first_of(sum, p, b);
            for (std::size_t k = 0; k < points_in(state.parts[p], b) * width; ++k)
                sums[k] += values[k];
        });
        std::swap(last, next);
    }
    IndirectLight light;
    light.emitters = state.emitters.size();
    for (std::size_t p = 0; p < sum.size(); ++p)
        light.parts.push_back(at_vertices(state, state.parts[p], paths, sum[p]));
    return light;
}

} // namespace keystead
