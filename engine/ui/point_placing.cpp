#include "engine/ui/point_placing.h"

#include "engine/ui/own_section.h"
#include "engine/ui/set_commands.h"
#include "sim/review/sight.h"

#include <cmath>

namespace keystead::ui {

namespace {

/// Rings where the points are now; the one to be placed stands out.
void known_points(Pen pen, const Rect& picture, const CameraFrame& frame, const Studio& studio,
                  std::size_t wanted) {
    const std::array<OwnPoint, 5> known = own_points(studio);
    const Palette& c = pen.colour();
    for (std::size_t i = 0; i < known.size(); ++i) {
        Vec2 at(0.0);
        if (!known[i].in_room_m || !in_picture(frame, *known[i].in_room_m, at)) continue;
        const ImVec2 p{picture.centre_x() + 0.5F * picture.w * static_cast<float>(at.x),
                       picture.centre_y() - 0.5F * picture.h * static_cast<float>(at.y)};
        if (!picture.contains(p.x, p.y)) continue;
        ring(pen, p, pen.px(5), 2.0F, c.page);
        ring(pen, p, pen.px(5), 1.0F, i == wanted ? c.accent : c.text);
    }
}

void instruction(Pen pen, const Rect& picture, const PointPlacing& placing, std::size_t wanted) {
    const Palette& c = pen.colour();
    const ImFont* font = pen.theme->font.small;
    const std::string words = std::string(placing.missed ? "That was not on the head. " : "") +
                              "Click the " + own_point_words[wanted] +
                              (wanted == 1 || wanted == 2 ? " (the subject's own side)" : "") +
                              "; Escape leaves it.";
    const float room = picture.w - pen.px(36);
    const std::vector<std::string> lines = wrapped(font, words, room);
    const float h = pen.px(16) * static_cast<float>(lines.size()) + pen.px(8);
    const float w = lines.size() > 1 ? room : width_of(font, words);
    const Rect strip{std::floor(picture.centre_x() - 0.5F * w) - pen.px(10), picture.y + pen.px(8),
                     w + pen.px(20), h};
    fill_rect(pen, strip, c.panel, 3.0F);
    float cy = strip.y + pen.px(12);
    for (const std::string& each : lines) {
        text_centre(pen, font, picture.centre_x(), cy, placing.missed ? c.danger : c.text, each);
        cy += pen.px(16);
    }
}

} // namespace

void place_in_picture(Pen pen, const Rect& picture, const Studio& studio,
                      const PointPlacing& placing, bool clicked, Outbox& out) {
    if (!placing.wanted) return;
    const auto wanted = static_cast<std::size_t>(*placing.wanted);
    const CameraFrame frame = camera_frame(studio.set.camera);
    known_points(pen, picture, frame, studio, wanted);
    instruction(pen, picture, placing, wanted);
    if (ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false)) out.wish(Act::place_point);
    if (!clicked) return;
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const Vec3 direction =
        ray_through(frame, 2.0 * static_cast<double>((mouse.x - picture.centre_x()) / picture.w),
                    -2.0 * static_cast<double>((mouse.y - picture.centre_y()) / picture.h));
    if (const auto point = own_point_met(studio, frame.eye_m, direction)) {
        out.perform(set_point(own_point_path(wanted), *point));
        out.wish(Act::place_point);
    } else {
        out.wish(Act::place_missed);
    }
}

} // namespace keystead::ui
