// A bench for pictures made on the processor: plain meshes, views, layers.
#pragma once

#include "sim/light/emitter.h"
#include "sim/transport/fill.h"
#include "sim/transport/light_sequence.h"
#include "sim/transport/seen.h"

#include <cstdlib>
#include <memory>
#include <new>
#include <vector>

namespace fill_bench {

using namespace keystead;

inline std::shared_ptr<const Mesh> quad(const Vec3& centre_m, const Vec3& right_m,
                                        const Vec3& up_m) {
    auto mesh = std::make_shared<Mesh>();
    for (const auto& [a, b] : {std::pair{-1, -1}, {1, -1}, {1, 1}, {-1, 1}})
        mesh->positions_m.emplace_back(centre_m + double(a) * right_m + double(b) * up_m);
    mesh->triangles = {{0, 1, 2}, {0, 2, 3}};
    return mesh;
}

/// A layer on its boundary, zero at first.
struct Layer {
    explicit Layer(PictureSize size)
        : count(size.blocks() * layer_block_floats)
        , floats(
              static_cast<float*>(::operator new[](count * sizeof(float), std::align_val_t{64}))) {
        clear();
    }
    ~Layer() { ::operator delete[](floats, std::align_val_t{64}); }
    Layer(const Layer&) = delete;
    Layer& operator=(const Layer&) = delete;
    void clear() { std::fill(floats, floats + count, 0.0F); }
    std::span<float> all() { return {floats, count}; }
    std::vector<float> copy() const { return {floats, floats + count}; }
    glm::vec3 at(PictureSize size, int x, int y) const {
        const std::size_t block =
            static_cast<std::size_t>(y / block_px * size.blocks_across() + x / block_px);
        const float* first = floats + block * layer_block_floats +
                             static_cast<std::size_t>(y % block_px * block_px + x % block_px);
        return {first[0], first[16], first[32]};
    }

    std::size_t count;
    float* floats;
};

/// Sample n of a light.
inline EmitterPoint sample_point(const Emitter& emitter, int n) {
    const glm::dvec2 place = light_sample(static_cast<std::uint32_t>(n));
    return emitter_point(emitter, place.x, place.y);
}

inline void add_samples(const Studio& studio, const SeenPicture& picture, const View& view,
                        int light, int first, int count, const SurfaceAnswer& answer,
                        Layer& layer) {
    const Emitter& emitter = studio.emitters[static_cast<std::size_t>(light)];
    std::vector<EmitterPoint> points;
    for (int n = first; n < first + count; ++n) points.push_back(sample_point(emitter, n));
    add_direct(studio, picture, view, emitter, light, points, answer, layer.all());
}

} // namespace fill_bench
