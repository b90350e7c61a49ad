#include "engine/render/lens_pass.h"

#include "engine/render/gbuffer.h"

#include <cmath>
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

/// Geometry's number of each part of the scene; -1 where it has none.
std::vector<int> numbers_of(const Scene& scene, const Geometry& geometry) {
    std::vector<int> numbers(scene.parts.size(), -1);
    std::size_t next = 0; // both lists have one order
    for (std::size_t i = 0; i < scene.parts.size() && next < geometry.parts.size(); ++i)
        if (scene.parts[i].mesh.get() == geometry.parts[next].source)
            numbers[i] = static_cast<int>(next++);
    return numbers;
}

void renumber(LensSight& sight, const std::vector<int>& numbers) {
    for (glm::vec4& place : sight.position)
        if (place.w > 0.0F) place.w = static_cast<float>(numbers[std::size_t(place.w) - 1] + 1);
}

/// Light of one emitter that comes to the lens by way of what is mirrored: reflectance of the lens
/// times radiance. `baked_parts[i]`: the part of the bake that geometry part i is, or -1.
std::vector<glm::vec4> mirrored_indirect(const LensSight& sight, const Geometry& geometry,
                                         const IndirectLight& light,
                                         std::span<const int> baked_parts, std::size_t emitter,
                                         bool specular) {
    std::vector<glm::vec4> sent(sight.box.count(), glm::vec4(0.0F));
    for (std::size_t i = 0; i < sent.size(); ++i) {
        const int number = static_cast<int>(sight.position[i].w) - 1;
        const float share = sight.lens[i].w;
        if (number < 0 || (share < 0.0F && !specular)) continue;
        const auto part = static_cast<std::size_t>(number);
        if (part >= baked_parts.size() || baked_parts[part] < 0) continue;
        const auto baked = static_cast<std::size_t>(baked_parts[part]);
        const RayHit& hit = sight.hits[i];
        const glm::uvec3& triangle = geometry.parts[part].source->triangles[hit.triangle];
        const auto u = static_cast<float>(hit.u), v = static_cast<float>(hit.v);
        const glm::vec3 irradiance = (1.0F - u - v) * light.at(baked, triangle.x, emitter) +
                                     u * light.at(baked, triangle.y, emitter) +
                                     v * light.at(baked, triangle.z, emitter);
        const glm::vec3 radiance =
            glm::vec3(sight.surface[i]) * irradiance / static_cast<float>(pi);
        sent[i] = glm::vec4(std::abs(share) * radiance, 1.0F);
    }
    return sent;
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
    if (!studio.subject || !studio.rays) return nullptr;
    LensBuffer& buffer = lenses.sets.at(static_cast<std::size_t>(set));
    if (!buffer.made) {
        LensSight sight = see_lenses(studio, view, width_px, height_px, set_offset_px(set));
        renumber(sight, numbers_of(studio.scene, geometry));
        make(buffer, std::move(sight));
    }
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
                           const Texture& layers, std::span<const int> targets, bool specular) {
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
        const Texture sent = texture_of(
            mirrored_indirect(lens.sight, geometry, light, baked_parts, i, specular), box);
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
