#include "engine/ui/findings_line.h"

#include "engine/ui/marks.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

int findings_rows(const Review* review, const std::vector<SeenNote>* seen) {
    const Folded folded = fold_seen(review, seen);
    const std::size_t rows = folded.open.size() + (folded.seen.empty() ? 0 : 1);
    return std::min<int>(5, static_cast<int>(rows));
}

namespace {

Verdict as_verdict(Level level) {
    if (level == Level::danger) return Verdict::unstable;
    return level == Level::warning ? Verdict::caution : Verdict::stable;
}

Selection about(const Set& set, const std::string& id) {
    if (light_index(set, id)) return {Thing::light, id};
    if (panel_index(set, id)) return {Thing::panel, id};
    if (id == "camera") return {Thing::camera, {}};
    if (id == "subject") return {Thing::subject, {}};
    return {id == "background" ? Thing::background : Thing::room, {}};
}

/// The letter of the light, an egg for the subject, or the word.
float about_mark(Pen pen, const Set& set, const std::string& id, float x, float cy) {
    if (const auto index = light_index(set, id)) {
        TagLook look;
        look.on_page = false;
        tag(pen, {x + pen.px(9), cy}, letter_of(*index), look);
        return x + pen.px(26);
    }
    if (id == "subject") {
        egg(pen, {x + pen.px(8), cy}, pen.colour().text2);
        return x + pen.px(26);
    }
    return text_at(pen, pen.theme->font.medium, x, cy, pen.colour().text2, id) + pen.px(10);
}

std::string count_words(const Folded& folded) {
    const std::size_t count = folded.open.size();
    return count == 0   ? "nothing new"
           : count == 1 ? "1 finding"
                        : std::to_string(count) + " findings";
}

std::string seen_words(std::size_t count) {
    return count == 1 ? "1 seen note" : std::to_string(count) + " seen notes";
}

/// "seen" folds a note away, "not seen" brings it back; returns where the words begin.
float seen_link(Pen pen, const FindingsInput& in, std::size_t i, bool seen, float right, float cy,
                Outbox& out) {
    if (!can_be_seen(in.review->findings[i])) return right;
    bool clicked = false;
    const float x = link_right(pen, "seen " + std::to_string(i), seen ? "not seen" : "seen",
                               right - pen.px(6), cy, clicked);
    if (clicked) out.wish(seen ? Act::unsee_note : Act::see_note, std::to_string(i));
    return x - pen.px(10);
}

/// The button that mends it, at the right end; returns where it begins.
float mend_button(Pen pen, const FindingsInput& in, std::size_t i, bool first, const Rect& row,
                  Outbox& out) {
    const float h = pen.px(24), right = row.right() - pen.px(16);
    if (i >= in.remedies.size() || !in.remedies[i]) return right;
    const Remedy& remedy = *in.remedies[i];
    const std::string act = in_units(remedy.act, pen.theme->units);
    const float w = button_width(pen, act);
    const Rect box{right - w, std::floor(row.centre_y() - 0.5F * h), w, h};
    if (button(pen, "mend " + std::to_string(i), box, act,
               first ? ButtonKind::accent : ButtonKind::plain))
        out.perform(remedy.command);
    return right - w - pen.px(8);
}

float show_button(Pen pen, const Rect& rect, float right, Outbox& out) {
    const float w = button_width(pen, "show all"), h = pen.px(24);
    const Rect box{right - w, std::floor(rect.centre_y() - 0.5F * h), w, h};
    if (button(pen, "show findings", box, "show all", ButtonKind::plain))
        out.wish(Act::toggle_findings);
    return box.x;
}

std::optional<Selection> one_line(Pen pen, const Rect& rect, const FindingsInput& in,
                                  const Folded& folded, Outbox& out) {
    const Palette& c = pen.colour();
    const Fonts& font = pen.theme->font;
    const std::size_t index = folded.open.front();
    const Finding& first = in.review->findings[index];
    const float cy = rect.centre_y();
    const Verdict worst = as_verdict(first.level);
    state_glyph(pen, rect.x + pen.px(16), cy + pen.px(8), 17, worst,
                worst == Verdict::stable ? c.text2 : state_colour(c, worst));
    float x = text_at(pen, font.medium, rect.x + pen.px(42), cy, c.text, count_words(folded));
    if (!folded.seen.empty())
        x = text_at(pen, font.small, x + pen.px(10), cy, c.text3,
                    "and " + std::to_string(folded.seen.size()) + " seen");
    line(pen, {x + pen.px(14), rect.y + pen.px(10)}, {x + pen.px(14), rect.bottom() - pen.px(10)},
         1.0F, c.line_strong);
    float right = show_button(pen, rect, mend_button(pen, in, index, true, rect, out), out);
    right = seen_link(pen, in, index, false, right, cy, out);
    x = about_mark(pen, in.drawn.set, first.about, x + pen.px(30), cy);
    const Hit hit = hit_area("finding", {rect.x, rect.y, right - rect.x - pen.px(8), rect.h});
    const Selection thing = about(in.drawn.set, first.about);
    if (hit.clicked) out.select = thing;
    const float room = right - pen.px(16) - x;
    const ImU32 ink = faded(c.text, in.review_is_current ? 1.0F : 0.55F);
    const float message_end =
        text_at(pen, font.body, x, cy, ink,
                fitted(font.body, in_units(first.message, pen.theme->units), room));
    if (message_end + pen.px(60) < x + room)
        text_at(pen, font.body, message_end + pen.px(8), cy,
                faded(c.text2, in.review_is_current ? 1.0F : 0.55F),
                fitted(font.body, in_units(first.remedy, pen.theme->units),
                       x + room - message_end - pen.px(8)));
    return hit.hovered ? std::optional(thing) : std::nullopt;
}

/// Where the words of a row end, and the remedy broken to fit before the button.
struct RowText {
    float width;
    std::vector<std::string> remedy;
};

RowText row_text(Pen pen, const FindingsInput& in, std::size_t i, float row_width) {
    const bool has_button = i < in.remedies.size() && in.remedies[i];
    float taken =
        has_button ? button_width(pen, in_units(in.remedies[i]->act, pen.theme->units)) + pen.px(16)
                   : 0.0F;
    if (can_be_seen(in.review->findings[i])) taken += pen.px(70);
    const float width = row_width - pen.px(42 + 70 + 24) - taken;
    return {width, wrapped(pen.theme->font.small,
                           in_units(in.review->findings[i].remedy, pen.theme->units), width)};
}

float row_height(Pen pen, const RowText& text) {
    return pen.px(29.0F + 16.0F * static_cast<float>(std::max<std::size_t>(1, text.remedy.size())));
}

struct Row {
    Rect rect;
    std::size_t index = 0;
    bool first = false, seen = false;
};

bool list_row(Pen pen, const Row& row, const FindingsInput& in, const RowText& text, Outbox& out) {
    const Palette& c = pen.colour();
    const Fonts& font = pen.theme->font;
    const Rect& rect = row.rect;
    const Finding& finding = in.review->findings[row.index];
    const Verdict verdict = as_verdict(finding.level);
    float right = mend_button(pen, in, row.index, row.first, rect, out);
    right = seen_link(pen, in, row.index, row.seen, right, rect.centre_y(), out);
    const Hit hit =
        hit_area("finding " + std::to_string(row.index), {rect.x, rect.y, right - rect.x, rect.h});
    if (hit.hovered) fill_rect(pen, {rect.x, rect.y + 1, rect.w, rect.h - 1}, faded(c.hover, 0.5F));
    if (hit.clicked) out.select = about(in.drawn.set, finding.about);
    line(pen, {rect.x, rect.y}, {rect.right(), rect.y}, 1.0F, c.line);
    const float first = rect.y + pen.px(14);
    if (verdict != Verdict::stable)
        state_glyph(pen, rect.x + pen.px(16), first + pen.px(8), 17, verdict,
                    state_colour(c, verdict));
    about_mark(pen, in.drawn.set, finding.about, rect.x + pen.px(42), first);
    const float x = rect.x + pen.px(42 + 70);
    text_at(pen, font.body, x, first, row.seen ? c.text2 : c.text,
            fitted(font.body, in_units(finding.message, pen.theme->units), text.width));
    float cy = first + pen.px(17);
    for (const std::string& words : text.remedy) {
        text_at(pen, font.small, x, cy, row.seen ? c.text3 : c.text2, words);
        cy += pen.px(16);
    }
    return hit.hovered;
}

/// The line under which seen notes are folded.
float fold_row(Pen pen, const Rect& rect, const FindingsInput& in, std::size_t count, Outbox& out) {
    const Palette& c = pen.colour();
    const Hit hit = hit_area("seen notes", rect);
    if (hit.hovered) fill_rect(pen, {rect.x, rect.y + 1, rect.w, rect.h - 1}, faded(c.hover, 0.5F));
    if (hit.clicked) out.wish(Act::toggle_seen);
    line(pen, {rect.x, rect.y}, {rect.right(), rect.y}, 1.0F, c.line);
    chevron(pen, {rect.x + pen.px(25), rect.centre_y()}, in.seen_open, c.text2);
    text_at(pen, pen.theme->font.body, rect.x + pen.px(42), rect.centre_y(), c.text2,
            seen_words(count));
    return rect.bottom();
}

/// All of them; the wheel scrolls when there are more than fit.
std::optional<Selection> list(Pen pen, const Rect& rect, const FindingsInput& in,
                              const Folded& folded, Outbox& out) {
    const float head = pen.px(36), cy = rect.y + 0.5F * head;
    text_at(pen, pen.theme->font.medium, rect.x + pen.px(42), cy, pen.colour().text,
            count_words(folded));
    const float w = button_width(pen, "close"), h = pen.px(24);
    if (button(pen, "close findings",
               {rect.right() - pen.px(16) - w, std::floor(cy - 0.5F * h), w, h}, "close",
               ButtonKind::plain))
        out.wish(Act::toggle_findings);
    ImGui::SetCursorScreenPos({rect.x, rect.y + head});
    ImGui::BeginChild("findings list", {rect.w, rect.h - head}, false,
                      ImGuiWindowFlags_NoBackground);
    const Pen inner{ImGui::GetWindowDrawList(), pen.theme};
    ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = rect.w - pen.px(10);
    std::optional<Selection> under;
    const auto rows = [&](const std::vector<std::size_t>& indices, bool seen) {
        for (const std::size_t i : indices) {
            const RowText text = row_text(pen, in, i, width);
            const float height = row_height(pen, text);
            const Row row{{at.x, at.y, width, height}, i, !seen && i == indices.front(), seen};
            if (list_row(inner, row, in, text, out))
                under = about(in.drawn.set, in.review->findings[i].about);
            at.y += height;
        }
    };
    rows(folded.open, false);
    if (!folded.seen.empty())
        at.y = fold_row(inner, {at.x, at.y, width, pen.px(32)}, in, folded.seen.size(), out);
    if (in.seen_open) rows(folded.seen, true);
    ImGui::SetCursorScreenPos({at.x, at.y - 1.0F});
    ImGui::Dummy({1, 1});
    ImGui::EndChild();
    return under;
}

/// Nothing to tell, or nothing that was not seen already.
void quiet_line(Pen pen, const Rect& rect, const FindingsInput& in, const Folded& folded,
                Outbox& out) {
    const Palette& c = pen.colour();
    const bool known = in.review != nullptr;
    if (known)
        state_glyph(pen, rect.x + pen.px(16), rect.centre_y() + pen.px(8), 17, Verdict::stable,
                    c.text2);
    std::string words = in.working;
    if (known)
        words =
            folded.seen.empty()
                ? "Nothing found that wants attention. The cautions under Help hold all the same."
                : "Nothing new, " + seen_words(folded.seen.size()) +
                      ". The cautions under Help hold all the same.";
    text_at(pen, pen.theme->font.body, rect.x + pen.px(42), rect.centre_y(), c.text2, words);
    if (!folded.seen.empty()) show_button(pen, rect, rect.right() - pen.px(16), out);
}

} // namespace

std::optional<Selection> findings_line(Pen pen, const Rect& rect, const FindingsInput& in,
                                       Outbox& out) {
    const Palette& c = pen.colour();
    fill_rect(pen, rect, c.chrome);
    line(pen, {rect.x, rect.y}, {rect.right(), rect.y}, 1.0F, c.line);
    const Folded folded = fold_seen(in.review, in.seen);
    if (in.open && !(folded.open.empty() && folded.seen.empty()))
        return list(pen, rect, in, folded, out);
    if (!folded.open.empty()) return one_line(pen, rect, in, folded, out);
    quiet_line(pen, rect, in, folded, out);
    return std::nullopt;
}

} // namespace keystead::ui
