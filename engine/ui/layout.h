// Where the window's parts are. Pure arithmetic on rectangles in framebuffer pixels.
#pragma once

#include <optional>

namespace keystead::ui {

struct Rect {
    float x = 0.0F, y = 0.0F, w = 0.0F, h = 0.0F;
    float right() const { return x + w; }
    float bottom() const { return y + h; }
    float centre_x() const { return x + 0.5F * w; }
    float centre_y() const { return y + 0.5F * h; }
    bool contains(float px, float py) const {
        return px >= x && px < right() && py >= y && py < bottom();
    }
};

/// `rect` made smaller by `margin` on every side; never negative.
Rect inset(const Rect& rect, float margin);

/// Upright frame: lens is a full-height column, plan over elevation beside it. Landscape frame:
/// lens over elevation at the left, plan full height beside them. `row`: lens on top, plan and
/// elevation side by side below.
enum class Arrangement { upright, landscape, row };

/// Dividers as fractions of their parent; unset ones follow the frame.
struct Splits {
    std::optional<float> main; ///< first cut: the lens column's share of the width (row: of height)
    std::optional<float> cross; ///< second cut: the upper (row: left) view's share
};

struct LayoutInput {
    float width = 1280.0F, height = 720.0F; ///< framebuffer pixels
    float scale = 1.0F;                     ///< framebuffer pixels per logical pixel
    Arrangement arrangement = Arrangement::landscape;
    float frame_aspect = 1.5F; ///< width : height of the picture
    Splits splits;
    int findings_rows = 0; ///< 0: the single line; else the expanded list
};

struct Divider {
    Rect line;           ///< one pixel wide
    bool upright = true; ///< drags sideways
    bool main = true;    ///< which of the two cuts it moves
    Rect parent;         ///< what its fraction is of
};

struct Layout {
    Rect menu, lens, plan, elevation, panel, strip, findings;
    Divider dividers[2];
};

Layout arrange(const LayoutInput& input);

/// The fraction a divider has after its line was dragged to `position` (x or y), kept where both
/// sides stay usable.
float dragged_fraction(const Divider& divider, float position, float scale);

} // namespace keystead::ui
