#include "engine/ui/marks.h"

#include "engine/ui/type.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

std::string letter_of(std::size_t index) {
    std::string letter(1, static_cast<char>('A' + index % 26));
    if (index >= 26) letter += std::to_string(index / 26 + 1);
    return letter;
}

void tag(Pen pen, const ImVec2& centre, std::string_view letter, const TagLook& look) {
    const Palette& c = pen.colour();
    const float r = look.radius * pen.theme->scale;
    if (look.hovered) ring(pen, centre, r + pen.px(3), 2.0F, c.accent);
    const ImU32 outline = look.muted ? c.text3 : look.on_page ? c.ink : c.text2;
    if (look.selected) {
        disc(pen, centre, r, c.accent);
    } else {
        disc(pen, centre, r, look.on_page ? c.page : c.panel);
        ring(pen, centre, r - 0.5F, 1.0F, outline);
    }
    const ImU32 ink = look.selected  ? c.on_accent
                      : look.muted   ? c.text3
                      : look.on_page ? c.ink
                                     : c.text;
    text_centre(pen, pen.theme->font.tag, centre.x, centre.y, ink, letter);
}

ImU32 state_colour(const Palette& palette, Verdict verdict) {
    if (verdict == Verdict::unstable) return palette.danger;
    return verdict == Verdict::caution ? palette.caution : palette.text;
}

const char* state_word(Verdict verdict) {
    if (verdict == Verdict::unstable) return "falls";
    return verdict == Verdict::caution ? "caution" : "stands";
}

float state_glyph_width(Pen pen, float height) {
    return pen.px(height * 1.05F);
}

namespace {

/// The rigid figure turned about `pivot`, offset as given from the middle of the foot.
struct Figure {
    ImVec2 foot;  ///< middle of the underside of the foot
    ImVec2 pivot; ///< it is turned about this point
    float cosine, sine;
    ImVec2 at(float x, float up) const {
        const ImVec2 p{foot.x + x - pivot.x, foot.y - up - pivot.y};
        return {pivot.x + cosine * p.x - sine * p.y, pivot.y + sine * p.x + cosine * p.y};
    }
};

Figure turned_figure(const ImVec2& foot, const ImVec2& pivot, float angle_deg) {
    const float angle = angle_deg * 0.0174532925F;
    return {foot, pivot, std::cos(angle), std::sin(angle)};
}

void upright_glyph(Pen pen, const ImVec2& foot, float h, ImU32 colour) {
    const float t =
        std::max(std::floor(1.5F * pen.theme->scale + 0.5F), std::floor(0.10F * h + 0.5F));
    const float half = std::floor(0.26F * h + 0.5F), x = std::floor(foot.x - 0.5F * t + 0.5F);
    fill_rect(pen, {std::floor(foot.x - half), foot.y - t, 2.0F * half + std::fmod(t, 2.0F), t},
              colour);
    fill_rect(pen, {x, std::floor(foot.y - 0.74F * h), t, std::floor(0.74F * h)}, colour);
    disc(pen, {x + 0.5F * t, foot.y - 0.80F * h}, 0.14F * h, colour);
}

} // namespace

void state_glyph(Pen pen, float left, float floor_y, float height, Verdict verdict, ImU32 colour) {
    const float h = pen.px(height), width = state_glyph_width(pen, height);
    const float floor_line = std::floor(floor_y);
    fill_rect(pen, {std::floor(left), floor_line, width, std::max(1.0F, pen.px(1))},
              faded(colour, 0.7F));
    const ImVec2 foot{std::floor(left + 0.5F * width), floor_line};
    if (verdict == Verdict::stable) return upright_glyph(pen, foot, h, colour);
    const bool falls = verdict == Verdict::unstable;
    const float half = 0.26F * h, t = std::max(1.5F * pen.theme->scale, 0.10F * h);
    const Figure figure = falls ? turned_figure({foot.x - 0.05F * h, foot.y - 0.06F * h},
                                                {foot.x, foot.y - 0.05F * h}, 46.0F)
                                : turned_figure(foot, {foot.x + half, foot.y}, 14.0F);
    const Points bar_points{figure.at(-half, 0), figure.at(half, 0), figure.at(half, t),
                            figure.at(-half, t)};
    const Points column{figure.at(-0.5F * t, 0.5F * t), figure.at(0.5F * t, 0.5F * t),
                        figure.at(0.5F * t, 0.74F * h), figure.at(-0.5F * t, 0.74F * h)};
    fill_convex(pen, bar_points, colour);
    fill_convex(pen, column, colour);
    disc(pen, figure.at(0, 0.80F * h), 0.14F * h, colour);
}

void dimension(Pen pen, const ImVec2& a, const ImVec2& b, std::string_view figure,
               const DimensionLook& look) {
    const ImVec2 along = unit_of(b - a), across = normal_of(along);
    line(pen, a, b, 1.0F, look.line_colour);
    const float tick = pen.px(7) * 0.5F, stub = pen.px(6);
    for (const ImVec2& end : {a, b}) {
        if (look.stubs) line(pen, end - across * stub, end + across * stub, 1.0F, look.line_colour);
        const ImVec2 slash = unit_of(along + across) * tick;
        line(pen, end - slash, end + slash, 1.6F, look.line_colour);
    }
    const ImFont* font = pen.theme->font.small_medium;
    if (!look.figure) return;
    const ImVec2 middle = (a + b) * 0.5F;
    text_knocked_out(pen, font, middle.x, middle.y, look.text_colour, figure);
}

void scale_bar(Pen pen, const ImVec2& right, float px_per_m) {
    const Palette& c = pen.colour();
    const ImFont* font = pen.theme->font.small;
    const bool feet = pen.theme->units == Units::imperial;
    const std::string words = feet ? "4 ft" : "1 m";
    const float whole = feet ? px_per_m * 4.0F * 0.3048F : px_per_m;
    const float text = width_of(font, words) + pen.px(6);
    const float x1 = std::floor(right.x - text), x0 = std::floor(x1 - whole),
                y = std::floor(right.y);
    // Kept clear of what it lies over: a wall's hatch, a cloth.
    fill_rect(pen, {x0 - pen.px(5), y - pen.px(11), right.x - x0 + pen.px(8), pen.px(18)}, c.page);
    const float thick = std::max(1.0F, pen.px(3));
    for (int i = 0; i < 4; ++i) {
        const float from = std::floor(x0 + whole * 0.25F * static_cast<float>(i));
        const float to = std::floor(x0 + whole * 0.25F * static_cast<float>(i + 1));
        if (i % 2 == 0) fill_rect(pen, {from, y - thick, to - from, thick}, c.ink2);
        line(pen, {from, y}, {to, y}, 1.0F, c.ink2);
        line(pen, {from, y - pen.px(4)}, {from, y + 1}, 1.0F, c.ink2);
    }
    line(pen, {x1, y - pen.px(4)}, {x1, y + 1}, 1.0F, c.ink2);
    text_right(pen, font, right.x, y - pen.px(1), c.ink2, words);
}

void plumb_mark(Pen pen, const ImVec2& at, float radius, ImU32 colour, ImU32 ground) {
    const float r = radius * pen.theme->scale;
    disc(pen, at, r, ground);
    for (const float start : {0.0F, 3.14159265F}) {
        pen.list->PathLineTo(at);
        pen.list->PathArcTo(at, r, start, start + 1.5707963F, 8);
        pen.list->PathFillConvex(colour);
    }
    ring(pen, at, r, 1.2F, colour);
    const float tick = r + pen.px(3);
    for (const ImVec2& way : {ImVec2(1, 0), ImVec2(-1, 0), ImVec2(0, 1), ImVec2(0, -1)})
        line(pen, at + way * r, at + way * tick, 1.0F, colour);
}

void arrow_head(Pen pen, const ImVec2& tip, const ImVec2& direction, ImU32 colour) {
    const ImVec2 d = unit_of(direction), side = normal_of(d);
    const float length = pen.px(6), half = 2.3F * pen.theme->scale;
    const Points head{tip, tip - d * length + side * half, tip - d * length - side * half};
    fill_convex(pen, head, colour);
}

void chevron(Pen pen, const ImVec2& c, bool open, ImU32 colour) {
    const float s = pen.theme->scale;
    const Points down{
        {c.x - 3.5F * s, c.y - 2.0F * s}, {c.x, c.y + 2.0F * s}, {c.x + 3.5F * s, c.y - 2.0F * s}};
    const Points right{
        {c.x - 2.0F * s, c.y - 3.5F * s}, {c.x + 2.0F * s, c.y}, {c.x - 2.0F * s, c.y + 3.5F * s}};
    stroke(pen, open ? down : right, false, 1.5F, colour);
}

void turn_arrow(Pen pen, const ImVec2& c, bool back, ImU32 colour) {
    const float s = pen.theme->scale, way = back ? 1.0F : -1.0F, r = 4.5F * s;
    Points arc;
    arc.push_back({c.x - way * 5.5F * s, c.y - 2.5F * s});
    for (int i = 0; i <= 10; ++i) {
        const float angle = -1.5707963F + 3.14159265F * static_cast<float>(i) / 10.0F;
        arc.push_back(
            {c.x + way * (1.0F * s + r * std::cos(angle)), c.y + 2.0F * s + r * std::sin(angle)});
    }
    arc.push_back({c.x - way * 3.0F * s, c.y + 6.5F * s});
    stroke(pen, arc, false, 1.5F, colour);
    const Points head{{c.x - way * 2.5F * s, c.y - 6.0F * s},
                      {c.x - way * 6.0F * s, c.y - 2.5F * s},
                      {c.x - way * 2.5F * s, c.y + 1.0F * s}};
    stroke(pen, head, false, 1.5F, colour);
}

void cross_mark(Pen pen, const ImVec2& c, float half, ImU32 colour) {
    const float h = half * pen.theme->scale;
    line(pen, {c.x - h, c.y - h}, {c.x + h, c.y + h}, 1.5F, colour);
    line(pen, {c.x - h, c.y + h}, {c.x + h, c.y - h}, 1.5F, colour);
}

void egg(Pen pen, const ImVec2& c, ImU32 colour) {
    Points outline;
    for (int i = 0; i < 24; ++i) {
        const float angle = 6.2831853F * static_cast<float>(i) / 24.0F;
        const float narrowing = 1.0F - 0.16F * std::sin(angle);
        outline.push_back({c.x + 6.0F * pen.theme->scale * std::cos(angle) * narrowing,
                           c.y + 8.0F * pen.theme->scale * std::sin(angle)});
    }
    stroke(pen, outline, true, 1.5F, colour);
}

} // namespace keystead::ui
