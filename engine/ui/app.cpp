#include "engine/ui/app.h"

#include "engine/ui/measured_wishes.h"
#include "engine/ui/mesh_wishes.h"
#include "engine/ui/recovery.h"
#include "engine/ui/selection_keys.h"
#include "engine/ui/set_commands.h"
#include "engine/ui/state_wishes.h"
#include "sim/set/catalogue.h"
#include "sim/set/set_io.h"

#include <algorithm>

namespace keystead::ui {

Arrangement App::arrangement() const {
    if (settings.arrangement > 0) return static_cast<Arrangement>(settings.arrangement - 1);
    return history.set().camera.orientation == Orientation::upright ? Arrangement::upright
                                                                    : Arrangement::landscape;
}

Splits& App::splits() {
    return settings.splits[static_cast<std::size_t>(arrangement())];
}

std::filesystem::path App::folder() const {
    std::error_code error;
    return file.empty() ? std::filesystem::path()
                        : std::filesystem::absolute(file, error).parent_path();
}

std::string App::file_key() const {
    std::error_code error;
    return file.empty() ? std::string() : std::filesystem::absolute(file, error).string();
}

std::vector<std::filesystem::path> example_sets() {
    std::vector<std::filesystem::path> sets;
    std::error_code error;
    for (std::filesystem::directory_iterator it(assets_folder() / "sets", error), end;
         !error && it != end; it.increment(error))
        if (it->path().extension() == ".json") sets.push_back(it->path());
    std::sort(sets.begin(), sets.end());
    return sets;
}

namespace {

void say(App& app, std::string words, bool bad = false) {
    app.notice = std::move(words);
    app.notice_is_bad = bad;
}

/// Which findings one command mends. Tried on the statics, so not while a drag is in hand.
void refresh_remedies(App& app) {
    app.remedies.clear();
    if (!app.review) return;
    app.remedies.resize(app.review->findings.size());
    if (app.dragging()) return;
    for (std::size_t i = 0; i < app.remedies.size(); ++i)
        app.remedies[i] = remedy_for(app.review->findings[i], app.drawn, *app.review);
}

void redraw(App& app) {
    app.drawn = draw_set(app.history.set(), app.studio ? &app.studio->subject->landmarks : nullptr);
    app.drawn_revision = app.revision();
    app.anything_drawn = true;
    app.selection = still_there(app.selection, app.history.set());
    refresh_remedies(app);
}

void request_work(App& app) {
    if (app.workshop)
        app.workshop->request(app.revision(), app.history.set(), app.dragging(), app.folder(),
                              app.taking.at_hand);
}

void edit(App& app, const Edit& wanted) {
    switch (wanted.phase) {
    case EditPhase::perform:
        if (app.dragging()) app.history.commit_drag();
        if (const Outcome problem = app.history.run(wanted.command))
            say(app, problem->message(), true);
        break;
    case EditPhase::drag:
        if (!app.dragging()) app.history.begin_drag();
        if (const Outcome problem = app.history.run(wanted.command))
            say(app, problem->message(), true);
        break;
    case EditPhase::drop:
        if (app.dragging()) app.history.commit_drag();
        refresh_remedies(app);
        request_work(app);
        break;
    case EditPhase::cancel:
        if (app.dragging()) app.history.cancel_drag();
        request_work(app);
        break;
    }
}

void save_to(App& app, const std::filesystem::path& file) {
    std::error_code error;
    const std::vector<Command> paths = path_commands(
        app.history.set(), app.folder(), std::filesystem::absolute(file, error).parent_path());
    if (!paths.empty()) edit(app, {EditPhase::perform, together("paths of files", paths)});
    if (const Outcome problem = save_set(app.history.set(), file))
        return say(app, problem->message(), true);
    const std::string before = app.file_key();
    app.file = file;
    seen_moved(app.settings.seen, before, app.file_key());
    set_moved(app.taking, app.folder());
    app.history.mark_saved();
    brought_back_is_saved(app);
    remember_file(app.settings, file);
    say(app, "saved");
}

void ask_where_to_save(App& app) {
    const std::string name =
        app.file.empty() ? app.history.set().name + ".json" : app.file.filename().string();
    open_file_list(app.files, app.file.empty() ? std::filesystem::path() : app.file.parent_path(),
                   true, name);
}

void save(App& app) {
    // What was brought back may be older than the file by now: the file is offered, not taken.
    if (app.file.empty() || !app.brought_back.empty())
        ask_where_to_save(app);
    else
        save_to(app, app.file);
}

/// New, quit and a file that is opened give the present set up; looking for one does not.
bool gives_up_set(Act act) {
    return act == Act::new_set || act == Act::open_file || act == Act::bring_back ||
           act == Act::quit;
}

void give_up(App& app, const Wish& wish) {
    if (wish.act == Act::quit) app.quit = true;
    if (wish.act == Act::new_set) {
        Set fresh;
        fresh.name = "new set";
        show_set(app, std::move(fresh), {});
    }
    if (wish.act == Act::open_file) open_set(app, wish.text);
    if (wish.act == Act::bring_back) bring_back(app, wish.text);
}

void arrange(App& app, Act act) {
    if (act == Act::theme_dark) app.settings.theme = ThemeKind::dark;
    if (act == Act::theme_light) app.settings.theme = ThemeKind::light;
    if (act >= Act::arrange_by_frame && act <= Act::arrange_row)
        app.settings.arrangement = static_cast<int>(act) - static_cast<int>(Act::arrange_by_frame);
    if (act >= Act::surround_theme && act <= Act::surround_light)
        app.settings.surround =
            static_cast<Surround>(static_cast<int>(act) - static_cast<int>(Act::surround_theme));
    if (act == Act::plan_view) app.room_in_plan = false;
    if (act == Act::room_view) app.room_in_plan = !app.room_in_plan;
    if (act == Act::picture_shown) app.shown_as = ShownAs::picture;
    if (act == Act::stops_shown)
        app.shown_as = app.shown_as == ShownAs::stops ? ShownAs::picture : ShownAs::stops;
    if (act == Act::clipping_marks) app.clipping_marks = !app.clipping_marks;
    if (act == Act::learn) app.settings.learn = !app.settings.learn;
    if (act == Act::close_up) app.learn.whole_picture = !app.learn.whole_picture;
    if (act == Act::chart_shown) app.learn.elevation_shown = !app.learn.elevation_shown;
    if (act == Act::follow_head) app.learn.follow.on = !app.learn.follow.on;
    if (act == Act::units_metric) app.settings.units = Units::metric;
    if (act == Act::units_imperial) app.settings.units = Units::imperial;
    if (act == Act::keep_distance) app.keeps_distance = !app.keeps_distance;
    if (act == Act::open_menu) app.menu_wanted = true;
    if (act == Act::fit_views) app.plan.sheet = app.elevation.sheet = {};
    if (act == Act::toggle_findings) app.findings_open = !app.findings_open;
    if (act == Act::toggle_seen) app.seen_open = !app.seen_open;
    if (act == Act::cautions) app.show_cautions = !app.show_cautions;
    if (act == Act::keys) app.show_keys = !app.show_keys;
}

/// The new light is picked at once: it is what comes next.
void add_light(App& app, const std::string& role) {
    const std::size_t before = app.history.set().lights.size();
    edit(app, {EditPhase::perform, AddLight{"", role, "", "", ""}});
    const auto& lights = app.history.set().lights;
    if (lights.size() > before) app.selection = {Thing::light, lights.back().id};
}

void fulfil(App& app, const Wish& wish) {
    if (carry_out_mesh_wish(app, wish) || carry_out_measured_wish(app, wish) ||
        carry_out_state_wish(app, wish) || carry_out_picture_wish(app, wish))
        return;
    if (gives_up_set(wish.act)) {
        if (app.history.dirty() && !std::exchange(app.unsaved_given_up, false))
            app.asked = wish;
        else
            give_up(app, wish);
        return;
    }
    if (wish.act == Act::undo && !app.dragging())
        app.history.undo();
    else if (wish.act == Act::redo && !app.dragging())
        app.history.redo();
    else if (wish.act == Act::open)
        open_file_list(app.files,
                       app.file.empty() ? std::filesystem::path() : app.file.parent_path(), false,
                       "");
    else if (wish.act == Act::drop_copy)
        drop_copy(app, wish.text);
    else if (wish.act == Act::save)
        save(app);
    else if (wish.act == Act::save_as && wish.text.empty())
        ask_where_to_save(app);
    else if (wish.act == Act::save_as)
        save_to(app, wish.text);
    else if (wish.act == Act::add_light)
        add_light(app, wish.text);
    else
        arrange(app, wish.act);
}

/// Drawing and background work, if the set is another one now.
void catch_up(App& app) {
    if (app.drawn_revision == app.revision() && app.anything_drawn) return;
    redraw(app);
    request_work(app);
}

LessonsWanted lessons_of(const App& app) {
    LessonsWanted wanted;
    wanted.on = app.settings.learn;
    wanted.studio = app.studio;
    wanted.studio_is_current = app.studio_revision == app.revision();
    wanted.review = app.review ? &*app.review : nullptr;
    // By the studio's own list: the set's may be a light ahead of it.
    if (app.studio) wanted.light = taught_light(app.studio->set, wanted.review, app.selection);
    wanted.dragging = app.dragging();
    return wanted;
}

/// A file that is ready goes into the set, and its rows are shown.
bool take_mesh(App& app) {
    if (!app.taking.open) return false;
    const TakenAs as = app.taking.take_when_ready.value_or(TakenAs::subject);
    const std::optional<Command> command = look(app.taking, app.history.set());
    if (!command) return true;
    app.notice.clear();
    edit(app, {EditPhase::perform, *command});
    app.selection = {as == TakenAs::subject ? Thing::subject : Thing::room, {}};
    (as == TakenAs::subject ? app.sections.own : app.sections.props) = true;
    catch_up(app);
    return true;
}

} // namespace

void show_set(App& app, Set set, std::filesystem::path file) {
    // Stamps go on rising, so that nothing made from the last set is taken for this one's.
    app.opened_at = app.revision() + 1;
    app.history = History(std::move(set));
    app.studio_revision = app.review_revision = app.opened_at;
    app.file = std::move(file);
    app.brought_back.clear();
    app.review.reset();
    app.studio.reset();
    app.indirect.reset();
    app.indirect_of.reset();
    app.outline.reset();
    app.selection = {};
    if (!app.history.set().lights.empty())
        app.selection = {Thing::light, app.history.set().lights.front().id};
    app.plan = {};
    app.elevation = {};
    app.sheet_drag = {};
    app.placing = {};
    forget_lessons(app.learn);
    app.kept = {};
    app.build_order = {};
    if (app.file.empty()) forget_seen(app.settings.seen, "");
    leave(app.taking);
    app.notice.clear();
    redraw(app);
    request_work(app);
}

bool open_set(App& app, const std::filesystem::path& file) {
    Result<LoadedSet> loaded = load_set(file);
    if (!loaded) {
        say(app, loaded.problem().message(), true);
        return false;
    }
    const std::size_t notes = loaded.value().notes.size();
    const std::string first = notes > 0 ? loaded.value().notes.front().message() : std::string();
    show_set(app, std::move(loaded).value().set, file);
    remember_file(app.settings, file);
    if (notes > 0)
        say(app, first + (notes > 1 ? " (and " + std::to_string(notes - 1) + " more)" : ""));
    return true;
}

void carry_out(App& app, Outbox& out) {
    if (!out.edits.empty()) app.notice.clear();
    for (const Edit& wanted : out.edits) edit(app, wanted);
    for (const Wish& wish : out.wishes) fulfil(app, wish);
    if (out.select) {
        app.selection = *out.select;
        app.kept.page_open = false;
    }
    if (app.selection.thing != Thing::subject) app.placing = {};
    catch_up(app);
    keep_learning(app.learn, lessons_of(app));
    heed_new_revision(app);
    app.side_work.ask(app);
    out = {};
}

bool take_results(App& app) {
    bool changed = take_mesh(app);
    changed = take_lessons(app.learn) || changed;
    changed = take_picture_results(app) || changed;
    if (!app.workshop) return changed;
    changed |= app.side_work.take(app);
    for (Finished& each : app.workshop->collect()) {
        if (each.studio && each.revision >= app.studio_revision) {
            app.studio = each.studio;
            app.outline = each.outline;
            app.studio_revision = each.revision;
            if (each.indirect) app.indirect = each.indirect, app.indirect_of = each.studio;
            redraw(app);
            changed = true;
        }
        if (each.review && each.revision >= app.review_revision) {
            app.review = std::move(each.review);
            app.review_revision = each.revision;
            refresh_remedies(app);
            changed = true;
        }
    }
    return changed;
}

void shortcuts(const App& app, Outbox& out) {
    const ImGuiIO& io = ImGui::GetIO();
    // GLFW's codes: letters are their capitals, F1 is 290.
    constexpr int f1 = 290;
    const auto pressed = [](int key) { return ImGui::IsKeyPressed(key, false); };
    if (app.asked || app.files.open) return;
    state_shortcuts(app, out);
    selection_keys(app, out);
    if (pressed(f1)) out.wish(Act::cautions);
    if (pressed(f1 + 1)) out.wish(Act::plan_view);
    if (pressed(f1 + 2)) out.wish(Act::room_view);
    if (pressed(f1 + 3)) out.wish(Act::fit_views);
    if (pressed(f1 + 4)) out.wish(Act::stops_shown);
    if (pressed(f1 + 5)) out.wish(Act::clipping_marks);
    if (pressed(f1 + 6)) out.wish(Act::learn);
    if (!io.WantTextInput && app.selection.thing == Thing::light &&
        ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Delete), false))
        out.perform(RemoveLight{app.selection.id});
    if (!io.KeyCtrl) return;
    if (pressed('S')) out.wish(io.KeyShift || app.file.empty() ? Act::save_as : Act::save);
    if (pressed('O')) out.wish(Act::open);
    if (pressed('N')) out.wish(Act::new_set);
    if (pressed('Q')) out.wish(Act::quit);
    // In a text field these belong to the text.
    if (io.WantTextInput) return;
    if (pressed('Z')) out.wish(io.KeyShift ? Act::redo : Act::undo);
    if (pressed('Y')) out.wish(Act::redo);
}

} // namespace keystead::ui
