// The real window and its mirror, worked by the same hand: what is done is done to both.
#pragma once

#include "tests/window/mirror.h"
#include "tests/window/session.h"

namespace keystead::journeys {

struct Twins {
    Session session;
    Mirror mirror;

    explicit Twins(const std::string& name);

    void to(const ImVec2& p);
    void click(const ImVec2& p);
    void drag(const ImVec2& from, const ImVec2& on);
    void away(); ///< the pointer where it points at nothing

    /// Presses a letter with Ctrl, and Shift too.
    void control(char letter, bool shift = false);
    void key(ImGuiKey key); ///< Enter, Escape, Page Up and Page Down
    void undo();
    /// Writes into the field that has the keyboard, in place of what is there.
    void write(const std::string& text);

    /// Opens the field of a number in the panel, and waits until its frame is there.
    void open_field(const std::string& row);

    /// Names the file in the open list and presses Enter: there alone. The mirror only closes its
    /// list, since it would write the same file.
    void name_file(const std::string& name);

    /// Picks from a menu of the line at the top.
    void menu(const std::string& title, const std::string& entry);
    /// Picks from the list of a choice in the panel.
    void choose(const std::string& row, const std::string& entry);

    /// The file becomes the mirror's document, byte for byte.
    void saved(const std::filesystem::path& file, const std::string& what);
    /// That part of the window comes to look as in the mirror.
    void expect_same(const ui::Rect& part, const std::string& what);
    /// Strip and findings come to look as in the mirror, which is reviewed first.
    void expect_same_verdicts();
    /// Waits until the lens picture's mean level is as wanted; the level.
    double wait_for_level(const std::string& what, const std::function<bool(double)>& wanted);
};

} // namespace keystead::journeys
