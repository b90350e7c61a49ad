#include "engine/render/indirect_pass.h"

#include <algorithm>
#include <array>
#include <glad/gl.h>

namespace keystead {

namespace {

constexpr std::size_t group_size = 4; ///< colour outputs of shaders/indirect.frag

/// Bytes between the vertices of a GpuMesh: thirteen floats (gpu_mesh.cpp).
constexpr GLsizei mesh_stride = 13 * sizeof(float);

std::size_t groups_of(std::size_t emitters) {
    return (emitters + group_size - 1) / group_size;
}

VertexArray array_for(const GpuMesh& mesh, const Buffer& values, std::size_t emitters,
                      std::size_t group) {
    VertexArray array = VertexArray::make();
    glBindVertexArray(array.id());
    glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, mesh.indices.id());
    glBindBuffer(GL_ARRAY_BUFFER, mesh.vertices.id());
    glEnableVertexAttribArray(0);
    glVertexAttribPointer(0, 3, GL_FLOAT, GL_FALSE, mesh_stride, nullptr);
    glBindBuffer(GL_ARRAY_BUFFER, values.id());
    const auto stride = static_cast<GLsizei>(emitters * sizeof(glm::vec3));
    for (std::size_t k = 0; k < group_size; ++k) {
        const std::size_t emitter = group * group_size + k;
        if (emitter >= emitters) break;
        const auto attribute = static_cast<GLuint>(1 + k);
        glEnableVertexAttribArray(attribute);
        const std::size_t offset = emitter * sizeof(glm::vec3);
        glVertexAttribPointer(attribute, 3, GL_FLOAT, GL_FALSE, stride,
                              reinterpret_cast<const void*>(offset)); // NOLINT: an offset
    }
    return array;
}

Framebuffer group_target(const Texture& layers, std::span<const int> targets) {
    Framebuffer framebuffer = Framebuffer::make();
    glBindFramebuffer(GL_FRAMEBUFFER, framebuffer.id());
    std::array<GLenum, group_size> drawn{};
    for (std::size_t k = 0; k < targets.size(); ++k) {
        drawn[k] = GL_COLOR_ATTACHMENT0 + static_cast<GLenum>(k);
        glFramebufferTextureLayer(GL_FRAMEBUFFER, drawn[k], layers.id(), 0, targets[k]);
    }
    glDrawBuffers(static_cast<GLsizei>(targets.size()), drawn.data());
    return framebuffer;
}

void draw_group(IndirectPass& pass, const Geometry& geometry, const glm::mat4& clip,
                std::size_t group) {
    const std::size_t groups = groups_of(pass.emitters);
    for (std::size_t i = 0; i < geometry.parts.size() && i < pass.values.size(); ++i) {
        const GpuPart& part = geometry.parts[i];
        if (!part.drawn || !pass.values[i] || !may_see(clip, part.mesh->box)) continue;
        pass.program.set("part", static_cast<int>(i));
        glBindVertexArray(pass.arrays[i * groups + group].id());
        glDrawElements(GL_TRIANGLES, part.mesh->index_count, GL_UNSIGNED_INT, nullptr);
    }
    glBindVertexArray(0);
}

} // namespace

void upload_indirect(IndirectPass& pass, const Geometry& geometry, const IndirectLight& light,
                     std::span<const int> baked_parts) {
    pass.emitters = light.emitters;
    pass.sets_done = 0;
    pass.baked_parts.assign(baked_parts.begin(), baked_parts.end());
    const std::size_t groups = groups_of(light.emitters);
    pass.values.clear();
    pass.arrays.clear();
    pass.values.resize(geometry.parts.size());
    pass.arrays.resize(geometry.parts.size() * groups);
    for (std::size_t i = 0; i < baked_parts.size() && i < geometry.parts.size(); ++i) {
        if (baked_parts[i] < 0) continue;
        const auto& values = light.parts[static_cast<std::size_t>(baked_parts[i])];
        pass.values[i] = Buffer::make();
        glBindBuffer(GL_ARRAY_BUFFER, pass.values[i].id());
        glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(values.size() * sizeof(glm::vec3)),
                     values.data(), GL_STATIC_DRAW);
        for (std::size_t group = 0; group < groups; ++group)
            pass.arrays[i * groups + group] =
                array_for(*geometry.parts[i].mesh, pass.values[i], light.emitters, group);
    }
    glBindVertexArray(0);
}

void add_indirect(IndirectPass& pass, const GBuffer& buffer, const LensBuffer* lens,
                  const Geometry& geometry, const View& view, int width_px, int height_px,
                  const Texture& layers, std::span<const int> targets) {
    glViewport(0, 0, width_px, height_px);
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_CULL_FACE);
    glDisable(GL_SCISSOR_TEST);
    glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
    glEnable(GL_BLEND);
    glBlendEquation(GL_FUNC_ADD);
    glBlendFunc(GL_ONE, GL_ONE);
    const glm::mat4 clip = clip_from_room(view, width_px, height_px, set_offset_px(buffer.set));
    pass.program.use();
    bind_texture(0, GL_TEXTURE_2D, buffer.position.id());
    bind_texture(1, GL_TEXTURE_2D, buffer.surface.id());
    bind_texture(2, GL_TEXTURE_2D, buffer.normals.id());
    bind_texture(3, GL_TEXTURE_2D, buffer.tangent.id());
    bind_texture(4, GL_TEXTURE_2D, geometry.materials.id());
    pass.program.set("g_position", 0);
    pass.program.set("g_surface", 1);
    pass.program.set("g_normals", 2);
    pass.program.set("g_tangent", 3);
    pass.program.set("materials", 4);
    pass.program.set("specular", pass.specular ? 1 : 0);
    bind_lens(pass.program, lens, 5);
    pass.program.set("eye", glm::vec3(view.eye_m));
    pass.program.set("clip_from_room", clip);
    for (std::size_t group = 0; group < groups_of(pass.emitters); ++group) {
        const std::size_t begin = group * group_size;
        const std::size_t count = std::min(group_size, targets.size() - begin);
        const Framebuffer target = group_target(layers, targets.subspan(begin, count));
        draw_group(pass, geometry, clip, group);
    }
    glDisable(GL_BLEND);
    pass.sets_done |= 1 << buffer.set;
}

} // namespace keystead
