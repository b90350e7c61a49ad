#include "engine/ui/widgets.h"

#include "engine/ui/marks.h"

#include <algorithm>

namespace keystead::ui {

Hit hit_area(const std::string& id, const Rect& rect) {
    Hit hit;
    if (rect.w < 1.0F || rect.h < 1.0F) return hit;
    ImGui::SetCursorScreenPos({rect.x, rect.y});
    hit.clicked = ImGui::InvisibleButton(id.c_str(), {rect.w, rect.h});
    hit.hovered = ImGui::IsItemHovered();
    hit.held = ImGui::IsItemActive();
    return hit;
}

void close_on_escape() {
    if (ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false)) ImGui::CloseCurrentPopup();
}

namespace {

/// Rounded ground behind a value under the pointer.
void value_ground(Flow& flow, const Rect& rect, const Hit& hit) {
    if (hit.held)
        fill_rect(flow.pen, rect, flow.colour().pressed, 3.0F);
    else if (hit.hovered)
        fill_rect(flow.pen, rect, flow.colour().hover, 3.0F);
}

/// The list under a choice.
int open_list(Flow& flow, const std::string& id, bool open_now, const Rect& below,
              std::span<const std::string> options, const std::string& value) {
    int picked = -1;
    const std::string popup = id + "/list";
    if (open_now) ImGui::OpenPopup(popup.c_str());
    ImGui::SetNextWindowPos({below.right(), below.bottom() + flow.px(2)}, ImGuiCond_Appearing,
                            {1, 0});
    ImGui::SetNextWindowSizeConstraints({flow.px(160), 0}, {flow.px(420), flow.px(360)});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(flow.px(8), flow.px(8)));
    if (ImGui::BeginPopup(popup.c_str())) {
        close_on_escape();
        for (std::size_t i = 0; i < options.size(); ++i) {
            ImGui::PushID(static_cast<int>(i));
            if (ImGui::Selectable(options[i].c_str(), options[i] == value))
                picked = static_cast<int>(i);
            ImGui::PopID();
        }
        ImGui::EndPopup();
    }
    ImGui::PopStyleVar();
    return picked;
}

} // namespace

int choice_row(Flow& flow, const std::string& label, const std::string& id,
               const std::string& value, std::span<const std::string> options) {
    const Palette& c = flow.colour();
    const Fonts& font = flow.pen.theme->font;
    const float h = flow.row_height(), cy = flow.y + 0.5F * h, right = flow.right - flow.px(14);
    const float label_end = flow.left + width_of(font.body, label);
    const std::string words = fitted(font.body, value, right - label_end - flow.px(16));
    const float start = right - width_of(font.body, words);
    const Rect area{start - flow.px(8), flow.y, flow.right - start + flow.px(8), h};
    const Hit hit = hit_area(id, area);
    value_ground(flow, area, hit);
    text_at(flow.pen, font.body, flow.left, cy, c.text2, label);
    if (!hit.hovered) leader(flow.pen, label_end, area.x, cy);
    text_at(flow.pen, font.body, start, cy, c.text, words);
    chevron(flow.pen, {flow.right - flow.px(6), cy}, true, c.text3);
    flow.y += h;
    return open_list(flow, id, hit.clicked, area, options, value);
}

bool toggle_row(Flow& flow, const std::string& label, const std::string& id, bool on,
                const char* on_word, const char* off_word) {
    const Palette& c = flow.colour();
    const Fonts& font = flow.pen.theme->font;
    const float h = flow.row_height(), cy = flow.y + 0.5F * h;
    const char* word = on ? on_word : off_word;
    const float start = flow.right - width_of(font.body, word);
    const Rect area{start - flow.px(8), flow.y, flow.right - start + flow.px(8), h};
    const Hit hit = hit_area(id, area);
    value_ground(flow, area, hit);
    const float label_end = text_at(flow.pen, font.body, flow.left, cy, c.text2, label);
    if (!hit.hovered) leader(flow.pen, label_end, area.x, cy);
    text_at(flow.pen, font.body, start, cy, on ? c.text : c.text2, word);
    flow.y += h;
    return hit.clicked;
}

void text_row(Flow& flow, const std::string& label, const std::string& value) {
    const Palette& c = flow.colour();
    const Fonts& font = flow.pen.theme->font;
    const float h = flow.row_height(), cy = flow.y + 0.5F * h;
    const float label_end = text_at(flow.pen, font.body, flow.left, cy, c.text2, label);
    const std::string words = fitted(font.body, in_units(value, flow.pen.theme->units),
                                     flow.right - label_end - flow.px(16));
    const float start = text_right(flow.pen, font.body, flow.right, cy, c.text, words);
    leader(flow.pen, label_end, start, cy);
    flow.y += h;
}

void note(Flow& flow, const std::string& text, ImU32 colour, const ImFont* font, float indent) {
    const ImFont* face = font != nullptr ? font : flow.pen.theme->font.small;
    const float step =
        flow.px(font != nullptr && font != flow.pen.theme->font.small ? 18.0F : 16.0F);
    const float left = flow.left + flow.px(indent);
    for (const std::string& words :
         wrapped(face, in_units(text, flow.pen.theme->units), flow.right - left)) {
        text_at(flow.pen, face, left, flow.y + 0.5F * step, colour, words);
        flow.y += step;
    }
}

void hairline(Flow& flow) {
    line(flow.pen, {flow.left - flow.px(16), flow.y}, {flow.right, flow.y}, 1.0F,
         flow.colour().line);
}

bool section(Flow& flow, const std::string& name, const std::string& summary, bool& open) {
    const Palette& c = flow.colour();
    const Fonts& font = flow.pen.theme->font;
    const float h = flow.px(32), cy = flow.y + 0.5F * h;
    hairline(flow);
    const Rect area{flow.left - flow.px(16), flow.y + 1, flow.right - flow.left + flow.px(16),
                    h - 1};
    const Hit hit = hit_area("section " + name, area);
    if (hit.clicked) open = !open;
    chevron(flow.pen, {flow.left - flow.px(11), cy}, open, hit.hovered ? c.text : c.text2);
    const float end = text_at(flow.pen, font.medium, flow.left, cy, c.text, name);
    if (!open)
        text_right(flow.pen, font.small, flow.right, cy, c.text2,
                   fitted(font.small, in_units(summary, flow.pen.theme->units),
                          flow.right - end - flow.px(14)));
    flow.y += h;
    return open;
}

float button_width(Pen pen, const std::string& words) {
    return std::max(pen.px(72), width_of(pen.theme->font.body, words) + pen.px(24));
}

bool button(Pen pen, const std::string& id, const Rect& rect, const std::string& words,
            ButtonKind kind) {
    const Palette& c = pen.colour();
    const Hit hit = hit_area(id, rect);
    if (kind == ButtonKind::accent)
        fill_rect(pen, rect,
                  hit.held      ? faded(c.accent, 0.8F)
                  : hit.hovered ? faded(c.accent, 0.9F)
                                : c.accent,
                  3.0F);
    else if (hit.held || hit.hovered)
        fill_rect(pen, rect, hit.held ? c.pressed : c.hover, 3.0F);
    if (kind == ButtonKind::plain) frame_rect(pen, rect, c.line_strong, 3.0F);
    text_centre(pen, kind == ButtonKind::accent ? pen.theme->font.medium : pen.theme->font.body,
                rect.centre_x(), rect.centre_y(), kind == ButtonKind::accent ? c.on_accent : c.text,
                words);
    return hit.clicked;
}

bool link(Flow& flow, const std::string& id, const std::string& words, float x) {
    const float h = flow.row_height(), cy = flow.y + 0.5F * h;
    const float w = width_of(flow.pen.theme->font.body, words);
    const Hit hit = hit_area(id, {x - flow.px(4), flow.y, w + flow.px(8), h});
    text_at(flow.pen, flow.pen.theme->font.body, x, cy, flow.colour().accent, words);
    if (hit.hovered)
        line(flow.pen, {x, cy + flow.px(8)}, {x + w, cy + flow.px(8)}, 1.0F, flow.colour().accent);
    return hit.clicked;
}

float link_right(Pen pen, const std::string& id, const std::string& words, float right, float cy,
                 bool& clicked) {
    const ImFont* font = pen.theme->font.small;
    const float w = width_of(font, words), x = right - w;
    const Hit hit = hit_area(id, {x - pen.px(4), cy - pen.px(10), w + pen.px(8), pen.px(20)});
    text_at(pen, font, x, cy, hit.hovered ? pen.colour().accent : pen.colour().text2, words);
    clicked = hit.clicked;
    return x;
}

} // namespace keystead::ui
