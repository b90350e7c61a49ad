// A screen of its own for the tests: Xvfb on a free display, seen through Xlib.
#pragma once

#include "engine/render/renderer.h"
#include "engine/ui/layout.h"

#include <filesystem>
#include <memory>
#include <string>

namespace keystead::journeys {

class Screen {
public:
    /// Fails the test with a plain sentence where Xvfb or xdotool is missing.
    Screen(int width_px, int height_px);
    ~Screen();
    Screen(const Screen&) = delete;
    Screen& operator=(const Screen&) = delete;

    const std::string& name() const; ///< as in DISPLAY
    int width() const;
    int height() const;

    /// Title of the window on top; empty without one.
    std::string title() const;
    /// The keyboard goes to the window on top, as a window manager would have it.
    void focus() const;
    /// What is seen, without the pointer.
    RgbaImage seen() const;
    RgbaImage seen(const ui::Rect& part) const;

    /// Drags that file from another program onto the window at that place and lets it go (XDND 5).
    /// False when the window would not have it.
    bool drop(const std::filesystem::path& file, int x, int y) const;

private:
    struct Data;
    std::unique_ptr<Data> data_;
};

/// The one screen of this program, started when it is first asked for.
Screen& the_screen();

} // namespace keystead::journeys
