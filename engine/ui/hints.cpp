#include "engine/ui/hints.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

struct Words {
    unsigned hint;
    const char* words;
};
constexpr Words all[] = {
    {hint_drag, "Drag a stand over the plan: light, shadow and footing follow."},
    {hint_number, "Click a light, then drag or type one of its numbers at the right."},
    {hint_keep, "Ctrl+K keeps the set as it is now; hold K to see that again."}};

constexpr const char* leave_words = "leave these out";

} // namespace

unsigned hints_done(const HintsInput& in) {
    unsigned done = in.done;
    if (in.dragging_in_drawing) done |= hint_drag;
    if (in.number_changed) done |= hint_number;
    if (in.flipped) done |= hint_keep;
    return done;
}

std::vector<std::string> hint_lines(unsigned done) {
    std::vector<std::string> lines;
    for (const Words& each : all)
        if ((done & each.hint) == 0) lines.emplace_back(each.words);
    return lines;
}

namespace {

/// One at a time, so that little of the drawing is covered.
std::vector<std::string> first_hint(Pen pen, float width, unsigned done) {
    const std::vector<std::string> lines = hint_lines(done);
    if (lines.empty()) return {};
    return wrapped(pen.theme->font.body, lines.front(), width - pen.px(44));
}

std::string place_words(unsigned done) {
    std::size_t first = 0;
    while (first + 1 < std::size(all) && (done & all[first].hint) != 0) ++first;
    return "hint " + std::to_string(first + 1) + " of " + std::to_string(std::size(all));
}

float card_width(Pen pen, const Rect& view) {
    return std::min(pen.px(300), view.w - pen.px(24));
}

} // namespace

Rect hints_rect(Pen pen, const Rect& view, unsigned done) {
    if (hint_lines(done).empty()) return {};
    const float w = card_width(pen, view);
    const float h =
        pen.px(10 + 30) + pen.px(18) * static_cast<float>(first_hint(pen, w, done).size());
    if (w < pen.px(120) || h > view.h - pen.px(40)) return {};
    return {view.x + pen.px(12), std::floor(view.bottom() - pen.px(12) - h), w, h};
}

bool hints_pointer(Pen pen, const Rect& card) {
    if (card.h <= 0.0F) return false;
    const float w = width_of(pen.theme->font.small, leave_words);
    const Rect leave{card.right() - pen.px(14) - w, card.bottom() - pen.px(26), w, pen.px(20)};
    const bool clicked = hit_area("leave hints", leave).clicked;
    hit_area("hints", card);
    return clicked;
}

void draw_hints(Pen pen, const Rect& card, unsigned done) {
    if (card.h <= 0.0F) return;
    const Palette& c = pen.colour();
    fill_rect(pen, card, c.panel, 4.0F);
    frame_rect(pen, card, c.line_strong, 4.0F);
    float y = card.y + pen.px(10);
    ring(pen, {card.x + pen.px(18), y + pen.px(9)}, pen.px(4), 1.0F, c.accent);
    for (const std::string& words : first_hint(pen, card.w, done)) {
        text_at(pen, pen.theme->font.body, card.x + pen.px(32), y + pen.px(9), c.text, words);
        y += pen.px(18);
    }
    text_at(pen, pen.theme->font.small, card.x + pen.px(32), card.bottom() - pen.px(16), c.text3,
            place_words(done));
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const bool over = card.contains(mouse.x, mouse.y) && mouse.y > card.bottom() - pen.px(26);
    text_right(pen, pen.theme->font.small, card.right() - pen.px(14), card.bottom() - pen.px(16),
               over ? c.accent : c.text2, leave_words);
}

} // namespace keystead::ui
