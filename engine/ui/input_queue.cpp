#include "engine/ui/input_queue.h"

#include <algorithm>

namespace keystead::ui {

std::optional<PointerEvent> PointerQueue::next(float& x, float& y) {
    if (events_.empty()) return std::nullopt;
    const PointerEvent event = events_.front();
    x = event.x;
    y = event.y;
    // What is under the pointer is only known a frame after it got there.
    if (!moved_there_) {
        moved_there_ = true;
        return std::nullopt;
    }
    moved_there_ = false;
    events_.pop_front();
    return event;
}

std::vector<KeyEvent> KeyQueue::next() {
    std::vector<KeyEvent> portion;
    while (!events_.empty()) {
        const KeyEvent& event = events_.front();
        // Down and up, or up and down again, of one key in one frame would be no press.
        const bool turned =
            std::any_of(portion.begin(), portion.end(), [&](const KeyEvent& earlier) {
                return earlier.key == event.key && (earlier.action == 0) != (event.action == 0);
            });
        if (turned) break;
        portion.push_back(event);
        events_.pop_front();
    }
    return portion;
}

} // namespace keystead::ui
