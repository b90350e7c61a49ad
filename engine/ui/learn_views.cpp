#include "engine/ui/learn_views.h"

#include "engine/ui/marks.h"
#include "engine/ui/pattern_card.h"
#include "engine/ui/shadow_overlay.h"
#include "engine/ui/widgets.h"

namespace keystead::ui {

namespace {

constexpr const char* tab_words = "patterns";

Rect tab_rect(Pen pen, const Rect& view) {
    const float w = width_of(pen.theme->font.body, tab_words);
    return {view.right() - pen.px(16) - w, view.y + pen.px(4), w + pen.px(8), pen.px(24)};
}

} // namespace

int learn_lines(const App& app, const Theme& theme, const Rect& lens) {
    if (!app.settings.learn) return 0;
    return lens.w < theme.px(420) ? 5 : lens.w < theme.px(760) ? 3 : 2;
}

CloseUp lens_part(const App& app) {
    if (!app.settings.learn || app.learn.whole_picture || !app.studio || app.placing.wanted ||
        app.shown_as != ShownAs::picture || app.kept.compared() != nullptr ||
        app.build_order.shown(app.revision()) != nullptr)
        return {};
    return close_to_face(*app.studio);
}

void learn_over_lens(Pen pen, App& app, const Rect& lens) {
    if (!app.settings.learn || !app.learn.face) return;
    const FaceLesson& lesson = *app.learn.face;
    const Set& set = app.history.set();
    const auto index = light_index(set, lesson.light);
    if (!index) return;
    const Light& light = set.lights[*index];
    const bool reviewed = app.review && app.review_revision == app.revision();
    const bool current = lesson.studio == app.studio && app.studio_revision == app.revision();
    const Rect below = lens_lines(lens, *pen.theme, learn_lines(app, *pen.theme, lens));
    const std::string name = letter_of(*index) + " " + (light.role.empty() ? light.id : light.role);
    lesson_sentence(pen, below, app.lens_picture, name, lesson, reviewed ? &*app.review : nullptr,
                    current);
    if (app.shown_as != ShownAs::picture || app.placing.wanted) return;
    const Rect room{lens.x, lens.y, lens.w, app.lens_picture.bottom() - lens.y};
    shadow_overlay(pen, room, {app.lens_picture, lens_part(app)}, lesson, current, app.learn.words);
}

bool chart_shown(const App& app) {
    return app.settings.learn && !app.learn.elevation_shown;
}

void chart_view(Pen pen, App& app, const Rect& rect, Outbox& out) {
    const Review* review = app.review ? &*app.review : nullptr;
    CardInput in{app.drawn, app.studio};
    in.studio_is_current = app.studio_revision == app.revision();
    in.light = taught_light(app.history.set(), review, app.selection);
    // What the pointer has hold of stays the chart's light.
    if (app.learn.dot.start) in.light = light_index(app.history.set(), app.learn.dot.light);
    // A light that the studio does not have yet.
    if (in.light && app.studio &&
        (*in.light >= app.studio->emitters.size() ||
         app.studio->emitters[*in.light].light != app.history.set().lights[*in.light].id))
        in.light.reset();
    pattern_card(pen, rect, in, app.learn, out);
}

Hit chart_tab(Pen pen, const App& app, const Rect& elevation, Outbox& out) {
    if (!app.settings.learn) return {};
    const Hit hit = hit_area("show patterns", tab_rect(pen, elevation));
    if (hit.clicked) out.wish(Act::chart_shown);
    return hit;
}

void draw_chart_tab(Pen pen, const App& app, const Rect& elevation, const Hit& hit) {
    if (!app.settings.learn) return;
    const Rect tab = tab_rect(pen, elevation);
    const Palette& c = pen.colour();
    if (hit.hovered) ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    fill_rect(pen, tab, c.page, 3.0F);
    text_centre(pen, pen.theme->font.body, tab.centre_x(), elevation.y + pen.px(16),
                hit.hovered ? c.accent : c.ink2, tab_words);
}

} // namespace keystead::ui
