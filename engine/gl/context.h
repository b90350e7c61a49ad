// An OpenGL 4.1 core context without a window.
#pragma once

#include "sim/base/result.h"

#include <memory>
#include <string>

namespace keystead {

/// Headless EGL: surfaceless platform, then device platform, then default display. Current from its
/// making until its end, which makes the context current again that was so before.
class HeadlessContext {
public:
    static Result<std::shared_ptr<HeadlessContext>> create();
    ~HeadlessContext();
    HeadlessContext(const HeadlessContext&) = delete;
    HeadlessContext& operator=(const HeadlessContext&) = delete;

    const std::string& platform() const { return platform_; } ///< which EGL platform answered

private:
    HeadlessContext() = default;
    void* display_ = nullptr;
    void* context_ = nullptr;
    void* earlier_display_ = nullptr;
    void* earlier_context_ = nullptr;
    std::string platform_;
};

} // namespace keystead
