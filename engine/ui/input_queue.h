// Input as it happened, handed on in portions that one frame can tell apart. However slow a frame
// is, a press is seen where the pointer was then, and a key that was only tapped is still seen.
#pragma once

#include <deque>
#include <optional>
#include <vector>

namespace keystead::ui {

struct PointerEvent {
    int button = 0;
    bool down = false;
    float x = 0.0F, y = 0.0F; ///< window units
};

/// Presses and releases of the pointer: one a frame.
class PointerQueue {
public:
    void add(const PointerEvent& event) { events_.push_back(event); }
    bool empty() const { return events_.empty(); }

    /// The next event, if the pointer has already rested a frame where it happened; else only moves
    /// it there. `x`, `y` become where the pointer is this frame.
    std::optional<PointerEvent> next(float& x, float& y);

private:
    std::deque<PointerEvent> events_;
    bool moved_there_ = false;
};

struct KeyEvent {
    int key = 0, scancode = 0, action = 0, mods = 0; ///< as GLFW gives them; action 0 = release
};

class KeyQueue {
public:
    void add(const KeyEvent& event) { events_.push_back(event); }
    bool empty() const { return events_.empty(); }

    /// All up to where a key turns that has turned in the same portion already.
    std::vector<KeyEvent> next();

private:
    std::deque<KeyEvent> events_;
};

} // namespace keystead::ui
