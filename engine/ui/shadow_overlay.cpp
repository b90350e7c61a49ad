#include "engine/ui/shadow_overlay.h"

#include "engine/ui/learn_words.h"
#include "engine/ui/type.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

/// Two inks, so that it shows on light skin and on dark: a dark line with a light one in it.
constexpr ImU32 dark_ink = IM_COL32(12, 12, 14, 150), light_ink = IM_COL32(246, 246, 240, 235),
                ground = IM_COL32(12, 12, 14, 165);
constexpr float outer = 2.6F, inner = 1.0F;

ImVec2 place(const LensPart& picture, const Vec2& whole) {
    const Vec2 at = picture.part.at(whole);
    const Rect& rect = picture.rect;
    return {rect.centre_x() + 0.5F * rect.w * static_cast<float>(at.x),
            rect.centre_y() - 0.5F * rect.h * static_cast<float>(at.y)};
}

Rect place(const LensPart& picture, const FaceLesson::Box& box) {
    const ImVec2 a = place(picture, Vec2(box.low.x, box.high.y));
    const ImVec2 b = place(picture, Vec2(box.high.x, box.low.y));
    return {a.x, a.y, b.x - a.x, b.y - a.y};
}

void outlines(Pen pen, const LensPart& picture, const FaceLesson& lesson, float alpha) {
    for (const bool light : {false, true})
        for (const FaceLesson::Line& each : lesson.lines) {
            Points points;
            for (const Vec2& at : each.at) points.push_back(place(picture, at));
            const float width = (light ? inner : outer) * (each.lit_edge ? 1.0F : 0.8F);
            const ImU32 ink = faded(light ? light_ink : dark_ink, alpha);
            if (each.lit_edge)
                stroke(pen, points, false, width, ink);
            else
                dashed(pen, points, false, dash::polygon, width, ink);
        }
}

/// To the nearer side of the face, so that words stand beside what they name.
ImVec2 outward(const Rect& face, const ImVec2& at) {
    return {at.x < face.centre_x() ? -1.0F : 1.0F, 0.0F};
}

void leader_to(Pen pen, const Rect& label, const ImVec2& at, float alpha) {
    const ImVec2 from{std::clamp(at.x, label.x, label.right()),
                      std::clamp(at.y, label.y, label.bottom())};
    line(pen, from, at, outer, faded(dark_ink, alpha));
    line(pen, from, at, inner, faded(light_ink, alpha));
    disc(pen, at, pen.px(3), faded(dark_ink, alpha));
    disc(pen, at, pen.px(2), faded(light_ink, alpha));
}

std::vector<Rect> words(Pen pen, const LensPart& picture, const FaceLesson& lesson,
                        LabelPlacer& labels, float alpha) {
    const ImFont* font = pen.theme->font.small_medium;
    const Rect face = place(picture, lesson.face);
    std::vector<std::pair<Rect, const FaceLesson::Word*>> placed;
    for (const FaceLesson::Word& word : lesson.words) {
        const ImVec2 at = place(picture, word.at);
        if (!picture.rect.contains(at.x, at.y)) continue;
        // About a strip across the face: beside the face first, at the height of what is named.
        const Rect strip{face.x, at.y - 1.0F, face.w, 2.0F};
        const float w = width_of(font, word.words) + pen.px(12), h = pen.px(18);
        const Rect box = labels.place(word.words, strip, w, h, pen.px(16), outward(face, at));
        if (labels.last_cost() > 100.0F) {
            labels.forget_last();
            continue;
        }
        placed.emplace_back(box, &word);
    }
    for (const auto& [box, word] : placed) leader_to(pen, box, place(picture, word->at), alpha);
    for (const auto& [box, word] : placed) {
        fill_rect(pen, box, faded(ground, alpha), 3.0F);
        text_centre(pen, font, box.centre_x(), box.centre_y(), faded(light_ink, alpha),
                    word->words);
    }
    std::vector<Rect> boxes;
    for (const auto& [box, word] : placed) boxes.push_back(box);
    return boxes;
}

/// So that nobody takes the part for the picture.
void part_words(Pen pen, const Rect& rect) {
    const char* words = "close to the face";
    const ImFont* font = pen.theme->font.small;
    const float pad = pen.px(6), h = pen.px(18);
    const Rect box{rect.x + pen.px(6), rect.y + pen.px(6), width_of(font, words) + 2.0F * pad, h};
    fill_rect(pen, box, IM_COL32(0, 0, 0, 110));
    text_at(pen, font, box.x + pad, box.centre_y(), IM_COL32(235, 235, 235, 255), words);
}

} // namespace

std::vector<Rect> shadow_overlay(Pen pen, const Rect& room, const LensPart& picture,
                                 const FaceLesson& lesson, bool current, LabelMemory& memory) {
    pen.list->PushClipRect({room.x, room.y}, {room.right(), room.bottom()}, true);
    const float alpha = current ? 1.0F : 0.45F;
    const Rect& rect = picture.rect;
    pen.list->PushClipRect({rect.x, rect.y}, {rect.right(), rect.bottom()}, true);
    outlines(pen, picture, lesson, alpha);
    if (!picture.part.whole()) part_words(pen, rect);
    pen.list->PopClipRect();
    LabelPlacer labels(inset(room, pen.px(4)), memory);
    labels.avoid(place(picture, lesson.face));
    for (const FaceLesson::Box& eye : lesson.eyes) labels.avoid(place(picture, eye));
    std::vector<Rect> boxes = words(pen, picture, lesson, labels, alpha);
    pen.list->PopClipRect();
    return boxes;
}

void lesson_sentence(Pen pen, const Rect& lines, const Rect& picture, const std::string& light,
                     const FaceLesson& lesson, const Review* review, bool current) {
    const Fonts& font = pen.theme->font;
    const Palette& c = pen.colour();
    const float alpha = current ? 1.0F : 0.55F, step = pen.px(16);
    const float left = std::min(picture.x, lines.x + pen.px(60));
    const bool about_it = review != nullptr && review->portrait.key == lesson.light;
    const std::string next = about_it ? next_names(review->portrait) : "";
    // Under the caption, wherever the picture ends.
    float cy = std::min(picture.bottom() + pen.px(40), lines.y + 0.5F * step);
    const float end = text_at(pen, font.small_medium, left, cy, faded(c.caption, alpha),
                              light + ", " + pattern_words(lesson.reading.pattern));
    std::string note = lesson.reading.note;
    if (end + pen.px(12) + width_of(font.small, next) <= lines.right())
        text_at(pen, font.small, end + pen.px(12), cy, faded(c.caption, alpha), next);
    else
        note = next + " " + note;
    const auto room = static_cast<std::size_t>(lines.h / step) - 1;
    std::vector<std::string> rest = wrapped(font.small, note, lines.right() - left);
    // What does not fit ends in an ellipsis.
    if (rest.size() > room && room > 0)
        rest[room - 1] =
            fitted(font.small, rest[room - 1] + " " + rest[room], lines.right() - left);
    for (std::size_t i = 0; i < std::min(room, rest.size()); ++i)
        text_at(pen, font.small, left, cy += step, faded(c.caption2, alpha), rest[i]);
}

} // namespace keystead::ui
