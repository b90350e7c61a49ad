// Display codes of a linear picture without a graphics card, as shaders/display.frag makes them.
#pragma once

#include "engine/render/filler.h"

namespace keystead {

/// Linear radiance as exposed and balanced for the display, and its display code 0..1 without marks
/// or dither.
glm::vec3 exposed(const glm::vec3& linear, const Display& display);
glm::vec3 plain_code(const glm::vec3& exposed, const Display& display);

/// Maps of stops and marks of clipping as well. `shown` has the picture's size already; its rows
/// run from the top, or from the bottom as OpenGL keeps pictures.
void develop_marked(const LinearImage& linear, const Display& display, bool bottom_first,
                    RgbaImage& shown);

/// The same from the top, as a picture of its own.
RgbaImage developed(const LinearImage& linear, const Display& display);

} // namespace keystead
