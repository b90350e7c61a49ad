#include "engine/ui/kept_page.h"

#include "engine/ui/side_panel.h"
#include "engine/ui/words.h"

#include <cmath>

namespace keystead::ui {

std::string kept_summary(const KeptState& state) {
    if (!state.review) return {};
    std::string words;
    for (const std::string& part : caption_parts(*state.review))
        words += (words.empty() ? "" : ", ") + part;
    return words;
}

namespace {

bool wide_button(Flow& flow, const char* id, const std::string& words, const char* keys) {
    const Rect rect{flow.left, flow.y, flow.right - flow.left, flow.px(26)};
    flow.skip(34);
    const bool clicked = button(flow.pen, id, rect, words, ButtonKind::plain);
    text_right(flow.pen, flow.pen.theme->font.small, rect.right() - flow.px(10), rect.centre_y(),
               flow.colour().text3, keys);
    return clicked;
}

/// A ring for the picked one, its number and hour, and what it looked like below.
void state_row(Flow& flow, const KeptState& state, bool picked) {
    const Palette& c = flow.colour();
    const Fonts& font = flow.pen.theme->font;
    const Rect area{flow.left - flow.px(6), flow.y, flow.right - flow.left + flow.px(12),
                    flow.px(42)};
    const Hit hit = hit_area("kept " + std::to_string(state.number), area);
    if (hit.hovered) fill_rect(flow.pen, area, c.hover, 3.0F);
    if (hit.clicked) flow.out.wish(Act::pick_kept, std::to_string(state.number));
    const float first = flow.y + flow.px(13), inner = flow.left + flow.px(20);
    ring(flow.pen, {flow.left + flow.px(6), first}, flow.px(5), 1.0F, picked ? c.accent : c.text3);
    if (picked) disc(flow.pen, {flow.left + flow.px(6), first}, flow.px(2.5F), c.accent);
    text_at(flow.pen, picked ? font.medium : font.body, inner, first, c.text, state.name());
    text_right(flow.pen, font.small, flow.right, first, c.text2, state.when);
    const std::string summary = kept_summary(state);
    text_at(flow.pen, font.small, inner, first + flow.px(17), c.text2,
            fitted(font.small, summary.empty() ? "is being read" : summary, flow.right - inner));
    flow.y = area.bottom() + flow.px(2);
}

/// Words to click, one after another.
void deeds(Flow& flow, const KeptStates& kept) {
    const ImFont* font = flow.pen.theme->font.body;
    float x = flow.left + flow.px(20);
    const std::string number = std::to_string(kept.picked);
    const auto deed = [&](const char* words, Act act, const std::string& text) {
        if (link(flow, std::string("kept/") + words, words, x)) flow.out.wish(act, text);
        x += width_of(font, words) + flow.px(18);
    };
    deed(kept.split ? "whole picture" : "beside now", Act::split_picture, "");
    deed("take it back", Act::take_back, number);
    deed("forget", Act::forget_kept, number);
    flow.y += flow.row_height() + flow.px(6);
}

void name_row(Flow& flow, const KeptState& state) {
    const float left = flow.left;
    flow.left += flow.px(20);
    if (const auto called = words_row(flow, "called", "kept/name", state.name()))
        flow.out.wish(Act::name_kept, *called);
    flow.left = left;
}

/// What it is about, then both values and the change.
void difference_row(Flow& flow, const Difference& line) {
    const Palette& c = flow.colour();
    const Fonts& font = flow.pen.theme->font;
    const float first = flow.y + flow.px(10), second = first + flow.px(18);
    text_at(flow.pen, font.small, flow.left, first, c.text2,
            fitted(font.small, line.what, flow.right - flow.left));
    const std::string values =
        line.same() ? line.first + ", as it was" : line.first + " → " + line.second;
    const float change = text_right(flow.pen, font.small, flow.right, second, c.text2, line.change);
    text_at(flow.pen, font.body, flow.left, second, line.same() ? c.text2 : c.text,
            fitted(font.body, values, change - flow.px(8) - flow.left));
    flow.skip(42);
}

void differences(Flow& flow, const KeptPageInput& in, const KeptState& state) {
    hairline(flow);
    flow.skip(8);
    const Fonts& font = flow.pen.theme->font;
    text_at(flow.pen, font.medium, flow.left, flow.y + flow.px(10), flow.colour().text,
            state.name() + " → now");
    flow.skip(26);
    const std::vector<Difference> table = kept_differences(state, in.now, in.review);
    if (table.empty() || !in.review_is_current) {
        note(flow, "is being read…", flow.colour().text2);
        if (table.empty()) return;
    }
    for (const Difference& line : table) difference_row(flow, line);
}

} // namespace

void kept_page(Flow& flow, const KeptPageInput& in) {
    panel_title(flow, "Kept states",
                in.kept.list.empty() ? "none yet" : "hold K to see the marked one in the picture");
    if (wide_button(flow, "keep state", "keep this state", "Ctrl+K"))
        flow.out.wish(Act::keep_state);
    for (const KeptState& each : in.kept.list) {
        const bool picked = each.number == in.kept.picked;
        state_row(flow, each, picked);
        if (!picked) continue;
        name_row(flow, each);
        deeds(flow, in.kept);
    }
    const KeptState* picked = in.kept.with(in.kept.picked);
    if (picked != nullptr)
        differences(flow, in, *picked);
    else
        note(flow,
             "A kept state holds lights, sitter, camera and readings as they are now, to be "
             "compared with what comes after. It goes when the set is closed.",
             flow.colour().text2);
    flow.skip(10);
    if (wide_button(flow, "close kept", "close", "Ctrl+D")) flow.out.wish(Act::kept_page);
}

} // namespace keystead::ui
