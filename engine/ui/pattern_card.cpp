#include "engine/ui/pattern_card.h"

#include "engine/edit/light_round.h"
#include "engine/ui/chart_drawing.h"
#include "engine/ui/learn_words.h"
#include "engine/ui/marks.h"
#include "engine/ui/quantity.h"
#include "engine/ui/widgets.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

constexpr float reach_of_dot = 14.0F;

std::string light_name(const Drawn& drawn, std::size_t light) {
    const Light& it = drawn.set.lights[light];
    return letter_of(light) + " " + (it.role.empty() ? it.id : it.role);
}

std::string header_words(const CardInput& in, const Learn& learn, bool stale) {
    if (!in.light) return {};
    const std::string lamp = light_name(in.drawn, *in.light);
    if (!learn.map || !in.studio) return "of " + lamp + ", on the face";
    if (stale) return "being worked out for " + lamp + " as it is now …";
    const Angles now = lamp_direction(*in.studio, in.drawn.poses[*in.light].emitter_m);
    return lamp + ", " + number_text(learn.map->map.distance_m, 2) +
           " m off: " + place_words(learn.map->map, now) +
           (learn.map->rough ? " · being sharpened" : "");
}

void header(Pen pen, const Rect& rect, const std::string& words, Outbox& out) {
    const Fonts& font = pen.theme->font;
    const Palette& c = pen.colour();
    const float cy = rect.y + pen.px(16);
    const float end = text_at(pen, font.medium, rect.x + pen.px(12), cy, c.ink, "Patterns");
    bool clicked = false;
    const float link =
        link_right(pen, "show elevation", "elevation", rect.right() - pen.px(12), cy, clicked);
    if (clicked) out.wish(Act::chart_shown);
    text_at(pen, font.small, end + pen.px(9), cy, c.ink2,
            fitted(font.small, words, link - end - pen.px(24)));
}

void nothing_yet(Pen pen, const Rect& rect, const CardInput& in) {
    const std::string words = !in.light ? "No light reaches the face: nothing to chart."
                                        : "The chart of patterns is being worked out.";
    text_centre(pen, pen.theme->font.small, rect.centre_x(), rect.centre_y(), pen.colour().ink2,
                words);
}

void begin(DotDrag& drag, const CardInput& in, const ImVec2& dot, Outbox& out) {
    const std::string& id = in.drawn.set.lights[*in.light].id;
    drag = {};
    drag.start = in.studio;
    drag.light = id;
    drag.from_px = ImGui::GetIO().MousePos;
    drag.grabbed = drag.from_px - dot;
    out.select = Selection{Thing::light, id};
}

Angles snapped(Angles wanted, bool fine) {
    const double step = fine ? 0.25 : 1.0;
    return {std::round(wanted.azimuth_deg / step) * step,
            std::round(wanted.elevation_deg / step) * step};
}

void carry_on(DotDrag& drag, const Rect& chart, const PatternMap& map, Outbox& out) {
    const ImGuiIO& io = ImGui::GetIO();
    if (drag.cancelled) return;
    if (drag.moved && ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape))) {
        out.cancel();
        drag.cancelled = true;
        drag.pushed_back.clear();
        return;
    }
    if (!drag.moved && length_of(io.MousePos - drag.from_px) < 3.0F) return;
    const bool moves = !drag.moved || io.MouseDelta.x != 0.0F || io.MouseDelta.y != 0.0F;
    drag.moved = true;
    if (!moves) return;
    const Angles wanted =
        snapped(chart_direction(chart, map, io.MousePos - drag.grabbed), io.KeyShift);
    const Result<LightRound> round = carry_light_round(*drag.start, drag.light, wanted);
    if (!round) return;
    drag.pushed_back = round.value().pushed_back;
    out.drag(round.value().command);
}

/// Pointer and dot.
Hit use_dot(const Rect& chart, const ImVec2& dot, const CardInput& in, const PatternMap& map,
            float reach, DotDrag& drag, Outbox& out) {
    const Hit hit = hit_area("pattern chart", chart);
    const bool near = hit.hovered && length_of(ImGui::GetIO().MousePos - dot) <= reach;
    if (hit.held && !drag.start && ImGui::IsMouseClicked(ImGuiMouseButton_Left)) {
        if (near && in.studio && in.studio_is_current) begin(drag, in, dot, out);
    } else if (drag.start && hit.held) {
        carry_on(drag, chart, map, out);
    } else if (drag.start) {
        if (drag.moved && !drag.cancelled) out.drop();
        drag = {};
    }
    if (near || drag.start) ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    return hit;
}

/// A box of words beside a point, kept inside the view.
void words_beside(Pen pen, const Rect& view, const ImVec2& at, const std::string& first,
                  const std::string& second, ImU32 colour) {
    const Fonts& font = pen.theme->font;
    const float wide =
        std::max(width_of(font.small_medium, first), width_of(font.small, second)) + pen.px(14);
    const float high = pen.px(second.empty() ? 20 : 36), away = pen.px(14);
    Rect box{at.x + away, at.y - 0.5F * high, wide, high};
    if (box.right() > view.right() - pen.px(4)) box.x = at.x - away - wide;
    box.x = std::floor(std::max(view.x + pen.px(4), box.x));
    box.y = std::floor(std::clamp(box.y, view.y + pen.px(28), view.bottom() - high - pen.px(4)));
    fill_rect(pen, box, pen.colour().page, 3.0F);
    frame_rect(pen, box, colour, 3.0F);
    text_at(pen, font.small_medium, box.x + pen.px(7), box.y + pen.px(10), colour, first);
    if (!second.empty())
        text_at(pen, font.small, box.x + pen.px(7), box.y + pen.px(26), pen.colour().ink2, second);
}

/// The light's letter, as in every view.
void draw_dot(Pen pen, const ImVec2& at, std::size_t light, bool held) {
    disc(pen, at, pen.px(11), pen.colour().page);
    tag(pen, at, letter_of(light), {true, held, false, true, 9.0F});
}

struct Charted {
    const PatternMap& map;
    Rect chart;
    Angles now;
    ImVec2 dot;
    bool stale;
};

/// What is under the pointer, or where the light is on its way.
void pointer_words(Pen pen, const Rect& rect, const Charted& c, const Hit& hit, const CardInput& in,
                   const DotDrag& drag) {
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const bool near = length_of(mouse - c.dot) < pen.px(reach_of_dot);
    if (drag.start && drag.moved)
        words_beside(pen, rect, c.dot,
                     (c.stale ? "" : pattern_words(c.map.names[c.map.nearest(c.now)]) + ", ") +
                         direction_words(c.now),
                     drag.pushed_back, pen.colour().accent);
    else if (hit.hovered && near)
        words_beside(pen, rect, c.dot, direction_words(c.now),
                     "drag to carry " + letter_of(*in.light) + " round the face",
                     pen.colour().accent);
    else if (hit.hovered && !c.stale) {
        const Angles there = chart_direction(c.chart, c.map, mouse);
        words_beside(pen, rect, mouse,
                     pattern_words(c.map.names[c.map.nearest(there)]) + ", " +
                         direction_words(there),
                     {}, pen.colour().ink2);
    }
}

} // namespace

void pattern_card(Pen pen, const Rect& rect, const CardInput& in, Learn& learn, Outbox& out) {
    fill_rect(pen, rect, pen.colour().page);
    pen.list->PushClipRect({rect.x, rect.y}, {rect.right(), rect.bottom()}, true);
    const Rect chart = chart_rect(rect, *pen.theme);
    bool stale = false;
    if (!learn.map || !in.light || !in.studio) {
        nothing_yet(pen, rect, in);
    } else {
        const PatternMap& map = learn.map->map;
        // Of another lamp or distance: a newer one is on its way, or comes once the drag has ended.
        stale = !same_map(learn.map->made_for, map_for(*in.studio, *in.light));
        keep_shapes(learn.shapes, map, chart, *pen.theme);
        draw_chart(pen, rect, map, learn.shapes, stale);
        const Angles now = lamp_direction(*in.studio, in.drawn.poses[*in.light].emitter_m);
        const Charted charted{map, chart, now, chart_point(chart, map, now), stale};
        const Hit hit = use_dot(chart, charted.dot, in, map, pen.px(reach_of_dot), learn.dot, out);
        draw_dot(pen, charted.dot, *in.light, learn.dot.start != nullptr);
        pointer_words(pen, rect, charted, hit, in, learn.dot);
    }
    header(pen, rect, header_words(in, learn, stale), out);
    pen.list->PopClipRect();
}

} // namespace keystead::ui
