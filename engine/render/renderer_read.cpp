// Layers to pictures: remix, display, reading back.
#include "engine/gl/binding_guard.h"
#include "engine/gl/load.h"
#include "engine/render/renderer_data.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <glad/gl.h>

namespace keystead {

namespace {

template <class T>
std::vector<T> flipped(const std::vector<T>& rows_up, int width, int height) {
    std::vector<T> down(rows_up.size());
    const auto w = static_cast<std::ptrdiff_t>(width);
    for (std::ptrdiff_t y = 0; y < height; ++y)
        std::copy_n(rows_up.begin() + y * w, w, down.begin() + (height - 1 - y) * w);
    return down;
}

} // namespace

unsigned Renderer::present(const Display& display) {
    Data& d = *data_;
    if (!d.ready()) return 0;
    const BindingGuard guard;
    std::vector<LayerWeight> weights = d.measured_weights();
    if (d.view.work_light) {
        const int count = d.counts[d.lights()];
        weights.push_back({static_cast<int>(d.lights()),
                           work_light_weight(d.work_light, display.exposure, count)});
        if (d.indirect.sets_done != 0)
            weights.push_back(d.indirect_weight(d.lights(), weights.back()));
    }
    glBindVertexArray(d.nothing.id());
    remix(d.layers, d.remix_program, weights);
    develop(d.layers, d.display_program, display);
    return d.layers.shown.id();
}

RgbaImage Renderer::read_display(const Display& display) {
    Data& d = *data_;
    RgbaImage image;
    if (present(display) == 0) return image;
    const BindingGuard guard;
    image.width = d.width_px;
    image.height = d.height_px;
    using Pixel = std::array<std::uint8_t, 4>;
    std::vector<Pixel> up(static_cast<std::size_t>(d.width_px) *
                          static_cast<std::size_t>(d.height_px));
    glBindFramebuffer(GL_FRAMEBUFFER, d.layers.shown_target.id());
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glReadPixels(0, 0, d.width_px, d.height_px, GL_RGBA, GL_UNSIGNED_BYTE, up.data());
    const std::vector<Pixel> down = flipped(up, d.width_px, d.height_px);
    image.pixels.resize(4 * down.size());
    std::memcpy(image.pixels.data(), down.data(), image.pixels.size());
    return image;
}

LinearImage Renderer::read_linear(int only_light) {
    Data& d = *data_;
    LinearImage image;
    if (!d.ready()) return image;
    const BindingGuard guard;
    std::vector<LayerWeight> weights;
    if (only_light < 0)
        weights = d.measured_weights();
    else if (const auto light = static_cast<std::size_t>(only_light); light < d.lights()) {
        weights.push_back(d.weight_of(light, false));
        if (d.indirect.sets_done != 0) weights.push_back(d.indirect_weight(light, weights.back()));
    }
    glBindVertexArray(d.nothing.id());
    remix(d.layers, d.remix_program, weights);
    image.width = d.width_px;
    image.height = d.height_px;
    std::vector<glm::vec3> up(static_cast<std::size_t>(d.width_px) *
                              static_cast<std::size_t>(d.height_px));
    glBindFramebuffer(GL_FRAMEBUFFER, d.layers.sum_target.id());
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glReadPixels(0, 0, d.width_px, d.height_px, GL_RGB, GL_FLOAT, up.data());
    image.pixels = flipped(up, d.width_px, d.height_px);
    return image;
}

std::vector<glm::vec4> Renderer::read_positions() {
    Data& d = *data_;
    if (!d.ready()) return {};
    const BindingGuard guard;
    const GBuffer& buffer =
        gbuffer_of(d.gbuffers, centre_set, d.geometry, d.view, d.gbuffer_program);
    std::vector<glm::vec4> up(static_cast<std::size_t>(d.width_px) *
                              static_cast<std::size_t>(d.height_px));
    glBindFramebuffer(GL_FRAMEBUFFER, buffer.framebuffer.id());
    glReadBuffer(GL_COLOR_ATTACHMENT0);
    glReadPixels(0, 0, d.width_px, d.height_px, GL_RGBA, GL_FLOAT, up.data());
    return flipped(up, d.width_px, d.height_px);
}

std::string Renderer::device() const {
    return gl_device();
}

} // namespace keystead
