#include "engine/ui/compare_view.h"

#include "engine/ui/widgets.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

std::string kept_words(const KeptState& state) {
    return state.name() + ", " + state.when;
}

/// Where the divider is in the picture, kept off its very edges.
float divider_x(const Rect& picture, float share) {
    return std::floor(picture.x + std::clamp(share, 0.02F, 0.98F) * picture.w);
}

/// Takes the pointer before the picture does.
Hit drag_divider(Pen pen, const Rect& picture, KeptStates& kept) {
    const float grab = pen.px(13), x = divider_x(picture, kept.divider);
    const Hit hit = hit_area("kept divider", {x - 0.5F * grab, picture.y, grab, picture.h});
    if (hit.hovered || hit.held) ImGui::SetMouseCursor(ImGuiMouseCursor_ResizeEW);
    if (hit.held && picture.w > 0.0F)
        kept.divider =
            std::clamp((ImGui::GetIO().MousePos.x - picture.x) / picture.w, 0.02F, 0.98F);
    return hit;
}

/// A white line with a dark one at either side: seen on any picture.
void draw_divider(Pen pen, const Rect& picture, float x, const Hit& hit) {
    const float w = std::max(1.0F, pen.px(hit.held || hit.hovered ? 2 : 1)), rim = pen.px(1);
    fill_rect(pen, {x - rim, picture.y, w + 2.0F * rim, picture.h}, IM_COL32(0, 0, 0, 120));
    fill_rect(pen, {x, picture.y, w, picture.h}, IM_COL32(240, 240, 240, 255));
    const float cy = std::floor(picture.centre_y()), half = pen.px(14), side = pen.px(5);
    const Rect handle{x + 0.5F * w - side, cy - half, 2.0F * side, 2.0F * half};
    fill_rect(pen, handle, IM_COL32(240, 240, 240, 255), 3.0F);
    for (const float off : {-2.0F, 2.0F})
        fill_rect(pen,
                  {std::floor(x + 0.5F * w + pen.px(off)), cy - pen.px(6),
                   std::max(1.0F, pen.px(1)), pen.px(12)},
                  IM_COL32(60, 60, 60, 255));
}

LensInput of_kept(const KeptState& state, const PictureShown& picture, int lines) {
    LensInput in{*state.set, state.review.get(), true, picture, nullptr, {},
                 lines,      kept_words(state)};
    return in;
}

} // namespace

void words_on_picture(Pen pen, float x, float y, const std::string& words, bool right) {
    const ImFont* font = pen.theme->font.small_medium;
    const float pad = pen.px(7), h = pen.px(20), w = std::ceil(width_of(font, words)) + 2.0F * pad;
    const Rect box{std::floor(right ? x - w : x), std::floor(y), w, h};
    fill_rect(pen, box, IM_COL32(0, 0, 0, 130), 2.0F);
    text_at(pen, font, box.x + pad, box.centre_y(), IM_COL32(235, 235, 235, 255), words);
}

void compared_lens_view(Pen pen, const Rect& rect, const LensInput& now, KeptStates& kept,
                        const PictureShown& kept_picture, Outbox& out) {
    const KeptState* state = kept.compared();
    if (state == nullptr) return lens_view(pen, rect, now, out);
    kept.picture = picture_rect(rect, frame_aspect(state->set->camera), *pen.theme, now.lines);
    if (kept.flipped) return lens_view(pen, rect, of_kept(*state, kept_picture, now.lines), out);
    const Rect picture = picture_rect(rect, frame_aspect(now.set.camera), *pen.theme, now.lines);
    const Hit hit = drag_divider(pen, picture, kept);
    lens_view(pen, rect, now, out);
    const float x = divider_x(picture, kept.divider);
    if (kept_picture.texture != 0) {
        pen.list->PushClipRect({picture.x, picture.y}, {x, picture.bottom()}, true);
        fill_rect(pen, picture, pen.colour().surround);
        draw_picture(pen, kept.picture, kept_picture.texture);
        pen.list->PopClipRect();
    }
    pen.list->PushClipRect({picture.x, picture.y}, {picture.right(), picture.bottom()}, true);
    draw_divider(pen, picture, x, hit);
    const float y = picture.y + pen.px(8), gap = pen.px(10);
    words_on_picture(pen, x - gap, y, kept_words(*state), true);
    words_on_picture(pen, x + gap, y, "now", false);
    pen.list->PopClipRect();
}

} // namespace keystead::ui
