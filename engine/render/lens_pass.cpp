#include "engine/render/lens_pass.h"

#include "engine/render/gbuffer.h"

#include <glad/gl.h>

namespace keystead {

namespace {

Texture texture_of(const std::vector<glm::vec4>& texels, const PixelBox& box) {
    Texture texture = make_texture(GL_RGBA32F, box.width, box.height);
    glBindTexture(GL_TEXTURE_2D, texture.id());
    glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
    glTexSubImage2D(GL_TEXTURE_2D, 0, 0, 0, box.width, box.height, GL_RGBA, GL_FLOAT,
                    texels.data());
    return texture;
}

void make(LensBuffer& buffer, LensSight sight) {
    buffer.sight = std::move(sight);
    buffer.made = true;
    if (!buffer.any()) return;
    const PixelBox& box = buffer.sight.box;
    buffer.lens = texture_of(buffer.sight.lens, box);
    buffer.position = texture_of(buffer.sight.position, box);
    buffer.normals = texture_of(buffer.sight.normals, box);
    buffer.surface = texture_of(buffer.sight.surface, box);
}

} // namespace

void forget(LensBuffers& lenses) {
    for (LensBuffer& buffer : lenses.sets) buffer = LensBuffer{};
}

const LensBuffer* lenses_at(LensBuffers& lenses, int set, const Studio& studio,
                            const Geometry& geometry, const View& view, int width_px,
                            int height_px) {
    if (!wears_lenses(studio)) return nullptr;
    LensBuffer& buffer = lenses.sets.at(static_cast<std::size_t>(set));
    if (!buffer.made)
        make(buffer, see_lenses(studio, geometry, view, width_px, height_px, set_offset_px(set)));
    return buffer.any() ? &buffer : nullptr;
}

void bind_lens(Program& program, const LensBuffer* lens, int unit) {
    const PixelBox box = lens != nullptr ? lens->sight.box : PixelBox{};
    bind_texture(unit, GL_TEXTURE_2D, lens != nullptr ? lens->lens.id() : 0);
    program.set("lens_place", unit);
    program.set("lens_box", glm::vec4(box.left, box.bottom, box.width, box.height));
}

void add_mirrored_indirect(LensBuffers& lenses, const LensBuffer& lens, const Geometry& geometry,
                           const IndirectLight& light, std::span<const int> baked_parts,
                           const Texture& layers, std::span<const int> targets) {
    const PixelBox& box = lens.sight.box;
    Program& program = lenses.indirect;
    program.use();
    program.set("mirrored", 0);
    program.set("lens_box", glm::vec4(box.left, box.bottom, box.width, box.height));
    const VertexArray nothing = VertexArray::make();
    glBindVertexArray(nothing.id());
    glEnable(GL_BLEND);
    glBlendFunc(GL_ONE, GL_ONE);
    glEnable(GL_SCISSOR_TEST);
    glScissor(box.left, box.bottom, box.width, box.height);
    for (std::size_t i = 0; i < targets.size(); ++i) {
        const Texture sent =
            texture_of(mirrored_indirect(lens.sight, geometry, light, baked_parts, i), box);
        Framebuffer target = Framebuffer::make();
        glBindFramebuffer(GL_FRAMEBUFFER, target.id());
        glFramebufferTextureLayer(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, layers.id(), 0, targets[i]);
        bind_texture(0, GL_TEXTURE_2D, sent.id());
        glDrawArrays(GL_TRIANGLES, 0, 3);
    }
    glDisable(GL_SCISSOR_TEST);
    glDisable(GL_BLEND);
    glBindVertexArray(0);
}

} // namespace keystead
