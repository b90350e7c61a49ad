// Text written into a picture that no window shows, in the window's own type.
#pragma once

#include "engine/render/renderer.h"

#include <glm/glm.hpp>
#include <memory>
#include <string>

namespace keystead::ui {

class Lettering {
public:
    /// `scale`: 1 writes the window's type at its usual size.
    explicit Lettering(float scale);
    ~Lettering();
    Lettering(const Lettering&) = delete;
    Lettering& operator=(const Lettering&) = delete;

    enum class Face { small, body, title };

    int width_px(const std::string& text, Face face) const;
    int line_px(Face face) const;
    /// Left and top of the line in pixels from the picture's top left; `colour` as sRGB code
    /// values. What does not fit is cut off.
    void write(RgbaImage& picture, int left, int top, const std::string& text, Face face,
               const glm::u8vec3& colour) const;

private:
    struct Data;
    std::unique_ptr<Data> data_;
};

} // namespace keystead::ui
