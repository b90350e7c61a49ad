#include "engine/ui/sheet_box.h"

#include <cmath>

namespace keystead::ui {

Rect sheet_box(Pen pen, const Rect& area, float width_px, float height_px) {
    const Rect box{std::floor(area.centre_x() - 0.5F * width_px),
                   std::floor(area.centre_y() - 0.5F * height_px), width_px, height_px};
    fill_rect(pen, box, pen.colour().panel, 4.0F);
    frame_rect(pen, box, pen.colour().line_strong, 4.0F);
    return box;
}

} // namespace keystead::ui
