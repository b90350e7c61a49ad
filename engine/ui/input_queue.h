// Input as it happened, handed on in portions that one frame can tell apart. However slow a frame
// is, a press is seen where the pointer was then, a key that was only tapped is still seen, and
// what is written after a click or a key comes after it.
#pragma once

#include <cstdint>
#include <deque>
#include <limits>
#include <optional>
#include <vector>

namespace keystead::ui {

/// Place of an event among all others, those of the other queue included.
using InputOrder = std::uint64_t;
inline constexpr InputOrder no_input = std::numeric_limits<InputOrder>::max();

struct PointerEvent {
    int button = 0;
    bool down = false;
    float x = 0.0F, y = 0.0F; ///< window units
    InputOrder order = 0;
};

/// Presses and releases of the pointer: one a frame.
class PointerQueue {
public:
    void add(const PointerEvent& event) { events_.push_back(event); }
    bool empty() const { return events_.empty(); }
    InputOrder order() const { return events_.empty() ? no_input : events_.front().order; }

    /// The next event, if the pointer has already rested a frame where it happened; else only moves
    /// it there. `x`, `y` become where the pointer is this frame.
    std::optional<PointerEvent> next(float& x, float& y);

private:
    std::deque<PointerEvent> events_;
    bool moved_there_ = false;
};

struct KeyEvent {
    int key = 0, scancode = 0, action = 0, mods = 0; ///< as GLFW gives them; action 0 = release
    unsigned character = 0;                          ///< something written, and no key; 0: a key
    InputOrder order = 0;
};

class KeyQueue {
public:
    void add(const KeyEvent& event) { events_.push_back(event); }
    bool empty() const { return events_.empty(); }
    InputOrder order() const { return events_.empty() ? no_input : events_.front().order; }

    /// All up to `before`, as far as one frame takes them for what they were: a key turns once, and
    /// keeps the Ctrl or Shift it was pressed with; what is written comes after the keys before it.
    std::vector<KeyEvent> next(InputOrder before = no_input);

private:
    std::deque<KeyEvent> events_;
};

} // namespace keystead::ui
