// The lights' layers and how they become a picture.
#pragma once

#include "engine/gl/program.h"
#include "engine/render/renderer.h"

#include <span>
#include <vector>

namespace keystead {

/// Sums of samples, one RGBA32F picture a light. Half floats would stick after a thousand samples.
struct Layers {
    int width_px = 0, height_px = 0;
    Texture pictures;
    std::vector<Framebuffer> targets; ///< one a layer
    Texture sum, shown;
    Framebuffer sum_target, shown_target;
};

Layers make_layers(int width_px, int height_px, int count);

/// Empties one layer.
void clear_layer(const Layers& layers, int layer);

/// A layer's share of the sum: colour times power, over its number of samples.
struct LayerWeight {
    int layer = 0;
    glm::vec3 factor{0.0F};
};

/// Linear sum into `layers.sum`.
void remix(const Layers& layers, Program& program, std::span<const LayerWeight> weights);

/// Display codes of `layers.sum` into `layers.shown`.
void develop(const Layers& layers, Program& program, const Display& display);

} // namespace keystead
