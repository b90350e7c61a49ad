#include "engine/ui/notice_card.h"

#include "engine/ui/marks.h"
#include "engine/ui/widgets.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

constexpr float card_width = 430.0F, line_step = 18.0F, margin = 14.0F;
/// What the menu's line has room for beside a name of usual length.
constexpr float line_room = 300.0F;

std::vector<std::string> lines_of(Pen pen, float width, const std::string& notice) {
    return wrapped(pen.theme->font.body, notice, width - pen.px(2.0F * margin));
}

} // namespace

Rect notice_rect(Pen pen, const Rect& views, const std::string& notice, bool is_bad) {
    if (!is_bad || width_of(pen.theme->font.small, notice) < pen.px(line_room)) return {};
    const float w = std::min(pen.px(card_width), views.w - pen.px(24));
    const auto lines = static_cast<float>(lines_of(pen, w, notice).size());
    const float h = std::min(pen.px(2.0F * margin + line_step * (lines + 1.0F)), views.h);
    return {std::floor(views.right() - pen.px(12) - w), std::floor(views.y + pen.px(8)), w, h};
}

bool notice_pointer(Pen, const Rect& card) {
    return card.h > 0.0F && hit_area("notice", card).clicked;
}

void draw_notice(Pen pen, const Rect& card, const std::string& notice) {
    if (card.h <= 0.0F) return;
    const Palette& c = pen.colour();
    fill_rect(pen, card, c.panel, 4.0F);
    frame_rect(pen, card, c.danger, 4.0F);
    float cy = card.y + pen.px(margin + 0.5F * line_step);
    for (const std::string& words : lines_of(pen, card.w, notice)) {
        text_at(pen, pen.theme->font.body, card.x + pen.px(margin), cy, c.text, words);
        cy += pen.px(line_step);
    }
    text_right(pen, pen.theme->font.small, card.right() - pen.px(margin), cy, c.text3,
               "click to put away");
}

} // namespace keystead::ui
