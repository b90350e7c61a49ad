#include "engine/gl/objects.h"

#include <glad/gl.h>

namespace keystead {

unsigned BufferKind::make() {
    GLuint id = 0;
    glGenBuffers(1, &id);
    return id;
}
void BufferKind::destroy(unsigned id) {
    glDeleteBuffers(1, &id);
}

unsigned TextureKind::make() {
    GLuint id = 0;
    glGenTextures(1, &id);
    return id;
}
void TextureKind::destroy(unsigned id) {
    glDeleteTextures(1, &id);
}

unsigned FramebufferKind::make() {
    GLuint id = 0;
    glGenFramebuffers(1, &id);
    return id;
}
void FramebufferKind::destroy(unsigned id) {
    glDeleteFramebuffers(1, &id);
}

unsigned VertexArrayKind::make() {
    GLuint id = 0;
    glGenVertexArrays(1, &id);
    return id;
}
void VertexArrayKind::destroy(unsigned id) {
    glDeleteVertexArrays(1, &id);
}

namespace {

struct Upload {
    GLenum format, type;
};

// Format and type only have to be legal beside the internal format: no texels are handed over.
Upload upload_of(unsigned internal_format) {
    switch (internal_format) {
    case GL_DEPTH_COMPONENT32F:
        return {GL_DEPTH_COMPONENT, GL_FLOAT};
    case GL_RGBA8:
        return {GL_RGBA, GL_UNSIGNED_BYTE};
    case GL_R32F:
    case GL_R16F:
        return {GL_RED, GL_FLOAT};
    case GL_RG32F:
    case GL_RG16F:
        return {GL_RG, GL_FLOAT};
    default:
        return {GL_RGBA, GL_FLOAT};
    }
}

void set_sampling(GLenum target, GLint filter) {
    glTexParameteri(target, GL_TEXTURE_MIN_FILTER, filter);
    glTexParameteri(target, GL_TEXTURE_MAG_FILTER, filter);
    glTexParameteri(target, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
    glTexParameteri(target, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
    glTexParameteri(target, GL_TEXTURE_MAX_LEVEL, 0);
}

} // namespace

Texture make_texture(unsigned internal_format, int width_px, int height_px) {
    Texture texture = Texture::make();
    glBindTexture(GL_TEXTURE_2D, texture.id());
    const Upload upload = upload_of(internal_format);
    glTexImage2D(GL_TEXTURE_2D, 0, static_cast<GLint>(internal_format), width_px, height_px, 0,
                 upload.format, upload.type, nullptr);
    set_sampling(GL_TEXTURE_2D, GL_NEAREST);
    return texture;
}

Texture make_texture_array(unsigned internal_format, int width_px, int height_px, int layers) {
    Texture texture = Texture::make();
    glBindTexture(GL_TEXTURE_2D_ARRAY, texture.id());
    const Upload upload = upload_of(internal_format);
    glTexImage3D(GL_TEXTURE_2D_ARRAY, 0, static_cast<GLint>(internal_format), width_px, height_px,
                 layers, 0, upload.format, upload.type, nullptr);
    set_sampling(GL_TEXTURE_2D_ARRAY, GL_NEAREST);
    return texture;
}

Texture make_shadow_array(int size_px, int layers) {
    Texture texture = make_texture_array(GL_DEPTH_COMPONENT32F, size_px, size_px, layers);
    set_sampling(GL_TEXTURE_2D_ARRAY, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D_ARRAY, GL_TEXTURE_COMPARE_MODE, GL_COMPARE_REF_TO_TEXTURE);
    glTexParameteri(GL_TEXTURE_2D_ARRAY, GL_TEXTURE_COMPARE_FUNC, GL_LEQUAL);
    return texture;
}

Framebuffer make_framebuffer(const std::vector<unsigned>& colours, unsigned depth) {
    Framebuffer framebuffer = Framebuffer::make();
    glBindFramebuffer(GL_FRAMEBUFFER, framebuffer.id());
    std::vector<GLenum> drawn;
    for (std::size_t i = 0; i < colours.size(); ++i) {
        const GLenum place = GL_COLOR_ATTACHMENT0 + static_cast<GLenum>(i);
        glFramebufferTexture2D(GL_FRAMEBUFFER, place, GL_TEXTURE_2D, colours[i], 0);
        drawn.push_back(place);
    }
    if (depth != 0)
        glFramebufferTexture2D(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_TEXTURE_2D, depth, 0);
    if (drawn.empty()) {
        glDrawBuffer(GL_NONE);
        glReadBuffer(GL_NONE);
    } else {
        glDrawBuffers(static_cast<GLsizei>(drawn.size()), drawn.data());
    }
    return framebuffer;
}

void bind_texture(int unit, unsigned target, unsigned id) {
    glActiveTexture(GL_TEXTURE0 + static_cast<GLenum>(unit));
    glBindTexture(target, id);
}

} // namespace keystead
