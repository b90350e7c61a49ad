#include "engine/gl/context.h"

#include "engine/gl/load.h"

#include <array>
#include <cstring>
#include <EGL/egl.h>
#include <EGL/eglext.h>

namespace keystead {

namespace {

bool lists(const char* extensions, const char* wanted) {
    return extensions != nullptr && std::strstr(extensions, wanted) != nullptr;
}

EGLDisplay started(EGLDisplay display) {
    if (display == EGL_NO_DISPLAY) return EGL_NO_DISPLAY;
    return eglInitialize(display, nullptr, nullptr) == EGL_TRUE ? display : EGL_NO_DISPLAY;
}

using GetPlatformDisplay = PFNEGLGETPLATFORMDISPLAYEXTPROC;

template <class Function>
Function egl_function(const char* name) {
    return reinterpret_cast<Function>(eglGetProcAddress(name)); // NOLINT: EGL's own way
}

EGLDisplay surfaceless_display() {
    const char* offered = eglQueryString(EGL_NO_DISPLAY, EGL_EXTENSIONS);
    const auto open = egl_function<GetPlatformDisplay>("eglGetPlatformDisplayEXT");
    if (!lists(offered, "EGL_MESA_platform_surfaceless") || open == nullptr) return EGL_NO_DISPLAY;
    return started(open(EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, nullptr));
}

EGLDisplay device_display() {
    const char* offered = eglQueryString(EGL_NO_DISPLAY, EGL_EXTENSIONS);
    const auto open = egl_function<GetPlatformDisplay>("eglGetPlatformDisplayEXT");
    const auto devices = egl_function<PFNEGLQUERYDEVICESEXTPROC>("eglQueryDevicesEXT");
    if (!lists(offered, "EGL_EXT_platform_device") || open == nullptr || devices == nullptr)
        return EGL_NO_DISPLAY;
    std::array<EGLDeviceEXT, 16> found{};
    EGLint count = 0;
    if (devices(static_cast<EGLint>(found.size()), found.data(), &count) != EGL_TRUE)
        return EGL_NO_DISPLAY;
    for (std::size_t i = 0; i < static_cast<std::size_t>(count); ++i) {
        const EGLDisplay display = started(open(EGL_PLATFORM_DEVICE_EXT, found[i], nullptr));
        if (display != EGL_NO_DISPLAY) return display;
    }
    return EGL_NO_DISPLAY;
}

EGLDisplay default_display() {
    return started(eglGetDisplay(EGL_DEFAULT_DISPLAY));
}

EGLContext core_context(EGLDisplay display) {
    if (eglBindAPI(EGL_OPENGL_API) != EGL_TRUE) return EGL_NO_CONTEXT;
    const std::array<EGLint, 3> wanted{EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT, EGL_NONE};
    EGLConfig config = nullptr;
    EGLint count = 0;
    // Without a surface a configuration is only needed where EGL_KHR_no_config_context is missing.
    if (!lists(eglQueryString(display, EGL_EXTENSIONS), "EGL_KHR_no_config_context"))
        eglChooseConfig(display, wanted.data(), &config, 1, &count);
    const std::array<EGLint, 7> version{EGL_CONTEXT_MAJOR_VERSION,
                                        4,
                                        EGL_CONTEXT_MINOR_VERSION,
                                        1,
                                        EGL_CONTEXT_OPENGL_PROFILE_MASK,
                                        EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                                        EGL_NONE};
    return eglCreateContext(display, config, EGL_NO_CONTEXT, version.data());
}

} // namespace

Result<std::shared_ptr<HeadlessContext>> HeadlessContext::create() {
    struct Way {
        const char* name;
        EGLDisplay (*open)();
    };
    const std::array<Way, 3> ways{Way{"surfaceless", surfaceless_display},
                                  Way{"device", device_display}, Way{"default", default_display}};
    const EGLDisplay earlier_display = eglGetCurrentDisplay();
    const EGLContext earlier_context = eglGetCurrentContext();
    for (const Way& way : ways) {
        const EGLDisplay display = way.open();
        if (display == EGL_NO_DISPLAY) continue;
        const EGLContext context = core_context(display);
        if (context == EGL_NO_CONTEXT) continue;
        if (eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, context) != EGL_TRUE) {
            eglDestroyContext(display, context);
            continue;
        }
        if (Outcome problem = load_gl(eglGetProcAddress)) return *problem;
        std::shared_ptr<HeadlessContext> made(new HeadlessContext);
        made->display_ = display;
        made->context_ = context;
        made->earlier_display_ = earlier_display;
        made->earlier_context_ = earlier_context;
        made->platform_ = way.name;
        return made;
    }
    return Problem{"EGL", "no OpenGL 4.1 core context",
                   "could be made without a window; install a driver (Debian: libegl-mesa0 and "
                   "libgl1-mesa-dri)"};
}

HeadlessContext::~HeadlessContext() {
    eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
    eglDestroyContext(display_, context_);
    if (earlier_context_ != EGL_NO_CONTEXT)
        eglMakeCurrent(earlier_display_, EGL_NO_SURFACE, EGL_NO_SURFACE, earlier_context_);
    // The display stays initialised: other contexts of this program may share it.
}

} // namespace keystead
