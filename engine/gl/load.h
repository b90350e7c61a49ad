// Loading OpenGL's functions and hearing what the driver has to say.
#pragma once

#include "sim/base/result.h"

#include <string>

namespace keystead {

using GlFunction = void (*)();
using GlFunctionFinder =
    GlFunction (*)(const char* name); ///< eglGetProcAddress, glfwGetProcAddress

/// Call once a context of version 4.1 core or newer is current. Also asks the driver for messages,
/// where it offers that: errors go to stderr, one line each.
Outcome load_gl(GlFunctionFinder find);

/// Errors the driver has reported since the program started (0 where it cannot report).
int gl_error_messages();

/// Renderer and version of the current context, e.g. "llvmpipe (LLVM 15) · 4.5 core".
std::string gl_device();

/// A software rasteriser: half the budget of a GPU, so maps and caches are kept smaller.
bool gl_is_software();

} // namespace keystead
