#include "engine/ui/overlays.h"

#include "engine/ui/sheet_box.h"
#include "engine/ui/widgets.h"

#include <algorithm>

namespace keystead::ui {

namespace {

bool escaped() {
    return ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape));
}

} // namespace

Answer unsaved_question(Pen pen, const Rect& area, const std::string& name) {
    const Palette& c = pen.colour();
    fill_rect(pen, area, IM_COL32(0, 0, 0, 90));
    const Rect box = sheet_box(pen, area, std::min(pen.px(440), area.w - pen.px(16)), pen.px(124));
    const float left = box.x + pen.px(20), y = box.bottom() - pen.px(40), h = pen.px(24);
    text_at(pen, pen.theme->font.medium, left, box.y + pen.px(28), c.text,
            fitted(pen.theme->font.medium, name + " has changes that are not saved.",
                   box.w - pen.px(40)));
    text_at(pen, pen.theme->font.small, left, box.y + pen.px(50), c.text2,
            "Without saving they are lost.");
    float right = box.right() - pen.px(20);
    const auto next = [&](const char* words, ButtonKind kind) {
        const float w = button_width(pen, words);
        right -= w;
        const bool clicked = button(pen, words, {right, y, w, h}, words, kind);
        right -= pen.px(8);
        return clicked;
    };
    if (next("save", ButtonKind::accent)) return Answer::save;
    if (next("leave them", ButtonKind::plain)) return Answer::discard;
    if (next("keep working", ButtonKind::plain) || escaped()) return Answer::stay;
    return Answer::none;
}

bool sentences_page(Pen pen, const Rect& area, const std::string& title,
                    const std::vector<std::string>& lines) {
    const Palette& c = pen.colour();
    const ImFont* font = pen.theme->font.body;
    const float w = std::min(pen.px(620), area.w - pen.px(24)), step = pen.px(19);
    float text_height = 0.0F;
    for (const std::string& each : lines)
        text_height +=
            step * static_cast<float>(wrapped(font, each, w - pen.px(58)).size()) + pen.px(6);
    const float h = std::min(text_height + pen.px(104), area.h - pen.px(24));
    const Rect box = sheet_box(pen, area, w, h);
    text_at(pen, pen.theme->font.medium, box.x + pen.px(20), box.y + pen.px(26), c.text, title);
    ImGui::SetCursorScreenPos({box.x, box.y + pen.px(46)});
    ImGui::BeginChild("sentences", {w, h - pen.px(46 + 48)}, false, ImGuiWindowFlags_NoBackground);
    const Pen inner{ImGui::GetWindowDrawList(), pen.theme};
    ImVec2 at = ImGui::GetCursorScreenPos();
    for (const std::string& each : lines) {
        disc(inner, {at.x + pen.px(24), at.y + 0.5F * step}, 1.5F * pen.theme->scale, c.text2);
        for (const std::string& words : wrapped(font, each, w - pen.px(58))) {
            text_at(inner, font, at.x + pen.px(34), at.y + 0.5F * step, c.text, words);
            at.y += step;
        }
        at.y += pen.px(6);
    }
    ImGui::SetCursorScreenPos(at);
    ImGui::Dummy({1, 1});
    ImGui::EndChild();
    const float button_w = button_width(pen, "close");
    const Rect close{box.right() - pen.px(16) - button_w, box.bottom() - pen.px(38), button_w,
                     pen.px(24)};
    return button(pen, "close page", close, "close", ButtonKind::plain) || escaped();
}

const std::vector<std::string>& key_lines() {
    // NOLINTBEGIN(bugprone-suspicious-missing-comma)
    static const std::vector<std::string> lines{
        "Drag a stand by its feet or column to roll it; drag the tip of one leg to turn its base.",
        "Drag a lamp on an arm: in the plan the arm swings and runs out, in the elevation it "
        "rises.",
        "Drag a column in the elevation to raise it; drag camera, background and panels likewise.",
        "Drag the head in the plan to turn it, in the elevation to nod it; drag the shoulders to "
        "turn the body.",
        "Drag the crossed ring to aim the picked light or the camera: on a landmark it stays with "
        "the sitter, beside one it stays in the room. Drag the sitter by the four arrows behind "
        "the shoulders, once picked, or by the body in the elevation.",
        "With Ctrl a light dragged over the plan keeps its distance from the face.",
        "Steps are 5 cm and 5°; hold Shift for 1 cm and 1°. Escape takes the drag in hand back.",
        "Numbers: drag sideways, or click and type. 173cm, 5'8\", 68 1/4 in, 6 ft 3 in + 4 cm all "
        "work; +5 cm is a step.",
        "Enter or Tab keeps a typed number, Tab goes on to the next one, Escape leaves the old "
        "one.",
        "Wheel zooms a drawing, the middle button moves it, F4 fits it again.",
        "Ctrl+Z undoes, Ctrl+Shift+Z or Ctrl+Y does it again. Ctrl+O opens, Ctrl+N begins a new "
        "set, Ctrl+S saves, Ctrl+Shift+S saves under a name, Ctrl+Q leaves.",
        "Ctrl+K keeps the set as it is now. Hold K to see the kept state in place of now; "
        "Ctrl+Shift+K puts it beside now, with a divider to drag; Ctrl+D lists kept states and "
        "what differs.",
        "Ctrl+B shows the build light by light: Page Down for the next light, Page Up for the one "
        "before, Escape for the whole set. Nothing is changed by it.",
        "Ctrl+P saves the picture, Ctrl+Shift+C copies its caption with the figures.",
        "A finding marks what it is about in all views; a click selects that. \"seen\" folds a "
        "note away until its figures change.",
        "Drag the dot on the chart of patterns (F7) to carry a light round the face at its "
        "distance.",
        "Under the pointer a light in the strip can be switched off, or alone on.",
        "1 to 9 pick a light, 0 the camera. Arrows move what is picked by 5 cm, with Shift by "
        "1 cm; Page Up and Page Down its column; comma and point a light's power by a tenth. "
        "F10 opens the menu line: arrows and Enter walk through it.",
        "Delete takes the selected light away. F1 shows the cautions, F2 the plan, F3 the room "
        "from outside in its place, F5 stops from the face in place of the picture, F6 marks on "
        "what clips, F7 the shadows' names and the chart of patterns.",
        "Ctrl with plus or minus makes everything larger or smaller, Ctrl with 0 as the screen "
        "says."};
    // NOLINTEND(bugprone-suspicious-missing-comma)
    return lines;
}

} // namespace keystead::ui
