// OpenGL objects that delete themselves. Each needs its context current when made and destroyed.
#pragma once

#include <utility>
#include <vector>

namespace keystead {

/// An OpenGL name owned by value; 0 = none.
template <class Kind>
class GlObject {
public:
    GlObject() = default;
    static GlObject make() { return GlObject(Kind::make()); }
    ~GlObject() { reset(); }
    GlObject(GlObject&& other) noexcept
        : id_(std::exchange(other.id_, 0U)) {}
    GlObject& operator=(GlObject&& other) noexcept {
        if (this != &other) {
            reset();
            id_ = std::exchange(other.id_, 0U);
        }
        return *this;
    }
    GlObject(const GlObject&) = delete;
    GlObject& operator=(const GlObject&) = delete;

    unsigned id() const { return id_; }
    explicit operator bool() const { return id_ != 0; }
    void reset() {
        if (id_ != 0) Kind::destroy(id_);
        id_ = 0;
    }

private:
    explicit GlObject(unsigned id)
        : id_(id) {}
    unsigned id_ = 0;
};

struct BufferKind {
    static unsigned make();
    static void destroy(unsigned id);
};
struct TextureKind {
    static unsigned make();
    static void destroy(unsigned id);
};
struct FramebufferKind {
    static unsigned make();
    static void destroy(unsigned id);
};
struct VertexArrayKind {
    static unsigned make();
    static void destroy(unsigned id);
};

using Buffer = GlObject<BufferKind>;
using Texture = GlObject<TextureKind>;
using Framebuffer = GlObject<FramebufferKind>;
using VertexArray = GlObject<VertexArrayKind>;

/// A two-dimensional texture without mipmaps, clamped at its edges, nearest texel.
/// `internal_format` is sized, e.g. GL_RGBA32F.
Texture make_texture(unsigned internal_format, int width_px, int height_px);

/// The same as an array of `layers` pictures.
Texture make_texture_array(unsigned internal_format, int width_px, int height_px, int layers);

/// An array of depth maps (GL_DEPTH_COMPONENT32F) that compares while filtering 2x2 texels.
Texture make_shadow_array(int size_px, int layers);

/// Colour attachments 0.. in the order given; `depth` may be 0. All draw buffers are enabled.
Framebuffer make_framebuffer(const std::vector<unsigned>& colours, unsigned depth);

/// Binds texture `id` of `target` (GL_TEXTURE_2D …) to a unit.
void bind_texture(int unit, unsigned target, unsigned id);

} // namespace keystead
