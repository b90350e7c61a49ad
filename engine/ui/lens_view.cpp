#include "engine/ui/lens_view.h"

#include "engine/ui/widgets.h"
#include "engine/ui/words.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>

namespace keystead::ui {

float frame_aspect(const Camera& camera) {
    const auto wide = static_cast<float>(camera.sensor_width_mm / camera.sensor_height_mm);
    return camera.orientation == Orientation::upright ? 1.0F / wide : wide;
}

Rect picture_rect(const Rect& view, float aspect, const Theme& theme, int lines) {
    const float margin = theme.px(14), caption = theme.px(36) + lens_lines(view, theme, lines).h;
    const float room_w = std::max(16.0F, view.w - 2.0F * margin),
                room_h = std::max(16.0F, view.h - margin - caption);
    const float w = std::floor(std::min(room_w, room_h * aspect)),
                h = std::floor(std::min(room_h, room_w / aspect));
    return {std::floor(view.x + margin + 0.5F * (room_w - w)),
            std::floor(view.y + margin + 0.5F * (room_h - h)), w, h};
}

Rect lens_lines(const Rect& view, const Theme& theme, int lines) {
    const float h = theme.px(16) * static_cast<float>(lines), margin = theme.px(14);
    return {view.x + margin, view.bottom() - theme.px(8) - h, view.w - 2.0F * margin, h};
}

namespace {

/// ImGui's OpenGL backend takes the texture's name in place of a pointer.
ImTextureID id_of(unsigned texture) {
    // NOLINTNEXTLINE(performance-no-int-to-ptr)
    return reinterpret_cast<ImTextureID>(static_cast<std::uintptr_t>(texture));
}

/// Neutral words where a picture will be.
void waiting(Pen pen, const Rect& rect, const std::string& trouble) {
    frame_rect(pen, rect, faded(pen.colour().caption2, 0.35F), 0.0F);
    const std::string words = trouble.empty() ? "the picture is being made" : trouble;
    float cy = rect.centre_y();
    for (const std::string& each : wrapped(pen.theme->font.small, words, rect.w - pen.px(40))) {
        text_centre(pen, pen.theme->font.small, rect.centre_x(), cy, pen.colour().caption2, each);
        cy += pen.px(16);
    }
}

/// A set without any light is truly dark: said, so that nobody takes it for a broken picture.
void dark_words(Pen pen, const Rect& picture, const Set& set) {
    const auto lit = [](const Light& light) { return light.on; };
    if (set.room.ambient_lx > 0.0 || std::any_of(set.lights.begin(), set.lights.end(), lit)) return;
    text_centre(pen, pen.theme->font.body, picture.centre_x(), picture.centre_y(),
                IM_COL32(170, 170, 170, 255),
                set.lights.empty() ? "Dark: no light stands yet. Put one up below."
                                   : "Dark: no light is on.");
}

void progress(Pen pen, const Rect& picture, const PictureShown& shown) {
    if (shown.texture == 0 || shown.samples >= shown.target) return;
    const float done =
        static_cast<float>(shown.samples) / static_cast<float>(std::max(1, shown.target));
    const float y = picture.bottom() + pen.px(2);
    fill_rect(pen, {picture.x, y, std::floor(picture.w * done), std::max(1.0F, pen.px(1))},
              pen.colour().caption2);
}

/// How far the picture is from what it will be, in its lower right corner while it is on its way
/// and for good once it is there.
void noise(Pen pen, const Rect& picture, const PictureShown& shown) {
    if (shown.texture == 0 || !shown.noise_percent) return;
    char words[64];
    const char* state = shown.samples >= shown.target ? "settled, noise" : "noise";
    std::snprintf(words, sizeof words, "%s %.1f %%", state, *shown.noise_percent);
    const ImFont* font = pen.theme->font.small;
    const float pad = pen.px(6), h = pen.px(18), w = width_of(font, words) + 2.0F * pad;
    const Rect box{picture.right() - w - pen.px(6), picture.bottom() - h - pen.px(6), w, h};
    if (box.x < picture.x) return;
    fill_rect(pen, box, IM_COL32(0, 0, 0, 110));
    text_at(pen, font, box.x + pad, box.centre_y(), IM_COL32(235, 235, 235, 255), words);
}

float caption_middle(Pen pen, const Rect& view, const Rect& picture) {
    return std::min(picture.bottom() + pen.px(20), view.bottom() - pen.px(14));
}

/// In place of the caption: what the map's bands and the marks mean.
void key_of_map(Pen pen, const Rect& view, const Rect& picture, const Display& display) {
    const Palette& c = pen.colour();
    const ImFont* font = pen.theme->font.small;
    const float cy = caption_middle(pen, view, picture);
    const float h = pen.px(16);
    float x = view.x + pen.px(14);
    if (display.shown_as == ShownAs::stops) {
        const float usable = view.w - pen.px(28);
        constexpr int bands = highest_band - lowest_band + 1;
        const float w = std::min(pen.px(46), std::floor(usable / bands));
        x = std::max(x, std::floor(picture.centre_x() - 0.5F * w * bands));
        x = std::min(x, view.right() - pen.px(14) - w * bands);
        for (int band = lowest_band; band <= highest_band; ++band, x += w) {
            const glm::u8vec3 code = band_colour(band);
            fill_rect(pen, {x, cy - 0.5F * h, w - 1.0F, h}, IM_COL32(code.r, code.g, code.b, 255));
            const std::string words = band == 0 ? "face" : band_words(band).substr(0, 2);
            text_centre(pen, font, x + 0.5F * w, cy,
                        band < -1 ? IM_COL32(235, 235, 235, 255) : IM_COL32(15, 15, 15, 255),
                        words);
        }
        return;
    }
    const std::string words = "striped: the sensor is full  \u00b7  dotted: as good as black";
    text_at(pen, font, picture.x, cy, c.caption, fitted(font, words, view.right() - picture.x));
}

/// Parts that go into `room`: where something else than the set as it is is shown, the side is left
/// out rather than the reading.
std::vector<std::string> fitting_parts(Pen pen, const LensInput& in, float room) {
    std::vector<std::string> parts;
    if (in.review != nullptr) parts = caption_parts(*in.review);
    if (in.lead.empty()) return parts;
    parts.insert(parts.begin(), in.lead);
    float width = 0.0F;
    for (const std::string& part : parts)
        width += width_of(pen.theme->font.body, part) + pen.px(25);
    if (width > room && parts.size() > 3) parts.erase(parts.begin() + 2);
    return parts;
}

void caption(Pen pen, const Rect& view, const Rect& picture, const LensInput& in) {
    const Palette& c = pen.colour();
    const Fonts& font = pen.theme->font;
    const float cy = caption_middle(pen, view, picture), dim = in.review_is_current ? 1.0F : 0.55F;
    const float last = view.right() - pen.px(14);
    float x = picture.x;
    const std::vector<std::string> parts = fitting_parts(pen, in, last - x);
    bool first = true;
    for (const std::string& part : parts) {
        const ImFont* face = first ? font.medium : font.body;
        if (!first) {
            if (x + pen.px(24) + width_of(face, part) > last) break;
            disc(pen, {x + pen.px(12), cy + 0.5F}, 1.3F * pen.theme->scale, faded(c.caption2, dim));
            x += pen.px(24);
        }
        x = text_at(pen, face, x, cy, faded(c.caption, dim), part);
        first = false;
    }
    if (in.review == nullptr) return;
    const std::string holds = hold_words(*in.review);
    const float right = std::max(picture.right(), x);
    if (!holds.empty() && x + pen.px(20) + width_of(font.small, holds) < right)
        text_right(pen, font.small, right, cy, faded(c.caption2, dim), holds);
}

} // namespace

/// OpenGL's rows start at the bottom.
void draw_picture(Pen pen, const Rect& rect, unsigned texture) {
    pen.list->AddImage(id_of(texture), {rect.x, rect.y}, {rect.right(), rect.bottom()}, {0, 1},
                       {1, 0});
}

void lens_view(Pen pen, const Rect& rect, const LensInput& in, Outbox& out) {
    fill_rect(pen, rect, pen.colour().surround);
    pen.list->PushClipRect({rect.x, rect.y}, {rect.right(), rect.bottom()}, true);
    const Rect picture = picture_rect(rect, frame_aspect(in.set.camera), *pen.theme, in.lines);
    const Hit hit = hit_area("lens", picture);
    const bool placing = in.studio != nullptr && in.placing.wanted;
    if (placing && hit.hovered) ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    if (hit.clicked && !placing) out.select = Selection{Thing::camera, {}};
    if (in.picture.texture != 0)
        draw_picture(pen, picture, in.picture.texture);
    else
        waiting(pen, picture, in.picture.trouble);
    dark_words(pen, picture, in.set);
    progress(pen, picture, in.picture);
    noise(pen, picture, in.picture);
    if (placing) place_in_picture(pen, picture, *in.studio, in.placing, hit.clicked, out);
    const Display& shown = in.picture.display;
    if (in.picture.texture != 0 && (shown.shown_as == ShownAs::stops || shown.clipping))
        key_of_map(pen, rect, picture, shown);
    else
        caption(pen, rect, picture, in);
    pen.list->PopClipRect();
}

Rect room_picture_rect(const Rect& view, const Theme& theme) {
    const float head = theme.px(32);
    return {view.x, view.y + head, view.w, std::max(16.0F, view.h - head)};
}

void room_view(Pen pen, const Rect& rect, const PictureShown& picture, Orbit& orbit) {
    fill_rect(pen, rect, pen.colour().surround);
    pen.list->PushClipRect({rect.x, rect.y}, {rect.right(), rect.bottom()}, true);
    const Rect inner = room_picture_rect(rect, *pen.theme);
    const Hit hit = hit_area("room view", inner);
    const ImGuiIO& io = ImGui::GetIO();
    orbit.turning = hit.held;
    if (hit.held) {
        orbit.azimuth_deg -= 0.4 * io.MouseDelta.x;
        orbit.elevation_deg = std::clamp(orbit.elevation_deg + 0.3 * io.MouseDelta.y, -5.0, 89.0);
    }
    if (hit.hovered)
        orbit.distance_m = std::clamp(orbit.distance_m * std::pow(0.9, io.MouseWheel), 1.0, 30.0);
    if (picture.texture != 0)
        draw_picture(pen, inner, picture.texture);
    else
        waiting(pen, inset(inner, pen.px(14)), picture.trouble);
    const Fonts& font = pen.theme->font;
    const float cy = rect.y + pen.px(16);
    const float end =
        text_at(pen, font.medium, rect.x + pen.px(12), cy, pen.colour().caption, "Room");
    text_at(pen, font.small, end + pen.px(9), cy, pen.colour().caption2,
            "with a work light that is not in the set; drag to go round it");
    progress(pen, {inner.x, inner.y, inner.w, -pen.px(3)}, picture);
    pen.list->PopClipRect();
}

} // namespace keystead::ui
