// An OpenGL 4.1 core context without a window.
#pragma once

#include "sim/base/result.h"

#include <memory>
#include <string>

namespace keystead {

/// Headless EGL: surfaceless platform, then device platform, then default display.
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
    std::string platform_;
};

} // namespace keystead
