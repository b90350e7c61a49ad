#include "engine/ui/findings_line.h"

#include "engine/ui/marks.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

int findings_rows(const Review* review) {
    return review == nullptr ? 0 : std::min<int>(5, static_cast<int>(review->findings.size()));
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

std::string count_words(std::size_t count) {
    return count == 1 ? "1 finding" : std::to_string(count) + " findings";
}

/// The button that mends it, at the right end; returns where it begins.
float mend_button(Pen pen, const FindingsInput& in, std::size_t i, const Rect& row, Outbox& out) {
    const float h = pen.px(24), right = row.right() - pen.px(16);
    if (i >= in.remedies.size() || !in.remedies[i]) return right;
    const Remedy& remedy = *in.remedies[i];
    const float w = button_width(pen, remedy.act);
    const Rect box{right - w, std::floor(row.centre_y() - 0.5F * h), w, h};
    if (button(pen, "mend " + std::to_string(i), box, remedy.act,
               i == 0 ? ButtonKind::accent : ButtonKind::plain))
        out.perform(remedy.command);
    return right - w - pen.px(8);
}

void one_line(Pen pen, const Rect& rect, const FindingsInput& in, Outbox& out) {
    const Palette& c = pen.colour();
    const Fonts& font = pen.theme->font;
    const Finding& first = in.review->findings.front();
    const float cy = rect.centre_y();
    const Verdict worst = as_verdict(first.level);
    state_glyph(pen, rect.x + pen.px(16), cy + pen.px(8), 17, worst,
                worst == Verdict::stable ? c.text2 : state_colour(c, worst));
    float x = text_at(pen, font.medium, rect.x + pen.px(42), cy, c.text,
                      count_words(in.review->findings.size()));
    line(pen, {x + pen.px(14), rect.y + pen.px(10)}, {x + pen.px(14), rect.bottom() - pen.px(10)},
         1.0F, c.line_strong);
    float right = mend_button(pen, in, 0, rect, out);
    const float w = button_width(pen, "show all"), h = pen.px(24);
    right -= w;
    if (button(pen, "show findings", {right, std::floor(cy - 0.5F * h), w, h}, "show all",
               ButtonKind::plain))
        out.wish(Act::toggle_findings);
    x = about_mark(pen, in.drawn.set, first.about, x + pen.px(30), cy);
    const Hit hit = hit_area("finding", {rect.x, rect.y, right - rect.x - pen.px(8), rect.h});
    if (hit.clicked) out.select = about(in.drawn.set, first.about);
    const float room = right - pen.px(16) - x;
    const ImU32 ink = faded(c.text, in.review_is_current ? 1.0F : 0.55F);
    const float message_end =
        text_at(pen, font.body, x, cy, ink, fitted(font.body, first.message, room));
    if (message_end + pen.px(60) < x + room)
        text_at(pen, font.body, message_end + pen.px(8), cy,
                faded(c.text2, in.review_is_current ? 1.0F : 0.55F),
                fitted(font.body, first.remedy, x + room - message_end - pen.px(8)));
}

/// Where the words of a row end, and the remedy broken to fit before the button.
struct RowText {
    float width;
    std::vector<std::string> remedy;
};

RowText row_text(Pen pen, const FindingsInput& in, std::size_t i, float row_width) {
    const bool has_button = i < in.remedies.size() && in.remedies[i];
    const float taken = has_button ? button_width(pen, in.remedies[i]->act) + pen.px(16) : 0.0F;
    const float width = row_width - pen.px(42 + 70 + 24) - taken;
    return {width, wrapped(pen.theme->font.small, in.review->findings[i].remedy, width)};
}

float row_height(Pen pen, const RowText& text) {
    return pen.px(29.0F + 16.0F * static_cast<float>(std::max<std::size_t>(1, text.remedy.size())));
}

void list_row(Pen pen, const Rect& row, const FindingsInput& in, std::size_t i, const RowText& text,
              Outbox& out) {
    const Palette& c = pen.colour();
    const Fonts& font = pen.theme->font;
    const Finding& finding = in.review->findings[i];
    const Verdict verdict = as_verdict(finding.level);
    const float right = mend_button(pen, in, i, row, out);
    const Hit hit = hit_area("finding " + std::to_string(i), {row.x, row.y, right - row.x, row.h});
    if (hit.hovered) fill_rect(pen, {row.x, row.y + 1, row.w, row.h - 1}, faded(c.hover, 0.5F));
    if (hit.clicked) out.select = about(in.drawn.set, finding.about);
    line(pen, {row.x, row.y}, {row.right(), row.y}, 1.0F, c.line);
    const float first = row.y + pen.px(14);
    if (verdict != Verdict::stable)
        state_glyph(pen, row.x + pen.px(16), first + pen.px(8), 17, verdict,
                    state_colour(c, verdict));
    about_mark(pen, in.drawn.set, finding.about, row.x + pen.px(42), first);
    const float x = row.x + pen.px(42 + 70);
    text_at(pen, font.body, x, first, c.text, fitted(font.body, finding.message, text.width));
    float cy = first + pen.px(17);
    for (const std::string& words : text.remedy) {
        text_at(pen, font.small, x, cy, c.text2, words);
        cy += pen.px(16);
    }
}

/// All of them; the wheel scrolls when there are more than fit.
void list(Pen pen, const Rect& rect, const FindingsInput& in, Outbox& out) {
    const float head = pen.px(36), cy = rect.y + 0.5F * head;
    text_at(pen, pen.theme->font.medium, rect.x + pen.px(42), cy, pen.colour().text,
            count_words(in.review->findings.size()));
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
    for (std::size_t i = 0; i < in.review->findings.size(); ++i) {
        const float width = rect.w - pen.px(10);
        const RowText text = row_text(pen, in, i, width);
        const float height = row_height(pen, text);
        list_row(inner, {at.x, at.y, width, height}, in, i, text, out);
        at.y += height;
    }
    ImGui::SetCursorScreenPos({at.x, at.y - 1.0F});
    ImGui::Dummy({1, 1});
    ImGui::EndChild();
}

} // namespace

void findings_line(Pen pen, const Rect& rect, const FindingsInput& in, Outbox& out) {
    const Palette& c = pen.colour();
    const Fonts& font = pen.theme->font;
    fill_rect(pen, rect, c.chrome);
    line(pen, {rect.x, rect.y}, {rect.right(), rect.y}, 1.0F, c.line);
    if (in.review == nullptr || in.review->findings.empty()) {
        const bool known = in.review != nullptr;
        if (known)
            state_glyph(pen, rect.x + pen.px(16), rect.centre_y() + pen.px(8), 17, Verdict::stable,
                        c.text2);
        const std::string words =
            known ? "Nothing found that wants attention. The cautions under Help hold all the same."
                  : in.working;
        text_at(pen, font.body, rect.x + pen.px(42), rect.centre_y(), c.text2, words);
        return;
    }
    if (in.open)
        list(pen, rect, in, out);
    else
        one_line(pen, rect, in, out);
}

} // namespace keystead::ui
