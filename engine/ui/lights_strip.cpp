#include "engine/ui/lights_strip.h"

#include "engine/edit/role_start.h"
#include "engine/ui/gels.h"
#include "engine/ui/marks.h"
#include "engine/ui/role_items.h"
#include "engine/ui/set_commands.h"
#include "engine/ui/words.h"
#include "sim/light/colour.h"
#include "sim/light/meter.h"
#include "sim/light/sensor.h"
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
    RowMemory* rows;
    double balance_k; ///< the camera's

    float left() const { return rect.x + pen.px(42); }
    float right() const { return rect.right() - pen.px(16); }
};

/// What the lamp's light looks like to the camera, as bright as the screen has it.
ImU32 seen_colour(const Light& light, double balance_k) {
    Vec3 colour = gelled_colour(light.head.colour_k, light.modifier.gel, balance_k);
    const double most = std::max({colour.r, colour.g, colour.b, 1e-6});
    const auto code = [&](double channel) {
        return static_cast<int>(255.0 * srgb_encode(std::clamp(channel / most, 0.0, 1.0)) + 0.5);
    };
    return IM_COL32(code(colour.r), code(colour.g), code(colour.b), 255);
}

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
    const float cy = cell.rect.y + cell.pen.px(41), left = cell.left(), right = cell.right();
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
    const float side = cell.pen.px(9), from = left + cell.pen.px(66) + side + cell.pen.px(6);
    // Beside the length of its share, its colour: bars are told apart by letters, not by hue.
    const Rect swatch{from - side - cell.pen.px(6), std::floor(cy - 0.5F * side), side, side};
    fill_rect(cell.pen, swatch, faded(seen_colour(cell.light, cell.balance_k), fade), 1.0F);
    frame_rect(cell.pen, swatch, c.line_strong, 1.0F);
    const float to = right - cell.pen.px(38);
    fill_rect(cell.pen, {from, std::floor(cy), to - from, std::max(1.0F, cell.pen.px(1))},
              c.line_strong);
    const float bar_width =
        std::floor((to - from) * static_cast<float>(std::clamp(cell.review->share, 0.0, 1.0)));
    fill_rect(cell.pen, {from, std::floor(cy) - cell.pen.px(1), bar_width, cell.pen.px(3)},
              faded(cell.selected ? c.accent : c.text2, fade));
}

/// Power and gel: drag, type or choose.
void edit_line(const Cell& cell, Outbox& out) {
    if (cell.rows == nullptr || cell.only_look || cell.rect.h < cell.pen.px(80)) return;
    const bool wide = cell.rect.w >= cell.pen.px(280);
    const std::string path = light_path(cell.light.id, "head.power_stops_below");
    const bool typed = cell.rows->editing == ImGui::GetID(path.c_str());
    Flow flow{cell.pen, *cell.rows, out};
    flow.compact = true;
    flow.left = cell.left();
    flow.right = wide && !typed ? flow.left + cell.pen.px(124) : cell.right() + cell.pen.px(8);
    flow.y = cell.rect.y + cell.pen.px(53);
    const Head& head = cell.light.head;
    number_row(flow,
               {"power",
                path,
                -head.power_stops_below,
                {Dimension::stops, "stop", -head.range_stops, 0, 1, {}},
                0.02,
                {}},
               [&](double stops) { return set_number(path, -stops); });
    if (!wide || typed) return;
    flow.left = flow.right + cell.pen.px(14), flow.right = cell.right() + cell.pen.px(4);
    flow.y = cell.rect.y + cell.pen.px(53);
    const int picked = choice_row(flow, "gel", light_path(cell.light.id, "modifier.gel"),
                                  gel_words(cell.light.modifier.gel), gel_names());
    if (const auto command = gel_command(cell.light.id, cell.light.modifier, picked))
        out.perform(*command);
}

/// Nothing stands yet: what one would put first.
void first_lights(Pen pen, const Rect& rect, Outbox& out) {
    const float cy = rect.centre_y();
    float x = text_at(pen, pen.theme->font.body, rect.x + pen.px(16), cy, pen.colour().text2,
                      "No lights yet. Put up a") +
              pen.px(10);
    for (const char* role : starting_roles()) {
        const float w = button_width(pen, role);
        if (button(pen, std::string("put up ") + role,
                   {x, std::floor(cy - pen.px(12)), w, pen.px(24)}, role, ButtonKind::plain))
            out.wish(Act::add_light, role);
        x += w + pen.px(8);
    }
}

/// Another one, where the strip has room for it; returns where it ends.
float next_light(Pen pen, const Set& set, const Rect& rect, float x, Outbox& out) {
    if (set.lights.empty() || rect.right() - x < pen.px(340)) return x;
    bool clicked = false;
    const char* words = "another light";
    const float right = x + pen.px(20) + width_of(pen.theme->font.small, words);
    link_right(pen, "another light", words, right, rect.y + pen.px(20), clicked);
    if (clicked) ImGui::OpenPopup("another light/list");
    ImGui::SetNextWindowPos({x + pen.px(16), rect.y}, ImGuiCond_Appearing, {0, 1});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(pen.px(8), pen.px(8)));
    if (ImGui::BeginPopup("another light/list")) {
        close_on_escape();
        role_items(out);
        ImGui::EndPopup();
    }
    ImGui::PopStyleVar();
    return right;
}

/// The freed right end: all lights together against the camera.
void totals(Pen pen, const Rect& rect, float from, const Review& review) {
    const Palette& c = pen.colour();
    const Fonts& font = pen.theme->font;
    const float right = rect.right() - pen.px(16), first = rect.y + pen.px(20),
                second = rect.y + pen.px(41);
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
                        in.only_look,
                        in.rows,
                        set.camera.white_balance_k};
        if (cell.selected) {
            fill_rect(pen, {x, rect.y, width, rect.h}, c.panel);
            fill_rect(pen, {x, rect.y, width, pen.px(2)}, c.accent);
        } else if (over) {
            fill_rect(pen, {x, rect.y + 1, width, rect.h - 1}, c.hover);
        }
        if (over) under = Selection{Thing::light, light.id};
        upper_line(cell);
        lower_line(cell, set, out);
        edit_line(cell, out);
        if (hit_area("cell/" + light.id, cell_rect).clicked)
            out.select = Selection{Thing::light, light.id};
        line(pen, {x + width, rect.y + pen.px(12)}, {x + width, rect.bottom() - pen.px(12)}, 1.0F,
             c.line);
    }
    if (set.lights.empty()) first_lights(pen, rect, out);
    x = next_light(pen, set, rect, x, out);
    if (in.review != nullptr) totals(pen, rect, x, *in.review);
    pen.list->PopClipRect();
    return under;
}

} // namespace keystead::ui
