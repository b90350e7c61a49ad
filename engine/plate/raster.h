// A fine canvas for drawn plates: painted several times finer than the picture, then averaged.
#pragma once

#include "engine/render/filler.h"

#include <glm/glm.hpp>
#include <span>

namespace keystead {

class FineCanvas {
public:
    static constexpr int fineness = 3; ///< fine pixels along a picture pixel

    FineCanvas(int width_px, int height_px, const glm::u8vec3& paper);
    int width() const { return width_; } ///< fine pixels
    int height() const { return height_; }

    void put(int x, int y, const glm::u8vec3& colour);
    /// Everything below is in picture pixels.
    void fill(float left, float top, float right, float bottom, const glm::u8vec3& colour);
    void disc(const glm::vec2& middle, float radius, const glm::u8vec3& colour);
    /// `dash`: lengths of stroke and gap in turn; empty for a full line. `along` is where in the
    /// pattern the line begins; returns where it ends.
    float line(const glm::vec2& from, const glm::vec2& to, float width, const glm::u8vec3& colour,
               std::span<const float> dash = {}, float along = 0.0F);
    RgbaImage averaged() const;

private:
    int width_, height_;
    std::vector<glm::u8vec3> pixels_;
};

/// Lines along which a field on a grid of places crosses a level, by the sides of its squares, in
/// proportion; grid coordinates, joined as far as they go.
std::vector<std::vector<glm::vec2>> level_lines(std::span<const float> field, int columns, int rows,
                                                float level);

} // namespace keystead
