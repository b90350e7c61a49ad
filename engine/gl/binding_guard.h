// Leaves the framebuffer and viewport as they were.
#pragma once

#include <array>
#include <glad/gl.h>

namespace keystead {

/// Puts back what was bound: without a window there is no framebuffer 0 to fall back on.
class BindingGuard {
public:
    BindingGuard() {
        glGetIntegerv(GL_DRAW_FRAMEBUFFER_BINDING, &framebuffer_);
        glGetIntegerv(GL_VIEWPORT, viewport_.data());
        glBindVertexArray(0);
    }
    ~BindingGuard() {
        // What was bound may have been one of ours that is gone.
        if (framebuffer_ != 0 && glIsFramebuffer(static_cast<GLuint>(framebuffer_)) == GL_TRUE)
            glBindFramebuffer(GL_FRAMEBUFFER, static_cast<GLuint>(framebuffer_));
        else if (framebuffer_ == 0 && has_window_)
            glBindFramebuffer(GL_FRAMEBUFFER, 0);
        glViewport(viewport_[0], viewport_[1], viewport_[2], viewport_[3]);
        glUseProgram(0);
        glBindVertexArray(0);
        glActiveTexture(GL_TEXTURE0);
    }
    BindingGuard(const BindingGuard&) = delete;
    BindingGuard& operator=(const BindingGuard&) = delete;

private:
    GLint framebuffer_ = 0;
    std::array<GLint, 4> viewport_{};
    // A context without a surface reports an undefined default framebuffer.
    bool has_window_ = glCheckFramebufferStatus(GL_FRAMEBUFFER) != GL_FRAMEBUFFER_UNDEFINED;
};

} // namespace keystead
