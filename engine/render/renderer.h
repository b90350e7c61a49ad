// The OpenGL filler: G-buffer, shadow maps fitted to each sample, shading, accumulation.
#pragma once

#include "engine/render/filler.h"

namespace keystead {

/// Needs a current OpenGL 4.1 core context for its whole life. Each call leaves the framebuffer and
/// viewport that were bound; other state is set by whoever draws next.
class Renderer final : public Filler {
public:
    Renderer();
    ~Renderer() override;

    const std::string& problem() const override;
    std::string device() const override; ///< renderer string of the OpenGL context
    void set_options(const RenderOptions& options) override;
    /// Uploads only parts whose key changed.
    void show(std::shared_ptr<const Studio> studio) override;
    void look(const View& view, int width_px, int height_px) override;
    void set_indirect(std::shared_ptr<const IndirectLight> light, const Studio& of) override;
    bool refine(int target_samples, int per_light = 1) override;
    int samples() const override;
    int samples_of(int light) const override;

    /// Remixes the layers and applies the display transform into a texture of the view's size
    /// (RGBA8, display-encoded, the bottom row first as OpenGL keeps pictures). Valid until the
    /// next call.
    unsigned present(const Display& display);
    RgbaImage read_display(const Display& display) override;
    LinearImage read_linear(int only_light = -1) override;
    /// First-hit position and geometric normal per pixel, for tests; w = part index + 1, 0 = none.
    std::vector<glm::vec4> read_positions();

private:
    struct Data;
    std::unique_ptr<Data> data_;
};

} // namespace keystead
