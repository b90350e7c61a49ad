// What panels and views ask for. They read the set and the results and put their wishes here; the
// window carries them out after the frame. So every panel can be tested without a window.
#pragma once

#include "engine/edit/command.h"
#include "engine/ui/selection.h"

#include <string>
#include <utility>
#include <vector>

namespace keystead::ui {

/// `perform` is one undo step; `drag` changes the set provisionally, `drop` makes all of the drag
/// one step, `cancel` takes it back.
enum class EditPhase { perform, drag, drop, cancel };

struct Edit {
    EditPhase phase = EditPhase::perform;
    Command command;
};

enum class Act {
    undo,
    redo,
    new_set,
    open,
    open_file,
    bring_back, ///< the copy `text` that a session left behind
    drop_copy,
    save,
    save_as,
    quit,
    theme_dark,
    theme_light,
    arrange_by_frame,
    arrange_upright,
    arrange_landscape,
    arrange_row,
    plan_view,
    room_view,
    picture_shown,
    stops_shown,
    clipping_marks,
    learn,       ///< shadows named, patterns charted
    close_up,    ///< close to the face or the whole picture, while learning
    chart_shown, ///< the chart or the elevation, while learning
    follow_head, ///< the key moves with the head
    surround_theme,
    surround_dark,
    surround_middle,
    surround_light,
    fit_views,
    cautions,
    keys,
    toggle_findings,
    add_light, ///< of role `text`; empty: of none
    units_metric,
    units_imperial,
    keep_distance,   ///< a light that is moved stays as far from the face: on and off
    choose_measured, ///< the list of files for the picked light's measured distribution
    read_measured,   ///< the file `text`
    name_kept,       ///< the picked kept state is called `text`
    open_menu,       ///< the first list of the menu line, by key
    choose_mesh,     ///< the list of files for a subject or a prop
    read_mesh,       ///< the file `text`
    stop_mesh,
    choose_unit, ///< unit and axis as numbers: "2 1"
    take_subject,
    take_prop,
    place_point, ///< number of the point that the next click in the picture places; empty: none
    place_missed,
    keep_state,
    kept_page,     ///< the list of kept states, in the side panel
    pick_kept,     ///< the one of number `text` is to be compared
    flip,          ///< `text` not empty: it is seen in place of now
    split_picture, ///< on and off
    take_back,     ///< number `text`; empty: the picked one
    forget_kept,
    build_order, ///< on and off
    build_step,  ///< by how many: "1", "-1"
    see_note,    ///< finding number `text` needn't be told again
    unsee_note,
    toggle_seen,     ///< the folded notes
    set_size,        ///< of type and marks, percent
    leave_hints,     ///< of the first run
    picture_sheet,   ///< on and off
    choose_picture,  ///< the list of files for the picture the sheet describes
    save_picture_to, ///< file `text`
    stop_picture,
    copy_caption
};

struct Wish {
    Act act{};
    std::string text; ///< file to open, …
};

struct Outbox {
    std::vector<Edit> edits;
    std::vector<Wish> wishes;
    std::optional<Selection> select;

    void perform(Command command) { edits.push_back({EditPhase::perform, std::move(command)}); }
    void drag(Command command) { edits.push_back({EditPhase::drag, std::move(command)}); }
    void drop() { edits.push_back({EditPhase::drop, {}}); }
    void cancel() { edits.push_back({EditPhase::cancel, {}}); }
    void wish(Act act, std::string text = {}) { wishes.push_back({act, std::move(text)}); }
};

} // namespace keystead::ui
