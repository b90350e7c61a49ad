#include "engine/render/layers.h"

#include <algorithm>
#include <array>
#include <glad/gl.h>

namespace keystead {

namespace {

constexpr std::size_t most_layers = 64; ///< as in shaders/remix.frag

void begin_fullscreen(const Layers& layers, const Framebuffer& target) {
    glBindFramebuffer(GL_FRAMEBUFFER, target.id());
    glViewport(0, 0, layers.width_px, layers.height_px);
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_CULL_FACE);
    glDisable(GL_SCISSOR_TEST);
    glDisable(GL_BLEND);
    glDisable(GL_FRAMEBUFFER_SRGB);
    glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
}

void draw_sum(Program& program, std::span<const LayerWeight> weights) {
    std::array<glm::vec4, most_layers> packed{};
    for (std::size_t i = 0; i < weights.size(); ++i)
        packed[i] = glm::vec4(weights[i].factor, static_cast<float>(weights[i].layer));
    program.set("layer_count", static_cast<int>(weights.size()));
    program.set("layer_weight", std::span<const glm::vec4>(packed));
    glDrawArrays(GL_TRIANGLES, 0, 3);
}

} // namespace

Layers make_layers(int width_px, int height_px, int count) {
    Layers made;
    made.width_px = width_px;
    made.height_px = height_px;
    made.pictures = make_texture_array(GL_RGBA32F, width_px, height_px, std::max(1, count));
    for (int i = 0; i < count; ++i) {
        made.targets.push_back(make_framebuffer({}, 0));
        glFramebufferTextureLayer(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, made.pictures.id(), 0, i);
        const GLenum place = GL_COLOR_ATTACHMENT0;
        glDrawBuffers(1, &place);
        glReadBuffer(place);
        clear_layer(made, i);
    }
    made.sum = make_texture(GL_RGBA32F, width_px, height_px);
    made.sum_target = make_framebuffer({made.sum.id()}, 0);
    made.shown = make_texture(GL_RGBA8, width_px, height_px);
    made.shown_target = make_framebuffer({made.shown.id()}, 0);
    // Shown by a user interface at other sizes, too.
    glBindTexture(GL_TEXTURE_2D, made.shown.id());
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
    return made;
}

void clear_layer(const Layers& layers, int layer) {
    begin_fullscreen(layers, layers.targets[static_cast<std::size_t>(layer)]);
    glClearColor(0, 0, 0, 0);
    glClear(GL_COLOR_BUFFER_BIT);
}

void remix(const Layers& layers, Program& program, std::span<const LayerWeight> weights) {
    begin_fullscreen(layers, layers.sum_target);
    glClearColor(0, 0, 0, 0);
    glClear(GL_COLOR_BUFFER_BIT);
    program.use();
    bind_texture(0, GL_TEXTURE_2D_ARRAY, layers.pictures.id());
    program.set("layers", 0);
    glEnable(GL_BLEND);
    glBlendEquation(GL_FUNC_ADD);
    glBlendFunc(GL_ONE, GL_ONE);
    while (!weights.empty()) {
        const std::size_t now = std::min(weights.size(), most_layers);
        draw_sum(program, weights.first(now));
        weights = weights.subspan(now);
    }
    glDisable(GL_BLEND);
}

void develop(const Layers& layers, Program& program, const Display& display) {
    begin_fullscreen(layers, layers.shown_target);
    program.use();
    bind_texture(0, GL_TEXTURE_2D, layers.sum.id());
    program.set("linear_sum", 0);
    program.set("exposure", static_cast<float>(display.exposure));
    program.set("soft", display.soft_shoulder ? 1 : 0);
    program.set("print_contrast", static_cast<float>(display.print_contrast));
    program.set("dither", display.dither ? 1 : 0);
    program.set("balance", display.balance);
    program.set("as_stops", display.shown_as == ShownAs::stops ? 1 : 0);
    program.set("clipping", display.clipping ? 1 : 0);
    program.set("face_tone", static_cast<float>(display.face_tone));
    program.set("full_tone", static_cast<float>(display.full_tone));
    program.set("mark_px", std::max(1, display.mark_px));
    glDrawArrays(GL_TRIANGLES, 0, 3);
}

} // namespace keystead
