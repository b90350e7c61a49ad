// A person's hand on pointer and keyboard: real events through xdotool.
#pragma once

#include "tests/window/screen.h"

#include <imgui.h>
#include <string>
#include <vector>

namespace keystead::journeys {

class Hand {
public:
    explicit Hand(const Screen& screen)
        : screen_(screen) {}

    void to(const ImVec2& p) const;
    void click(const ImVec2& p) const;
    void double_click(const ImVec2& p) const;
    /// Down at `from`, in several steps to `on`, up there unless it holds on.
    void drag(const ImVec2& from, const ImVec2& on, bool let_go = true) const;
    /// The same along a path, with as long a rest at each place.
    void drag_along(const ImVec2& from, const std::vector<ImVec2>& path, double rest_s) const;
    void let_go() const;
    void key(const char* name) const; ///< "ctrl+s", "Return", "Next"
    void type(const std::string& text) const;

private:
    void tool(const std::vector<std::string>& words) const;
    const Screen& screen_;
};

} // namespace keystead::journeys
