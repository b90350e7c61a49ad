#include "engine/ui/close_up.h"

#include "sim/review/sight.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

CloseUp close_to_face(const Studio& studio) {
    constexpr double head_share = 0.55, not_worth_it = 0.85;
    const Landmarks& marks = studio.subject->landmarks;
    const CameraFrame camera = camera_frame(studio.set.camera);
    Vec2 crown(0.0), chin(0.0);
    if (!in_picture(camera, marks.vertex, crown) || !in_picture(camera, marks.menton, chin))
        return {};
    const Vec2 middle = 0.5 * (crown + chin);
    if (std::max(std::abs(middle.x), std::abs(middle.y)) > 1.0) return {};
    CloseUp close;
    close.share = 0.5 * std::abs(crown.y - chin.y) / head_share;
    if (close.share > not_worth_it || close.share <= 0.0) return {};
    const Vec2 most(1.0 - close.share);
    close.centre = glm::clamp(middle, -most, most);
    return close;
}

View part_of(View whole, const CloseUp& close) {
    whole.centre.x += close.centre.x * whole.tan_half_width;
    whole.centre.y += close.centre.y * whole.tan_half_height;
    whole.tan_half_width *= close.share;
    whole.tan_half_height *= close.share;
    return whole;
}

} // namespace keystead::ui
