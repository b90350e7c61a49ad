// The window's state, as one plain value, and what changes it. It holds no truth about the set:
// that is the history's. Results carry the revision they were made from.
#pragma once

#include "engine/edit/history.h"
#include "engine/ui/build_order.h"
#include "engine/ui/file_list.h"
#include "engine/ui/kept_states.h"
#include "engine/ui/learn.h"
#include "engine/ui/lens_view.h"
#include "engine/ui/overlays.h"
#include "engine/ui/picture_file.h"
#include "engine/ui/remedy.h"
#include "engine/ui/settings.h"
#include "engine/ui/sheet.h"
#include "engine/ui/side_panel.h"
#include "engine/ui/side_work.h"
#include "engine/ui/taking_in.h"
#include "engine/ui/unsaved_copy.h"
#include "engine/ui/workshop.h"

#include <filesystem>

namespace keystead::ui {

struct App {
    History history{Set{}};
    std::uint64_t opened_at = 0; ///< added to the history's own count: stamps never repeat
    std::uint64_t revision() const { return opened_at + history.revision(); }
    std::filesystem::path file; ///< where it was opened from or saved to; may be empty
    /// Where relative paths in the set start; empty while it has no file.
    std::filesystem::path folder() const;

    Drawn drawn;
    std::shared_ptr<const Studio> studio;
    std::shared_ptr<const SubjectOutline> outline;
    std::shared_ptr<const IndirectLight>
        indirect; ///< baked for `indirect_of`, maybe an older studio
    std::shared_ptr<const Studio> indirect_of;
    std::optional<Review> review;
    std::vector<std::optional<Remedy>> remedies; ///< one a finding of `review`
    std::uint64_t drawn_revision = 0, studio_revision = 0, review_revision = 0;
    bool anything_drawn = false;
    std::unique_ptr<Workshop> workshop; ///< null in tests: nothing is computed in the background

    Selection selection;
    std::optional<Selection> hovered;
    Settings settings;
    std::filesystem::path settings_path;
    bool keeps_distance = false; ///< a light that is moved stays as far from the face
    bool menu_wanted = false;    ///< a key asked for the menu line
    bool room_in_plan = false, findings_open = false, seen_open = false;
    ShownAs shown_as = ShownAs::picture; ///< through the lens
    bool clipping_marks = false;
    Orbit orbit;
    SheetMemory plan, elevation;
    SheetDrag sheet_drag;
    RowMemory rows;
    OpenSections sections;
    FileList files;
    TakingIn taking;
    std::function<void()> wake; ///< ends the window's wait for events; may be empty
    PointPlacing placing;
    Learn learn;
    KeptStates kept;
    BuildOrder build_order;
    SideWork side_work;
    PictureFile picture_file;
    bool show_cautions = false, show_keys = false;

    /// What waits for the answer about unsaved changes.
    std::optional<Wish> asked;
    std::vector<LeftBehind> left_behind; ///< unsaved sets of sessions that broke off
    std::filesystem::path brought_back;  ///< the copy the set in hand came from, until it is saved
    bool unsaved_given_up = false;       ///< what `asked` was answered, for the wish that follows
    std::string notice;
    bool notice_is_bad = false;
    bool quit = false;

    /// Notes of this set that were seen; may be null.
    const std::vector<SeenNote>* seen() const { return seen_of(settings.seen, file_key()); }
    std::string file_key() const; ///< its whole path; empty without a file

    Rect lens_picture, room_picture; ///< as laid out in the last frame
    Splits& splits();
    Arrangement arrangement() const;
    bool dragging() const { return history.dragging(); }
};

/// Opens a file, or says why not in `notice`.
bool open_set(App& app, const std::filesystem::path& file);
void show_set(App& app, Set set, std::filesystem::path file);

/// Carries out what the frame asked for, then brings drawing and background work up to date.
void carry_out(App& app, Outbox& out);
/// Takes over what the workshop finished; older than what is shown is dropped. True if anything
/// changed.
bool take_results(App& app);
/// Wishes of the keyboard.
void shortcuts(const App& app, Outbox& out);

/// Example sets of the installation.
std::vector<std::filesystem::path> example_sets();

} // namespace keystead::ui
