#include "engine/render/gbuffer.h"

#include <algorithm>
#include <glad/gl.h>

namespace keystead {

namespace {

constexpr std::size_t bytes_a_pixel = 16 + 8 + 8 + 4;
constexpr std::size_t budget_bytes = std::size_t{640} << 20U;

GBuffer make_gbuffer(const GBufferCache& cache) {
    GBuffer made;
    made.position = make_texture(GL_RGBA32F, cache.width_px, cache.height_px);
    made.normals = make_texture(GL_RGBA16F, cache.width_px, cache.height_px);
    made.surface = make_texture(GL_RGBA16F, cache.width_px, cache.height_px);
    made.tangent = make_texture(GL_RG16F, cache.width_px, cache.height_px);
    made.framebuffer = make_framebuffer(
        {made.position.id(), made.normals.id(), made.surface.id(), made.tangent.id()},
        cache.depth.id());
    return made;
}

void draw_gbuffer(const GBufferCache& cache, GBuffer& buffer, int set, const Geometry& geometry,
                  const View& view, Program& program) {
    glBindFramebuffer(GL_FRAMEBUFFER, buffer.framebuffer.id());
    glViewport(0, 0, cache.width_px, cache.height_px);
    glDisable(GL_BLEND);
    glDisable(GL_SCISSOR_TEST);
    glEnable(GL_DEPTH_TEST);
    glDepthMask(GL_TRUE);
    glDepthFunc(GL_LESS);
    glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
    glClearColor(0, 0, 0, 0);
    glClearDepth(1.0);
    glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
    const glm::mat4 clip =
        clip_from_room(view, cache.width_px, cache.height_px, set_offset_px(set));
    program.use();
    program.set("clip_from_room", clip);
    program.set("eye", glm::vec3(view.eye_m));
    program.set("pixel_slope",
                static_cast<float>(2.0 * view.tan_half_height / std::max(1, cache.height_px)));
    draw_visible(geometry, program, clip);
    buffer.set = set;
}

} // namespace

GBufferCache make_gbuffers(int width_px, int height_px) {
    GBufferCache cache;
    cache.width_px = width_px;
    cache.height_px = height_px;
    cache.depth = make_texture(GL_DEPTH_COMPONENT32F, width_px, height_px);
    const std::size_t one =
        bytes_a_pixel * static_cast<std::size_t>(width_px) * static_cast<std::size_t>(height_px);
    cache.kept.resize(
        std::clamp<std::size_t>(budget_bytes / std::max<std::size_t>(1, one), 1, jitter_sets));
    return cache;
}

void forget(GBufferCache& cache) {
    for (GBuffer& buffer : cache.kept) buffer.set = -1;
}

GBuffer& gbuffer_of(GBufferCache& cache, int set, const Geometry& geometry, const View& view,
                    Program& program) {
    GBuffer& buffer = cache.kept[static_cast<std::size_t>(set) % cache.kept.size()];
    if (!buffer.framebuffer) buffer = make_gbuffer(cache);
    if (buffer.set != set) draw_gbuffer(cache, buffer, set, geometry, view, program);
    return buffer;
}

std::vector<glm::vec3> spread_positions(const GBufferCache& cache, const GBuffer& buffer, int wide,
                                        int high) {
    const int w = std::min(wide, cache.width_px), h = std::min(high, cache.height_px);
    const Texture small = make_texture(GL_RGBA32F, w, h);
    const Framebuffer target = make_framebuffer({small.id()}, 0);
    glBindFramebuffer(GL_READ_FRAMEBUFFER, buffer.framebuffer.id());
    glReadBuffer(GL_COLOR_ATTACHMENT0);
    glBindFramebuffer(GL_DRAW_FRAMEBUFFER, target.id());
    glBlitFramebuffer(0, 0, cache.width_px, cache.height_px, 0, 0, w, h, GL_COLOR_BUFFER_BIT,
                      GL_NEAREST);
    glBindFramebuffer(GL_READ_FRAMEBUFFER, target.id());
    glReadBuffer(GL_COLOR_ATTACHMENT0);
    std::vector<glm::vec4> texels(static_cast<std::size_t>(w) * static_cast<std::size_t>(h));
    glReadPixels(0, 0, w, h, GL_RGBA, GL_FLOAT, texels.data());
    std::vector<glm::vec3> positions;
    positions.reserve(texels.size());
    for (const glm::vec4& texel : texels)
        if (texel.w > 0.0F) positions.emplace_back(texel);
    return positions;
}

} // namespace keystead
