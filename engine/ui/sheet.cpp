#include "engine/ui/sheet.h"

#include "engine/ui/type.h"
#include "engine/ui/widgets.h"
#include "engine/ui/words.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

void header(Pen pen, Plane plane, const Rect& rect) {
    const Fonts& font = pen.theme->font;
    const char* name = plane == Plane::plan ? "Plan" : "Elevation";
    const bool metric = pen.theme->units == Units::metric;
    const std::string from =
        std::string(plane == Plane::plan ? "from above, " : "from camera right, ") +
        (metric ? "metres" : "feet and inches");
    const float cy = rect.y + pen.px(16);
    // Kept clear of what it lies over, a wall's hatch.
    fill_rect(pen,
              {rect.x + pen.px(8), cy - pen.px(9),
               width_of(font.medium, name) + width_of(font.small, from) + pen.px(17), pen.px(18)},
              pen.colour().page);
    const float end = text_at(pen, font.medium, rect.x + pen.px(12), cy, pen.colour().ink, name);
    text_at(pen, font.small, end + pen.px(9), cy, pen.colour().ink2, from);
}

/// Wheel zooms about the pointer, the middle button moves the sheet.
void move_sheet(Sheet& sheet, const Page& page, bool hovered, bool held) {
    const ImGuiIO& io = ImGui::GetIO();
    const auto shift = [&](const Vec2& by) { sheet.shift_m += by; };
    if (hovered && io.MouseWheel != 0.0F) {
        const Vec2 before = page.plane_point(io.MousePos);
        const float factor =
            std::clamp(std::pow(1.15F, io.MouseWheel) * sheet.zoom, 0.5F, 8.0F) / sheet.zoom;
        const Vec2 middle = page.plane_point({page.rect.centre_x(), page.rect.centre_y()});
        sheet.zoom *= factor;
        shift((before - middle) * (1.0 - 1.0 / static_cast<double>(factor)));
    }
    if (held && ImGui::IsMouseDragging(ImGuiMouseButton_Middle, 0.0F)) {
        const double sign = page.plane == Plane::plan ? -1.0 : 1.0;
        shift(sign * Vec2(io.MouseDelta.x, io.MouseDelta.y) / static_cast<double>(page.px_per_m));
    }
}

void begin(SheetDrag& drag, const Grip& grip, const Page& page, const SheetInput& in, Outbox& out) {
    out.select = grip.what;
    drag = {};
    drag.grip = grip;
    drag.plane = page.plane;
    drag.start = in.drawn;
    drag.page = page;
    drag.from_px = ImGui::GetIO().MousePos;
    drag.from_m = page.plane_point(drag.from_px);
}

DragManner manner_of(const SheetInput& in, Units units) {
    const ImGuiIO& io = ImGui::GetIO();
    return {io.KeyShift, in.keeps_distance != io.KeyCtrl, units};
}

void carry_on(SheetDrag& drag, const SheetInput& in, Units units, Outbox& out) {
    const ImGuiIO& io = ImGui::GetIO();
    const Page& page = drag.page;
    HeadFollow* follow = in.follow;
    if (drag.cancelled) return;
    if (drag.moved && ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape))) {
        out.cancel();
        drag.cancelled = true;
        drag.sitter_m = Vec2(0.0);
        drag.words.clear();
        drag.pushed_back.clear();
        return;
    }
    if (!drag.moved && length_of(io.MousePos - drag.from_px) < 3.0F) return;
    drag.moved = true;
    const Vec2 to_m = page.plane_point(io.MousePos);
    const DragManner manner = manner_of(in, units);
    Dragged now = drag_grip(*drag.grip, drag.start, page.plane, drag.from_m, to_m, manner);
    drag.sitter_m = sitter_moved_m(*drag.grip, drag.start, page.plane, drag.from_m, to_m, manner);
    if (follow != nullptr) take_light_along(*follow, *drag.grip, now);
    drag.words = now.words;
    drag.pushed_back = now.pushed_back;
    if (now.command && (io.MouseDelta.x != 0.0F || io.MouseDelta.y != 0.0F)) out.drag(*now.command);
}

/// The sitter's drag moves the room in the sitter's coordinates: the sheet goes along, so that on
/// screen the room stays and the sitter moves.
void follow_sitter(Sheet& sheet, const Bounds& at_rest, Plane plane, const Vec2& sitter_m) {
    const Vec2 by = plane == Plane::plan ? sitter_m : Vec2(sitter_m.y, 0.0);
    sheet.fitted = at_rest;
    sheet.fitted.low -= by;
    sheet.fitted.high -= by;
}

/// Where a light that is dragged has come to, as a photographer says it of the face.
std::string face_words(const SheetInput& in, const SheetDrag& drag, Units units) {
    if (drag.grip->what.thing != Thing::light || drag.grip->kind == GripKind::leg) return {};
    const auto index = light_index(in.drawn.set, drag.grip->what.id);
    return index ? place_words(in.drawn, *index, units) : std::string();
}

/// The numbers of the drag in hand, beside the pointer.
void live_words(Pen pen, const Rect& rect, const SheetDrag& drag, const std::string& face) {
    if (!drag.moved || drag.words.empty()) return;
    const Palette& c = pen.colour();
    const Fonts& font = pen.theme->font;
    std::vector<std::string> more;
    if (!face.empty()) more.push_back(face);
    if (!drag.pushed_back.empty()) more.push_back(drag.pushed_back);
    float wide = width_of(font.small_medium, drag.words);
    for (const std::string& each : more) wide = std::max(wide, width_of(font.small, each));
    const float high = pen.px(22.0F + 16.0F * static_cast<float>(more.size()));
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    Rect box{mouse.x + pen.px(16), mouse.y - high - pen.px(10), wide + pen.px(16), high};
    box.x = std::clamp(box.x, rect.x + pen.px(4),
                       std::max(rect.x + pen.px(4), rect.right() - box.w - pen.px(4)));
    box.y = std::clamp(box.y, rect.y + pen.px(4),
                       std::max(rect.y + pen.px(4), rect.bottom() - box.h - pen.px(4)));
    box = {std::floor(box.x), std::floor(box.y), box.w, box.h};
    fill_rect(pen, box, c.page, 3.0F);
    frame_rect(pen, box, c.accent, 3.0F);
    text_at(pen, font.small_medium, box.x + pen.px(8), box.y + pen.px(11), c.accent, drag.words);
    float cy = box.y + pen.px(27);
    for (const std::string& each : more) {
        text_at(pen, font.small, box.x + pen.px(8), cy, c.ink2, each);
        cy += pen.px(16);
    }
}

} // namespace

std::optional<Selection> sheet_view(Pen pen, Plane plane, const Rect& rect, const SheetInput& in,
                                    SheetMemory& memory, SheetDrag& drag, Outbox& out) {
    fill_rect(pen, rect, pen.colour().page);
    pen.list->PushClipRect({rect.x, rect.y}, {rect.right(), rect.bottom()}, true);
    const bool sitter_moves = drag.grip && drag.grip->kind == GripKind::sitter;
    if (sitter_moves) follow_sitter(memory.sheet, memory.at_rest, plane, drag.sitter_m);
    keep_fitted(memory.sheet, in.drawn, plane, rect, in.dragging);
    if (!drag.grip) memory.at_rest = memory.sheet.fitted;
    const Page page = page_of(memory.sheet, plane, rect, *pen.theme, in.drawn.set.room);
    const Hit hit = hit_area(plane == Plane::plan ? "plan" : "elevation", rect);
    move_sheet(memory.sheet, page, hit.hovered,
               ImGui::IsMouseDown(ImGuiMouseButton_Middle) &&
                   rect.contains(ImGui::GetIO().MousePos.x, ImGui::GetIO().MousePos.y));
    const bool mine = drag.grip && drag.plane == plane;
    std::optional<Grip> under;
    if (hit.hovered && !hit.held)
        under =
            grip_at(grips_of(in.drawn, in.outline, page, in.selection), ImGui::GetIO().MousePos);
    if (hit.held && !drag.grip && ImGui::IsMouseClicked(ImGuiMouseButton_Left)) {
        const auto grip =
            grip_at(grips_of(in.drawn, in.outline, page, in.selection), ImGui::GetIO().MousePos);
        if (grip)
            begin(drag, *grip, page, in, out);
        else
            out.select = Selection{};
    } else if (mine && hit.held) {
        carry_on(drag, in, pen.theme->units, out);
    } else if (mine) {
        if (drag.moved && !drag.cancelled) out.drop();
        drag = {};
    }
    LabelPlacer labels(
        {rect.x + pen.px(4), rect.y + pen.px(28), rect.w - pen.px(8), rect.h - pen.px(32)},
        memory.labels);
    const Drawing drawing{pen, page, in, labels};
    if (plane == Plane::plan)
        draw_plan(drawing);
    else
        draw_elevation(drawing);
    header(pen, plane, rect);
    if (mine) live_words(pen, rect, drag, face_words(in, drag, pen.theme->units));
    pen.list->PopClipRect();
    if (under) {
        ImGui::SetMouseCursor(under->kind == GripKind::column ? ImGuiMouseCursor_ResizeNS
                                                              : ImGuiMouseCursor_Hand);
        return under->what;
    }
    return std::nullopt;
}

} // namespace keystead::ui
