#include "engine/ui/catalogue_value.h"
#include "engine/ui/marks.h"
#include "engine/ui/set_commands.h"
#include "engine/ui/widgets.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <imgui_internal.h>

namespace keystead::ui {

namespace {

ShownValue shown_of(const Flow& flow, const NumberRow& row) {
    return shown_value(row.value, row.rule, flow.pen.theme->units);
}

struct Place {
    float top, height, cy, value_right, unit_left;
    Rect hit; ///< value and unit
};

Place place_of(Flow& flow, const NumberRow& row) {
    const Fonts& font = flow.pen.theme->font;
    Place place{};
    place.top = flow.y;
    place.height = flow.row_height();
    place.cy = flow.y + 0.5F * place.height;
    place.value_right = flow.right - flow.px(40);
    place.unit_left = flow.right - flow.px(34);
    const float width = width_of(font.body, shown_of(flow, row).text);
    const float left =
        std::min(place.value_right - width - flow.px(10), place.value_right - flow.px(48));
    place.hit = {left, flow.y, flow.right - left, place.height};
    return place;
}

bool limited(const QuantityRule& rule) {
    return rule.max > rule.min;
}

void begin_typing(RowMemory& rows, ImGuiID id, const std::string& text) {
    rows.editing = id;
    rows.age = 0;
    std::snprintf(rows.text, sizeof rows.text, "%s", text.c_str());
}

/// Right end of the field: what the typed text comes to, or why it comes to nothing.
std::string echo_words(const NumberRow& row, const Quantity& typed, Units units) {
    if (!typed.value) return typed.trouble;
    const ShownValue shown = shown_value(*typed.value, row.rule, units);
    const bool close = shown.unit.empty() || shown.unit == "°";
    return "= " + shown.text + (close ? "" : " ") + shown.unit;
}

/// In the document's unit, whatever units are shown.
Quantity parsed(const NumberRow& row, const char* text, Units units) {
    QuantityRule rule = row.rule;
    rule.current = row.value;
    Quantity typed = parse_quantity(text, rule_in(rule, units));
    if (typed.value) *typed.value /= factor_in(rule, units);
    return typed;
}

/// The open field: commits on Enter, Tab or leaving if it is valid; Escape keeps the old value.
void typing(Flow& flow, const NumberRow& row, const Place& place,
            const std::function<Command(double)>& command) {
    RowMemory& rows = flow.rows;
    const Palette& c = flow.colour();
    const Quantity typed = parsed(row, rows.text, flow.pen.theme->units);
    const std::string echo = echo_words(row, typed, flow.pen.theme->units);
    const float width = std::min(flow.px(196), flow.right - flow.left - flow.px(60));
    const Rect box{flow.right - width, place.top + 1, width, place.height - 2};
    fill_rect(flow.pen, box, c.field, 3.0F);
    frame_rect(flow.pen, box, typed.value ? c.accent : c.danger, 3.0F);
    const float echo_width = width_of(flow.pen.theme->font.small, echo);
    ImGui::SetCursorScreenPos(
        {box.x + flow.px(6), std::floor(place.cy - 0.5F * ImGui::GetFontSize())});
    ImGui::SetNextItemWidth(std::max(flow.px(40), box.w - echo_width - flow.px(16)));
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, ImVec2(0, 0));
    ImGui::PushStyleColor(ImGuiCol_FrameBg, ImVec4(0, 0, 0, 0));
    if (rows.age == 0) ImGui::SetKeyboardFocusHere();
    const bool entered =
        ImGui::InputText(("##" + row.id).c_str(), rows.text, sizeof rows.text,
                         ImGuiInputTextFlags_AutoSelectAll | ImGuiInputTextFlags_EnterReturnsTrue);
    const bool left = ImGui::IsItemDeactivated() && !entered;
    ImGui::PopStyleColor();
    ImGui::PopStyleVar();
    text_right(flow.pen, flow.pen.theme->font.small, box.right() - flow.px(8), place.cy,
               typed.value ? c.text2 : c.danger, echo);
    ++rows.age;
    const bool escaped = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape));
    const bool tabbed = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Tab));
    // Keyboard focus arrives one frame late, so the first frames cannot mean that it was left.
    if (!entered && !escaped && (rows.age < 3 || !left)) return;
    rows.editing = 0;
    rows.open_next = tabbed && !escaped;
    if (!escaped && typed.value && std::abs(*typed.value - row.value) > 1e-12)
        flow.out.perform(command(*typed.value));
}

/// Pointer down on the value: a click opens the field, 3 px of movement makes it a drag.
/// Returns words when the drag is pushed back by a limit.
std::string dragging(Flow& flow, const NumberRow& row, ImGuiID id, const Hit& hit,
                     const std::function<Command(double)>& command) {
    RowMemory& rows = flow.rows;
    const ImGuiIO& io = ImGui::GetIO();
    if (hit.held && rows.held != id) {
        rows.held = id, rows.start_x = io.MousePos.x, rows.start_value = row.value;
        rows.moved = rows.cancelled = false;
    }
    if (rows.held != id) return {};
    if (!hit.held) {
        rows.held = 0;
        if (rows.cancelled) return {};
        if (rows.moved)
            flow.out.drop();
        else if (hit.clicked)
            begin_typing(rows, id, shown_of(flow, row).text);
        return {};
    }
    if (rows.cancelled) return {};
    if (rows.moved && ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape))) {
        flow.out.cancel();
        rows.cancelled = true;
        ImGui::ClearActiveID();
        return {};
    }
    const float moved = io.MousePos.x - rows.start_x;
    if (!rows.moved && std::abs(moved) < flow.px(3)) return {};
    rows.moved = true;
    const double wanted =
        rows.start_value + moved / flow.pen.theme->scale * row.per_px * (io.KeyShift ? 0.1 : 1.0);
    const double value =
        limited(row.rule) ? std::clamp(wanted, row.rule.min, row.rule.max) : wanted;
    if (std::abs(value - row.value) > 1e-12) flow.out.drag(command(value));
    if (value == wanted) return {};
    const std::string bound = in_units(quantity_text(value, row.rule), flow.pen.theme->units);
    return (value < wanted ? "at most " : "at least ") + bound;
}

/// The catalogue's value where the row has another one: a click brings it back. True if it is
/// offered.
bool offer_catalogue(Flow& flow, const NumberRow& row, const Place& place,
                     const std::function<Command(double)>& command) {
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const Rect whole{flow.left, place.top, flow.right - flow.left, place.height};
    if (flow.set == nullptr || !ImGui::IsWindowHovered() || !whole.contains(mouse.x, mouse.y))
        return false;
    const auto usual = catalogue_number(*flow.set, row.id);
    if (!usual) return false;
    const ShownValue there = shown_value(*usual, row.rule, flow.pen.theme->units);
    if (there.text == shown_of(flow, row).text) return false;
    bool clicked = false;
    link_right(flow.pen, row.id + "/catalogue", "catalogue " + there.text, place.hit.x - flow.px(6),
               place.cy, clicked);
    if (clicked) flow.out.perform(command(*usual));
    return true;
}

void show(Flow& flow, const NumberRow& row, const Place& place, const Hit& hit,
          const std::string& pushed, const std::function<Command(double)>& command) {
    const Palette& c = flow.colour();
    const Fonts& font = flow.pen.theme->font;
    if (hit.held)
        fill_rect(flow.pen, place.hit, c.pressed, 3.0F);
    else if (hit.hovered)
        fill_rect(flow.pen, place.hit, c.hover, 3.0F);
    const float label_end = text_at(flow.pen, font.body, flow.left, place.cy, c.text2, row.label);
    const ShownValue shown = shown_of(flow, row);
    const float start =
        text_right(flow.pen, font.body, place.value_right, place.cy, c.text, shown.text);
    text_at(flow.pen, font.body, place.unit_left, place.cy, c.text3, shown.unit);
    if (!pushed.empty()) {
        const std::string words =
            row.limit_words.empty() ? pushed : pushed + ", " + row.limit_words;
        text_right(flow.pen, font.small, place.hit.x - flow.px(4), place.cy, c.text2,
                   fitted(font.small, words, place.hit.x - label_end - flow.px(12)));
        return;
    }
    const bool offered = !hit.held && offer_catalogue(flow, row, place, command);
    if (hit.hovered || hit.held) {
        text_at(flow.pen, font.small, place.hit.x + flow.px(3), place.cy, c.text3, "‹");
        ImGui::SetMouseCursor(ImGuiMouseCursor_ResizeEW);
        return;
    }
    if (!offered) leader(flow.pen, label_end, start - flow.px(4), place.cy);
}

} // namespace

void number_row(Flow& flow, const NumberRow& row, const std::function<Command(double)>& command) {
    const ImGuiID id = ImGui::GetID(row.id.c_str());
    const Place place = place_of(flow, row);
    if (flow.rows.open_next) {
        flow.rows.open_next = false;
        begin_typing(flow.rows, id, shown_of(flow, row).text);
    }
    if (flow.rows.editing == id) {
        text_at(flow.pen, flow.pen.theme->font.body, flow.left, place.cy, flow.colour().text2,
                row.label);
        typing(flow, row, place, command);
    } else {
        const Hit hit = hit_area(row.id, place.hit);
        show(flow, row, place, hit, dragging(flow, row, id, hit, command), command);
    }
    flow.y += place.height;
}

void number_row(Flow& flow, const NumberRow& row) {
    number_row(flow, row, [&](double value) { return set_number(row.id, value); });
}

std::optional<std::string> words_row(Flow& flow, const std::string& label, const std::string& id,
                                     const std::string& words) {
    const Fonts& font = flow.pen.theme->font;
    const ImGuiID own = ImGui::GetID(id.c_str());
    const float height = flow.row_height(), cy = flow.y + 0.5F * height;
    const float end = text_at(flow.pen, font.body, flow.left, cy, flow.colour().text2, label);
    const Rect box{end + flow.px(12), flow.y + 1, flow.right - end - flow.px(12), height - 2};
    flow.y += height;
    RowMemory& rows = flow.rows;
    if (rows.editing != own) {
        const Hit hit = hit_area(id, box);
        if (hit.hovered) fill_rect(flow.pen, box, flow.colour().hover, 3.0F);
        const std::string shown = fitted(font.body, words.empty() ? "none" : words, box.w);
        const float start =
            text_right(flow.pen, font.body, flow.right, cy,
                       words.empty() ? flow.colour().text3 : flow.colour().text, shown);
        if (!hit.hovered) leader(flow.pen, end, start - flow.px(4), cy);
        if (hit.hovered) ImGui::SetMouseCursor(ImGuiMouseCursor_TextInput);
        if (hit.clicked) begin_typing(rows, own, words);
        return std::nullopt;
    }
    fill_rect(flow.pen, box, flow.colour().field, 3.0F);
    frame_rect(flow.pen, box, flow.colour().accent, 3.0F);
    ImGui::SetCursorScreenPos({box.x + flow.px(6), std::floor(cy - 0.5F * ImGui::GetFontSize())});
    ImGui::SetNextItemWidth(box.w - flow.px(12));
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, ImVec2(0, 0));
    ImGui::PushStyleColor(ImGuiCol_FrameBg, ImVec4(0, 0, 0, 0));
    if (rows.age == 0) ImGui::SetKeyboardFocusHere();
    const bool entered =
        ImGui::InputText(("##" + id).c_str(), rows.text, sizeof rows.text,
                         ImGuiInputTextFlags_AutoSelectAll | ImGuiInputTextFlags_EnterReturnsTrue);
    const bool left = ImGui::IsItemDeactivated() && !entered;
    ImGui::PopStyleColor();
    ImGui::PopStyleVar();
    ++rows.age;
    const bool escaped = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape));
    if (!entered && !escaped && (rows.age < 3 || !left)) return std::nullopt;
    rows.editing = 0;
    if (escaped || rows.text == words) return std::nullopt;
    return std::string(rows.text);
}

} // namespace keystead::ui
