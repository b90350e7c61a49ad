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

namespace {

/// GLFW's codes up to here are of keys that write, unless Ctrl or Alt is held.
constexpr int last_writing_key = 162;
constexpr int control_or_alt = 2 | 4;

bool does_something(const KeyEvent& event) {
    return event.character == 0 && event.action != 0 &&
           (event.key > last_writing_key || (event.mods & control_or_alt) != 0);
}

/// Shift, Ctrl, Alt and their like, left and right.
bool is_modifier(const KeyEvent& event) {
    return event.character == 0 && event.key >= 340 && event.key <= 347;
}

/// `event` cannot be told from `earlier` in the same frame, or would change what that means.
bool waits_for(const KeyEvent& event, const KeyEvent& earlier) {
    // A field takes what is written in a frame before the keys of that frame.
    if (event.character != 0) return does_something(earlier);
    if (earlier.character != 0) return false;
    // Ctrl let go in the frame of its letter would leave the letter alone.
    if (is_modifier(event) && earlier.action != 0 && !is_modifier(earlier)) return true;
    // Down and up, or up and down again, of one key in one frame would be no press.
    return earlier.key == event.key && (earlier.action == 0) != (event.action == 0);
}

} // namespace

std::vector<KeyEvent> KeyQueue::next(InputOrder before) {
    std::vector<KeyEvent> portion;
    while (order() < before) {
        const KeyEvent& event = events_.front();
        if (std::any_of(portion.begin(), portion.end(),
                        [&](const KeyEvent& earlier) { return waits_for(event, earlier); }))
            break;
        portion.push_back(event);
        events_.pop_front();
    }
    return portion;
}

} // namespace keystead::ui
