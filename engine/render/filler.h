// The picture as measured light: one float32 linear-radiance layer a light, refined progressively,
// remixed linearly (power, gel, mute and exposure never cast a ray), then shown.
//
// Two fillers make the same layers: OpenGL on a graphics card (renderer.h), and rays in packets of
// sixteen on the processor (packet_filler.h). Everything above does not care which.
#pragma once

#include "engine/render/display.h"
#include "sim/studio/studio.h"
#include "sim/transport/bake.h"
#include "sim/transport/view.h"

#include <cstdint>
#include <glm/glm.hpp>
#include <memory>
#include <span>
#include <string>
#include <vector>

namespace keystead {

/// A picture read back: rows from the top, linear RGB.
struct LinearImage {
    int width = 0, height = 0;
    std::vector<glm::vec3> pixels;
};

struct RgbaImage {
    int width = 0, height = 0;
    std::vector<std::uint8_t> pixels; ///< sRGB-encoded, rows from the top
};

/// How surfaces answer and how much is spent. A change restarts every layer.
struct RenderOptions {
    bool specular = true;   ///< off: diffuse reflection alone, for comparing with irradiance
    bool skin_wrap = false; ///< a look, not a measurement: red spreads past the terminator of skin
    bool coarse_casters = false; ///< OpenGL: the sitter's own coarse surface throws its shadow
    int shadow_map_px = 0;       ///< OpenGL; 0: by the device, 1024 in software, 2048 on a GPU

    friend bool operator==(const RenderOptions&, const RenderOptions&) = default;
};

/// Bakes what a filler's set_indirect takes: one emitter a light, then the outside view's work
/// light.
IndirectLight bake_studio(const Studio& studio, const BakeOptions& options,
                          BakeMemory* memory = nullptr);

class Filler {
public:
    Filler() = default;
    virtual ~Filler() = default;
    Filler(const Filler&) = delete;
    Filler& operator=(const Filler&) = delete;

    /// Empty, or why nothing can be drawn.
    virtual const std::string& problem() const = 0;
    /// What fills the layers, in words.
    virtual std::string device() const = 0;

    virtual void set_options(const RenderOptions& options) = 0;

    /// Takes over a set; restarts only the layers of lights whose light was touched (all of them
    /// when something that is seen has moved).
    virtual void show(std::shared_ptr<const Studio> studio) = 0;
    /// Restarts every layer if the view or the size changed.
    virtual void look(const View& view, int width_px, int height_px) = 0;

    /// Light by way of other surfaces, baked for `of` (bake_studio). Parts that have changed since
    /// keep what was baked for them as long as they have as many vertices. Null: direct light
    /// alone.
    virtual void set_indirect(std::shared_ptr<const IndirectLight> light, const Studio& of) = 0;

    /// Adds one sample (up to `per_light`, 4 at most, where there is time) to every light that is
    /// on and has fewer than `target`; returns whether any had.
    virtual bool refine(int target_samples, int per_light = 1) = 0;
    /// Smallest sample count over the lights that are on; 0 if none is.
    virtual int samples() const = 0;
    /// Samples of one light's layer.
    virtual int samples_of(int light) const = 0;

    /// Remixes the layers and applies the display transform. The work light of outside views is
    /// added here and nowhere else.
    virtual RgbaImage read_display(const Display& display) = 0;
    /// Radiance summed over the lights, cd·s/m²: continuous light counts for the shutter time. With
    /// `only_light`, that light's layer at its present power in its own unit (cd/m² or cd·s/m²).
    virtual LinearImage read_linear(int only_light = -1) = 0;
};

/// What each light's layer is worth in the sum: exitance times power and colour over its samples;
/// continuous light counts for the shutter time where the picture is taken `with_shutter`.
glm::vec3 layer_factor(const Emitter& emitter, double shutter_s, bool with_shutter, int samples);

/// Smallest of the counts whose light is on; 0 if none is.
int fewest_samples(std::span<const Emitter> emitters, std::span<const int> counts);

} // namespace keystead
