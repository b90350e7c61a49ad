#include "engine/ui/state_wishes.h"

#include "engine/ui/size_slider.h"

#include <algorithm>
#include <charconv>

namespace keystead::ui {

namespace {

/// GLFW's codes beside the capitals.
constexpr int page_up = 266, page_down = 267;

int number_in(const std::string& text, int otherwise) {
    int number = otherwise;
    std::from_chars(text.data(), text.data() + text.size(), number);
    return number;
}

void keep(App& app) {
    KeptState state;
    state.when = clock_words();
    state.revision = app.revision();
    state.set = std::make_shared<const Set>(app.history.set());
    if (app.studio && app.studio_revision == app.revision()) state.studio = app.studio;
    if (app.review && app.review_revision == app.revision())
        state.review = std::make_shared<const Review>(*app.review);
    state.indirect = app.indirect;
    state.indirect_of = app.indirect_of;
    keep_state(app.kept, std::move(state));
    app.notice = app.kept.list.back().name() + ": hold K to see it again";
    app.notice_is_bad = false;
}

void take_back(App& app, int number) {
    const KeptState* state = app.kept.with(number);
    if (state == nullptr) return;
    Batch command = become(app.history.set(), *state->set, "take " + state->name() + " back");
    app.notice_is_bad = false;
    if (command.commands.empty()) {
        app.notice = "the set is as it was kept";
        return;
    }
    if (const Outcome problem = app.history.run(Command(std::move(command)))) {
        app.notice = problem->message();
        app.notice_is_bad = true;
    }
}

void select_step(App& app) {
    const BuildStep& step = app.build_order.steps[app.build_order.at];
    app.selection = step.added.empty() ? Selection{} : Selection{Thing::light, step.added};
}

void leave_build(App& app) {
    if (app.build_order.steps.empty()) return;
    app.selection = still_there(app.build_order.before, app.history.set());
    app.build_order = {};
}

void begin_build(App& app) {
    const Landmarks* landmarks = app.studio ? &app.studio->subject->landmarks : nullptr;
    BuildOrder order = build_order_of(app.history.set(), landmarks, app.revision());
    if (order.steps.empty()) {
        app.notice = "no light is on";
        app.notice_is_bad = false;
        return;
    }
    order.before = app.selection;
    app.build_order = std::move(order);
    app.kept.split = app.kept.flipped = false;
    select_step(app);
}

void step(App& app, int by) {
    if (app.build_order.shown(app.revision()) == nullptr) return;
    go_step(app.build_order, by);
    select_step(app);
}

void see(App& app, int index, bool seen) {
    if (!app.review || index < 0 || index >= static_cast<int>(app.review->findings.size())) return;
    mark_seen(app.settings.seen, app.file_key(),
              app.review->findings[static_cast<std::size_t>(index)], seen);
}

void split(App& app) {
    if (app.kept.list.empty()) return;
    app.kept.split = !app.kept.split;
    if (app.kept.split) leave_build(app);
}

} // namespace

bool carry_out_state_wish(App& app, const Wish& wish) {
    KeptStates& kept = app.kept;
    const int number = number_in(wish.text, kept.picked);
    switch (wish.act) {
    case Act::keep_state:
        return keep(app), true;
    case Act::kept_page:
        return kept.page_open = !kept.page_open, true;
    case Act::pick_kept:
        return kept.picked = number, true;
    case Act::flip:
        return kept.flipped = !wish.text.empty() && !kept.list.empty(), true;
    case Act::split_picture:
        return split(app), true;
    case Act::take_back:
        if (!app.dragging()) take_back(app, number);
        return true;
    case Act::name_kept:
        for (KeptState& each : kept.list)
            if (each.number == kept.picked) each.called = wish.text;
        return true;
    case Act::forget_kept:
        return forget_state(kept, number), true;
    case Act::build_order:
        return app.build_order.steps.empty() ? begin_build(app) : leave_build(app), true;
    case Act::build_step:
        return step(app, number_in(wish.text, 1)), true;
    case Act::see_note:
    case Act::unsee_note:
        return see(app, number_in(wish.text, -1), wish.act == Act::see_note), true;
    case Act::set_size:
        app.settings.size_percent =
            std::clamp(number_in(wish.text, 100), smallest_size_percent, largest_size_percent);
        return true;
    case Act::leave_hints:
        return app.settings.hints_done = all_hints, true;
    default:
        return false;
    }
}

void state_shortcuts(const App& app, Outbox& out) {
    const ImGuiIO& io = ImGui::GetIO();
    const KeptStates& kept = app.kept;
    const bool listens = !io.WantTextInput && !io.KeyAlt;
    // Letting go of Ctrl before K is no hold.
    const bool begun = kept.flipped || ImGui::IsKeyPressed('K', false);
    const bool held =
        listens && !io.KeyCtrl && begun && ImGui::IsKeyDown('K') && !kept.list.empty();
    if (held != kept.flipped) out.wish(Act::flip, held ? "on" : "");
    size_keys(app.settings.size_percent, out);
    if (!listens) return;
    if (io.KeyCtrl && ImGui::IsKeyPressed('K', false))
        out.wish(io.KeyShift ? Act::split_picture : Act::keep_state);
    if (io.KeyCtrl && ImGui::IsKeyPressed('P', false)) out.wish(Act::picture_sheet);
    if (io.KeyCtrl && io.KeyShift && ImGui::IsKeyPressed('C', false)) out.wish(Act::copy_caption);
    if (io.KeyCtrl && ImGui::IsKeyPressed('D', false)) out.wish(Act::kept_page);
    if (io.KeyCtrl && ImGui::IsKeyPressed('B', false)) out.wish(Act::build_order);
    const bool building = app.build_order.shown(app.revision()) != nullptr;
    if (building && ImGui::IsKeyPressed(page_down)) out.wish(Act::build_step, "1");
    if (building && ImGui::IsKeyPressed(page_up)) out.wish(Act::build_step, "-1");
    const bool busy = app.dragging() || app.sheet_drag.grip || app.rows.editing != 0 ||
                      app.placing.wanted || app.picture_file.open || app.show_cautions ||
                      app.show_keys || ImGui::IsPopupOpen("", ImGuiPopupFlags_AnyPopup);
    if (busy || !ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false)) return;
    if (building)
        out.wish(Act::build_order);
    else if (kept.split)
        out.wish(Act::split_picture);
}

void heed_new_revision(App& app) {
    if (!app.build_order.steps.empty() && app.build_order.revision != app.revision())
        app.build_order = {};
}

} // namespace keystead::ui
