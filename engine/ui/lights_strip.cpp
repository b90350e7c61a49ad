#include "engine/ui/lights_strip.h"

#include "engine/ui/marks.h"
#include "engine/ui/set_commands.h"
#include "engine/ui/words.h"
#include "sim/light/meter.h"
#include "sim/light/stops.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

float strip_cell_width(float strip_width, std::size_t lights, float scale) {
    const float each = strip_width / static_cast<float>(std::max<std::size_t>(1, lights));
    return std::floor(std::clamp(each, 120.0F * scale, 320.0F * scale));
}

namespace {

const LightReview* review_of(const Review* review, const std::string& id) {
    if (review == nullptr) return nullptr;
    for (const LightReview& light : review->lights)
        if (light.id == id) return &light;
    return nullptr;
}

/// "alone": only this light on; said again, all lights on.
Command only_this_one(const Set& set, const std::string& id, bool already) {
    std::vector<Command> commands;
    for (const Light& light : set.lights)
        commands.push_back(set_flag(light_path(light.id, "on"), already || light.id == id));
    return together(already ? "all lights on" : id + " alone", std::move(commands));
}

bool is_alone(const Set& set, std::size_t index) {
    for (std::size_t i = 0; i < set.lights.size(); ++i)
        if (set.lights[i].on != (i == index)) return false;
    return set.lights.size() > 1;
}

struct Cell {
    Pen pen;
    Rect rect;
    const Light& light;
    std::size_t index;
    const LightReview* review;
    Verdict verdict;
    bool selected, hovered, dim, only_look;
};

/// Upper line: letter, role, leaning glyph, reading. "off" and "alone" appear under the pointer.
void upper_line(const Cell& cell) {
    const Palette& c = cell.pen.colour();
    const Fonts& font = cell.pen.theme->font;
    const float cy = cell.rect.y + cell.pen.px(20), right = cell.rect.right() - cell.pen.px(16);
    TagLook look;
    look.selected = cell.selected, look.on_page = false, look.muted = !cell.light.on;
    tag(cell.pen, {cell.rect.x + cell.pen.px(24), cy}, letter_of(cell.index), look);
    float limit = right;
    if (cell.light.on && cell.review != nullptr && cell.review->f_number)
        limit = text_right(cell.pen, font.body, right, cy, faded(c.text, cell.dim ? 0.55F : 1.0F),
                           cell.review->reading) -
                cell.pen.px(10);
    else if (!cell.light.on)
        limit = text_right(cell.pen, font.body, right, cy, c.text3, "off") - cell.pen.px(10);
    const float left = cell.rect.x + cell.pen.px(42);
    const bool glyph = cell.verdict != Verdict::stable;
    const float room =
        limit - left - (glyph ? state_glyph_width(cell.pen, 15) + cell.pen.px(8) : 0.0F);
    const std::string& name = cell.light.role.empty() ? cell.light.id : cell.light.role;
    const float end = text_at(cell.pen, font.medium, left, cy, cell.light.on ? c.text : c.text3,
                              fitted(font.medium, name, room));
    if (glyph)
        state_glyph(cell.pen, end + cell.pen.px(8), cy + cell.pen.px(7), 15, cell.verdict,
                    state_colour(c, cell.verdict));
}

void lower_line(const Cell& cell, const Set& set, Outbox& out) {
    const Palette& c = cell.pen.colour();
    const Fonts& font = cell.pen.theme->font;
    const float cy = cell.rect.y + cell.pen.px(43), left = cell.rect.x + cell.pen.px(42),
                right = cell.rect.right() - cell.pen.px(16);
    const bool switches = cell.hovered && !cell.only_look;
    if (switches) {
        bool flipped = false, alone = false;
        const bool already = is_alone(set, cell.index);
        const float x = link_right(cell.pen, "on/" + cell.light.id, cell.light.on ? "off" : "on",
                                   right, cy, flipped);
        link_right(cell.pen, "alone/" + cell.light.id, already ? "all on" : "alone",
                   x - cell.pen.px(14), cy, alone);
        if (flipped) out.perform(set_flag(light_path(cell.light.id, "on"), !cell.light.on));
        if (alone) out.perform(only_this_one(set, cell.light.id, already));
    }
    if (cell.review == nullptr || !cell.light.on) return;
    const float fade = cell.dim ? 0.55F : 1.0F;
    const bool reaches = cell.review->f_number.has_value();
    const std::string stops = !reaches ? "not on the face"
                              : cell.review->stops_from_key
                                  ? stops_words(*cell.review->stops_from_key)
                                  : "";
    text_at(cell.pen, font.small, left, cy, faded(reaches ? c.text2 : c.text3, fade), stops);
    if (!reaches) return;
    if (switches || cell.rect.w < cell.pen.px(200)) return;
    const std::string percent = number_text(100.0 * cell.review->share, 0) + " %";
    text_right(cell.pen, font.small, right, cy, faded(c.text3, fade), percent);
    const float from = left + cell.pen.px(62), to = right - cell.pen.px(38);
    fill_rect(cell.pen, {from, std::floor(cy), to - from, std::max(1.0F, cell.pen.px(1))},
              c.line_strong);
    const float bar_width =
        std::floor((to - from) * static_cast<float>(std::clamp(cell.review->share, 0.0, 1.0)));
    fill_rect(cell.pen, {from, std::floor(cy) - cell.pen.px(1), bar_width, cell.pen.px(3)},
              faded(cell.selected ? c.accent : c.text2, fade));
}

/// The freed right end: all lights together against the camera.
void totals(Pen pen, const Rect& rect, float from, const Review& review) {
    const Palette& c = pen.colour();
    const Fonts& font = pen.theme->font;
    const float right = rect.right() - pen.px(16), first = rect.y + pen.px(20),
                second = rect.y + pen.px(43);
    if (!review.exposure.face_f_number || right - from < pen.px(210)) return;
    const float x = right - pen.px(92);
    text_at(pen, font.body, x, first, c.text, meter_notation(*review.exposure.face_f_number));
    text_right(pen, font.small, x - pen.px(16), first, c.text2, "all on the face");
    text_at(pen, font.body, x, second, c.text,
            "f/" + nominal_f_number(review.exposure.camera_f_number));
    std::string words = "camera";
    if (review.exposure.stops_off) {
        const double off = *review.exposure.stops_off;
        words += std::abs(off) < 0.05 ? ", as it reads"
                                      : ", " + number_text(std::abs(off), 1) + " stop " +
                                            (off > 0 ? "over" : "under");
    }
    text_right(pen, font.small, x - pen.px(16), second, c.text2, words);
}

} // namespace

std::optional<Selection> lights_strip(Pen pen, const Rect& rect, const StripInput& in,
                                      Outbox& out) {
    const Palette& c = pen.colour();
    const Set& set = in.drawn.set;
    std::optional<Selection> under;
    fill_rect(pen, rect, c.chrome);
    line(pen, {rect.x, rect.y}, {rect.right(), rect.y}, 1.0F, c.line);
    pen.list->PushClipRect({rect.x, rect.y}, {rect.right(), rect.bottom()}, true);
    const float width = strip_cell_width(rect.w, set.lights.size(), pen.theme->scale);
    float x = rect.x;
    for (std::size_t i = 0; i < set.lights.size(); ++i, x += width) {
        const Light& light = set.lights[i];
        const Rect cell_rect{x, rect.y, width, rect.h};
        const bool over = ImGui::IsWindowHovered() &&
                          cell_rect.contains(ImGui::GetIO().MousePos.x, ImGui::GetIO().MousePos.y);
        const Cell cell{pen,
                        cell_rect,
                        light,
                        i,
                        review_of(in.review, light.id),
                        in.drawn.stability[i].verdict,
                        is_light(in.selection, light.id),
                        over,
                        !in.review_is_current,
                        in.only_look};
        if (cell.selected) {
            fill_rect(pen, {x, rect.y, width, rect.h}, c.panel);
            fill_rect(pen, {x, rect.y, width, pen.px(2)}, c.accent);
        } else if (over) {
            fill_rect(pen, {x, rect.y + 1, width, rect.h - 1}, c.hover);
        }
        if (over) under = Selection{Thing::light, light.id};
        upper_line(cell);
        lower_line(cell, set, out);
        if (hit_area("cell/" + light.id, cell_rect).clicked)
            out.select = Selection{Thing::light, light.id};
        line(pen, {x + width, rect.y + pen.px(12)}, {x + width, rect.bottom() - pen.px(12)}, 1.0F,
             c.line);
    }
    if (set.lights.empty())
        text_at(pen, pen.theme->font.body, rect.x + pen.px(16), rect.centre_y(), c.text2,
                "No lights yet. Edit > Add a light.");
    if (in.review != nullptr) totals(pen, rect, x, *in.review);
    pen.list->PopClipRect();
    return under;
}

} // namespace keystead::ui
