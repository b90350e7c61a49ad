#include "engine/ui/frame.h"

#include "engine/ui/compare_view.h"
#include "engine/ui/findings_line.h"
#include "engine/ui/kept_page.h"
#include "engine/ui/learn_views.h"
#include "engine/ui/lights_strip.h"
#include "engine/ui/menu_line.h"
#include "engine/ui/notice_card.h"
#include "engine/ui/taking_panel.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace keystead::ui {

namespace {

struct Frame {
    App& app;
    Pen pen;
    const Layout& layout;
    const Pictures& pictures;
    Outbox& out;
    Rect told;             ///< the card of a notice; empty: it is in the menu's line
    bool current;          ///< the review belongs to the set as it is now
    const BuildStep* step; ///< of the build that is shown; null: the set as it is
    const Review* review() const { return app.review ? &*app.review : nullptr; }
    /// What picture and strip are about.
    const Review* shown_review() const { return step != nullptr ? step->review.get() : review(); }
    const Drawn& shown() const { return step != nullptr ? step->drawn : app.drawn; }
    bool shown_current() const { return step != nullptr || current; }
};

void menu(const Frame& f) {
    static const std::vector<std::filesystem::path> examples = example_sets();
    const App& app = f.app;
    MenuInput in;
    in.name = app.history.set().name.empty() ? "unnamed set" : app.history.set().name;
    in.state = app.history.dirty() || app.file.empty() ? "not saved yet" : "";
    if (f.told.h <= 0.0F) in.notice = app.notice, in.notice_is_bad = app.notice_is_bad;
    in.undo_label = app.history.undo_label(), in.redo_label = app.history.redo_label();
    in.can_save = app.history.dirty() || app.file.empty();
    in.theme = app.settings.theme;
    in.arrangement = app.settings.arrangement;
    in.surround = static_cast<int>(app.settings.surround);
    in.room_in_plan = app.room_in_plan;
    in.stops_shown = app.shown_as == ShownAs::stops;
    in.clipping_marks = app.clipping_marks;
    in.learn = app.settings.learn;
    in.close_up = !app.learn.whole_picture;
    in.chart_shown = chart_shown(app);
    in.head_followed = app.learn.follow.on;
    in.examples = examples;
    in.recent = app.settings.recent;
    in.left_behind = app.left_behind;
    in.size_percent = app.settings.size_percent;
    in.any_kept = !app.kept.list.empty();
    in.kept_page = app.kept.page_open;
    in.split_picture = app.kept.split;
    in.units = app.settings.units;
    in.open_first = std::exchange(f.app.menu_wanted, false);
    in.build_order = app.build_order.shown(app.revision()) != nullptr;
    menu_line(f.pen, f.layout.menu, in, f.out);
}

/// Dividers take the pointer before the views do; drawn after them.
void dividers(const Frame& f, Hit (&hits)[2]) {
    for (int i = 0; i < 2; ++i) {
        const Divider& divider = f.layout.dividers[i];
        const float grab = f.pen.px(7), off = 0.5F * grab;
        const Rect& l = divider.line;
        const Rect area =
            divider.upright ? Rect{l.x - off, l.y, grab, l.h} : Rect{l.x, l.y - off, l.w, grab};
        hits[i] = hit_area(i == 0 ? "divider main" : "divider cross", area);
        if (!hits[i].hovered && !hits[i].held) continue;
        ImGui::SetMouseCursor(divider.upright ? ImGuiMouseCursor_ResizeEW
                                              : ImGuiMouseCursor_ResizeNS);
        if (!hits[i].held) continue;
        const ImVec2 mouse = ImGui::GetIO().MousePos;
        const float fraction =
            dragged_fraction(divider, divider.upright ? mouse.x : mouse.y, f.pen.theme->scale);
        (divider.main ? f.app.splits().main : f.app.splits().cross) = fraction;
    }
}

void draw_dividers(const Frame& f, const Hit (&hits)[2]) {
    const Palette& c = f.pen.colour();
    for (int i = 0; i < 2; ++i) {
        Rect l = f.layout.dividers[i].line;
        const bool wide = hits[i].hovered || hits[i].held;
        const float thick = wide ? f.pen.px(3) : std::max(1.0F, f.pen.px(1));
        if (f.layout.dividers[i].upright)
            l.x -= std::floor(0.5F * thick), l.w = thick;
        else
            l.y -= std::floor(0.5F * thick), l.h = thick;
        fill_rect(f.pen, l, hits[i].held ? c.accent : wide ? c.line_strong : c.line);
    }
}

void views(const Frame& f, std::optional<Selection>& under) {
    App& app = f.app;
    const SheetInput in{f.shown(),
                        app.outline.get(),
                        app.selection,
                        app.hovered,
                        app.dragging() || app.sheet_drag.grip.has_value(),
                        &app.learn.follow,
                        app.keeps_distance};
    compared_lens_view(f.pen, f.layout.lens,
                       {f.shown().set, f.shown_review(), f.shown_current(), f.pictures.lens,
                        app.studio.get(), app.placing,
                        learn_lines(app, *f.pen.theme, f.layout.lens),
                        f.step != nullptr ? f.step->words : ""},
                       app.kept, f.pictures.kept, f.out);
    // The lesson is about the set as it is now.
    if (f.step == nullptr && app.kept.compared() == nullptr)
        learn_over_lens(f.pen, app, f.layout.lens);
    if (app.room_in_plan) {
        app.room_picture = room_picture_rect(f.layout.plan, *f.pen.theme);
        room_view(f.pen, f.layout.plan, f.pictures.room, app.orbit);
    } else {
        under = sheet_view(f.pen, Plane::plan, f.layout.plan, in, app.plan, app.sheet_drag, f.out);
    }
    if (chart_shown(app)) return chart_view(f.pen, app, f.layout.elevation, f.out);
    const Hit tab = chart_tab(f.pen, app, f.layout.elevation, f.out);
    const auto other = sheet_view(f.pen, Plane::elevation, f.layout.elevation, in, app.elevation,
                                  app.sheet_drag, f.out);
    draw_chart_tab(f.pen, app, f.layout.elevation, tab);
    if (other) under = other;
}

void panel(const Frame& f) {
    App& app = f.app;
    const Rect& rect = f.layout.panel;
    const Theme& theme = *f.pen.theme;
    fill_rect(f.pen, rect, f.pen.colour().panel);
    fill_rect(f.pen, {rect.x, rect.y, std::max(1.0F, theme.px(1)), rect.h}, f.pen.colour().line);
    ImGui::SetCursorScreenPos({rect.x, rect.y});
    ImGui::BeginChild("panel", {rect.w, rect.h}, false, ImGuiWindowFlags_NoBackground);
    const ImVec2 start = ImGui::GetCursorScreenPos();
    Flow flow{{ImGui::GetWindowDrawList(), &theme}, app.rows, f.out};
    flow.left = rect.x + theme.px(32);
    flow.right = rect.right() - theme.px(16);
    flow.y = start.y + theme.px(4);
    flow.compact = rect.h < theme.px(640);
    flow.set = &app.history.set();
    if (app.taking.open)
        taking_panel(flow, app.taking);
    else if (app.kept.page_open)
        kept_page(flow, {app.kept, app.history.set(), f.review(), f.current});
    else
        side_panel(flow,
                   {app.drawn, f.review(), app.selection, app.shown_as, app.clipping_marks,
                    app.studio.get(), app.placing.wanted, &app.learn.follow, app.keeps_distance},
                   app.sections);
    ImGui::SetCursorScreenPos({rect.x, flow.y + theme.px(12)});
    ImGui::Dummy({1, 1});
    ImGui::EndChild();
}

void overlays(const Frame& f, const Rect& whole) {
    App& app = f.app;
    if (app.files.open)
        if (const auto file = file_list(f.pen, whole, app.files))
            f.out.wish(app.files.pictures   ? Act::save_picture_to
                       : app.files.saving   ? Act::save_as
                       : app.files.meshes   ? Act::read_mesh
                       : app.files.measured ? Act::read_measured
                                            : Act::open_file,
                       file->string());
    if (app.picture_file.open && !app.files.open) picture_sheet(f.pen, whole, app, f.out);
    if (app.show_cautions) {
        static const std::vector<std::string> waiting{
            "The cautions come with the first review of the set."};
        const auto& lines = app.review ? app.review->cautions : waiting;
        if (sentences_page(f.pen, whole, "Cautions", lines)) app.show_cautions = false;
    }
    if (app.show_keys && sentences_page(f.pen, whole, "Keys and pointer", key_lines()))
        app.show_keys = false;
}

/// The one question; while it stands nothing else is listened to.
void question(App& app, Pen pen, const Rect& whole, Outbox& out) {
    const Answer answer = unsaved_question(pen, whole, app.history.set().name);
    if (answer == Answer::none) return;
    const Wish wish = *app.asked;
    app.asked.reset();
    if (answer == Answer::stay) return;
    if (answer == Answer::save) {
        out.wish(Act::save);
        if (app.file.empty() || !app.brought_back.empty()) return; // a name is asked for first
    } else {
        app.unsaved_given_up = true; // not marked as saved: what follows may not come about
    }
    out.wishes.push_back(wish);
}

void begin_window(const ImVec2& size) {
    ImGui::SetNextWindowPos({0, 0});
    ImGui::SetNextWindowSize(size);
    ImGui::Begin("keystead", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                     ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoBringToFrontOnFocus |
                     ImGuiWindowFlags_NoBackground | ImGuiWindowFlags_NoScrollWithMouse);
}

/// A window of its own, so that what lies over the views takes the pointer from them.
void begin_overlay(const ImVec2& size) {
    ImGui::SetNextWindowPos({0, 0});
    ImGui::SetNextWindowSize(size);
    ImGui::SetNextWindowFocus();
    ImGui::Begin("over", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                     ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoBackground);
}

std::string working_words(const App& app) {
    if (!app.studio) return "Shaping the subject…";
    return "Reading the light…";
}

} // namespace

void build_frame(App& app, const Theme& theme, const Pictures& pictures) {
    const ImVec2 size = ImGui::GetIO().DisplaySize;
    LayoutInput input;
    input.width = size.x, input.height = size.y, input.scale = theme.scale;
    input.arrangement = app.arrangement();
    input.frame_aspect = frame_aspect(app.history.set().camera);
    input.splits = app.splits();
    input.findings_rows =
        app.findings_open && app.review ? findings_rows(&*app.review, app.seen()) : 0;
    const Layout layout = arrange(input);
    Outbox out;
    shortcuts(app, out);
    begin_window(size);
    const Pen pen{ImGui::GetWindowDrawList(), &theme};
    const bool current = app.review && app.review_revision == app.revision();
    const BuildStep* step = app.build_order.shown(app.revision());
    const Rect told = notice_rect(
        pen, {0, layout.menu.bottom(), layout.panel.x, layout.strip.y - layout.menu.bottom()},
        app.notice, app.notice_is_bad);
    const Frame frame{app, pen, layout, pictures, out, told, current, step};
    app.lens_picture =
        picture_rect(layout.lens, input.frame_aspect, theme, learn_lines(app, theme, layout.lens));
    std::optional<Selection> under;
    Hit hits[2];
    menu(frame);
    dividers(frame, hits);
    const StillProgress still = app.picture_file.maker.progress();
    const bool stopped = still_progress_pointer(pen, layout.plan, still);
    if (stopped) out.wish(Act::stop_picture);
    const Rect hints = hints_rect(pen, layout.plan, app.settings.hints_done);
    if (hints_pointer(pen, hints)) out.wish(Act::leave_hints);
    const bool put_away = notice_pointer(pen, told);
    views(frame, under);
    draw_still_progress(pen, layout.plan, still);
    draw_hints(pen, hints, app.settings.hints_done);
    draw_dividers(frame, hits);
    draw_notice(pen, told, app.notice);
    if (put_away) app.notice.clear();
    const std::size_t edits_before = out.edits.size();
    panel(frame);
    app.settings.hints_done =
        hints_done({app.settings.hints_done, app.sheet_drag.grip && app.dragging(),
                    out.edits.size() > edits_before, app.kept.flipped});
    const auto in_strip = lights_strip(pen, layout.strip,
                                       {frame.shown(), frame.shown_review(), frame.shown_current(),
                                        app.selection, app.hovered, &app.rows, step != nullptr},
                                       out);
    const auto in_findings =
        findings_line(pen, layout.findings,
                      {app.drawn, frame.review(), app.remedies, current, app.findings_open,
                       working_words(app), app.seen(), app.seen_open},
                      out);
    ImGui::End();
    const bool covered =
        app.files.open || app.show_cautions || app.show_keys || app.asked || app.picture_file.open;
    if (covered) {
        begin_overlay(size);
        const Pen over{ImGui::GetWindowDrawList(), &theme};
        const Rect whole{0, 0, size.x, size.y};
        if (app.asked)
            question(app, over, whole, out);
        else
            overlays({app, over, layout, pictures, out, told, current, step}, whole);
        ImGui::End();
    }
    app.hovered = in_strip ? in_strip : in_findings ? in_findings : under;
    carry_out(app, out);
}

} // namespace keystead::ui
