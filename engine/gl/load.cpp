#include "engine/gl/load.h"

#include <atomic>
#include <cstdio>
#include <glad/gl.h>

namespace keystead {

namespace {

std::atomic<int> error_messages{0}; // NOLINT: the driver calls back without a context of ours

void GLAD_API_PTR on_message(GLenum /*source*/, GLenum type, GLuint /*id*/, GLenum severity,
                             GLsizei /*length*/, const GLchar* text, const void* /*user*/) {
    if (type != GL_DEBUG_TYPE_ERROR && severity != GL_DEBUG_SEVERITY_HIGH) return;
    error_messages.fetch_add(1);
    std::fprintf(stderr, "OpenGL: %s\n", text);
}

std::string text_of(GLenum name) {
    const GLubyte* text = glGetString(name);
    return text == nullptr ? ""
                           : reinterpret_cast<const char*>(text); // NOLINT: GL's bytes are text
}

} // namespace

Outcome load_gl(GlFunctionFinder find) {
    const int version = gladLoadGL(find);
    if (version == 0) return Problem{"OpenGL", "no functions", "could be loaded from this driver"};
    if (GLAD_VERSION_MAJOR(version) * 10 + GLAD_VERSION_MINOR(version) < 41)
        return Problem{"OpenGL", text_of(GL_VERSION), "is older than the needed 4.1"};
    if (GLAD_GL_KHR_debug != 0 && glDebugMessageCallback != nullptr) {
        glEnable(GL_DEBUG_OUTPUT);
        glDebugMessageCallback(on_message, nullptr);
    }
    return std::nullopt;
}

int gl_error_messages() {
    return error_messages.load();
}

std::string gl_device() {
    return text_of(GL_RENDERER) + ", OpenGL " + text_of(GL_VERSION);
}

bool gl_is_software() {
    const std::string renderer = text_of(GL_RENDERER);
    for (const char* name : {"llvmpipe", "softpipe", "swrast", "SWR"})
        if (renderer.find(name) != std::string::npos) return true;
    return false;
}

} // namespace keystead
