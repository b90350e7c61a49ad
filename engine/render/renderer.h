// The picture as measured light: one float32 linear-radiance layer a light, refined progressively,
// remixed linearly (power, gel, mute and exposure never cast a ray), then shown.
#pragma once

#include "engine/render/display.h"
#include "sim/transport/view.h"
#include "sim/studio/studio.h"
#include "sim/transport/bake.h"

#include <cstdint>
#include <glm/glm.hpp>
#include <memory>
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
    bool coarse_casters = false; ///< the sitter's own coarse surface throws its shadow
    int shadow_map_px = 0;       ///< 0: by the device, 1024 in software, 2048 on a GPU

    friend bool operator==(const RenderOptions&, const RenderOptions&) = default;
};

/// Bakes what a renderer's set_indirect takes: one emitter a light, then the outside view's work
/// light.
IndirectLight bake_studio(const Studio& studio, const BakeOptions& options);

/// Needs a current OpenGL 4.1 core context for its whole life. Each call leaves the framebuffer and
/// viewport that were bound; other state is set by whoever draws next.
class Renderer {
public:
    Renderer();
    ~Renderer();
    Renderer(const Renderer&) = delete;
    Renderer& operator=(const Renderer&) = delete;

    /// Empty, or why nothing can be drawn (a shader is missing or does not compile).
    const std::string& problem() const;

    void set_options(const RenderOptions& options);

    /// Takes over a set; uploads only parts whose key changed and restarts only the layers of
    /// lights whose light was touched (all of them when something else that casts has moved).
    void show(std::shared_ptr<const Studio> studio);
    /// Restarts every layer if the view or the size changed.
    void look(const View& view, int width_px, int height_px);

    /// Light by way of other surfaces, baked for `of` (bake_studio). Parts that have changed since
    /// keep what was baked for them as long as they have as many vertices. Null: direct light
    /// alone.
    void set_indirect(std::shared_ptr<const IndirectLight> light, const Studio& of);

    /// Adds one sample (up to `per_light`, 4 at most, where a GPU has time) to every light that is
    /// on and has fewer than `target`; returns whether any had.
    bool refine(int target_samples, int per_light = 1);
    /// Smallest sample count over the lights that are on; 0 if none is.
    int samples() const;
    /// Samples of one light's layer.
    int samples_of(int light) const;

    /// Remixes the layers and applies the display transform into a texture of the view's size
    /// (RGBA8, display-encoded, the bottom row first as OpenGL keeps pictures). Valid until the
    /// next call. The work light of outside views is added here and nowhere else.
    unsigned present(const Display& display);

    RgbaImage read_display(const Display& display);
    /// Radiance summed over the lights, cd·s/m²: continuous light counts for the shutter time. With
    /// `only_light`, that light's layer at its present power in its own unit (cd/m² or cd·s/m²).
    LinearImage read_linear(int only_light = -1);
    /// First-hit position and geometric normal per pixel, for tests; w = part index + 1, 0 = none.
    std::vector<glm::vec4> read_positions();

    std::string device() const; ///< renderer string of the OpenGL context

private:
    struct Data;
    std::unique_ptr<Data> data_;
};

} // namespace keystead
