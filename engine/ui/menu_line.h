// The menu line: menus at the left, the set's name in the middle, undo and redo at the right.
#pragma once

#include "engine/ui/outbox.h"
#include "engine/ui/type.h"
#include "engine/ui/unsaved_copy.h"

#include <filesystem>
#include <string>
#include <vector>

namespace keystead::ui {

struct MenuInput {
    std::string name;   ///< of the set
    std::string state;  ///< "not saved yet", or empty
    std::string notice; ///< what went wrong last, or was done
    bool notice_is_bad = false;
    std::string undo_label, redo_label; ///< empty: nothing to undo
    bool can_save = false;
    ThemeKind theme = ThemeKind::dark;
    int arrangement = 0; ///< 0 by the frame, 1 upright, 2 landscape, 3 row
    bool room_in_plan = false;
    bool stops_shown = false, clipping_marks = false;
    bool learn = false, close_up = false, chart_shown = false, head_followed = false;
    bool any_kept = false, kept_page = false, split_picture = false, build_order = false;
    int size_percent = 100;
    Units units = Units::metric;
    bool open_first = false; ///< a key asked for the first list
    int surround = 0;        ///< Surround as a number
    std::vector<std::filesystem::path> examples, recent;
    std::vector<LeftBehind> left_behind; ///< from sessions that broke off
};
void menu_line(Pen pen, const Rect& rect, const MenuInput& in, Outbox& out);

} // namespace keystead::ui
