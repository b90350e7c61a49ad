#include "engine/ui/selection_keys.h"

#include "engine/ui/set_commands.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace keystead::ui {

namespace {

/// GLFW's codes.
constexpr int right_key = 262, left_key = 263, down_key = 264, up_key = 265, page_up_key = 266,
              page_down_key = 267, f10_key = 299;

bool pressed(int key, bool repeats = true) {
    return ImGui::IsKeyPressed(key, repeats);
}

/// Steps asked for over the floor: x to camera right, y toward the camera (down the plan).
Vec2 arrows() {
    return {(pressed(right_key) ? 1.0 : 0.0) - (pressed(left_key) ? 1.0 : 0.0),
            (pressed(down_key) ? 1.0 : 0.0) - (pressed(up_key) ? 1.0 : 0.0)};
}

std::optional<Command> moved(const Set& set, const Selection& what, const Vec2& by_m) {
    if (what.thing == Thing::camera) {
        const Vec3 at = set.camera.position_m;
        return set_point("camera.position_m", {at.x + by_m.x, at.y, at.z + by_m.y});
    }
    if (const auto index = light_index(set, what.id); what.thing == Thing::light && index) {
        const Vec2 at = set.lights[*index].support.base.position_m;
        return set_place(light_path(what.id, "support.base.position_m"),
                         {at.x + by_m.x, at.y + by_m.y});
    }
    if (const auto index = panel_index(set, what.id); what.thing == Thing::panel && index) {
        const Panel& panel = set.panels[*index];
        if (panel.support) {
            const Vec2 at = panel.support->base.position_m;
            return set_place(panel_path(what.id, "support.base.position_m"),
                             {at.x + by_m.x, at.y + by_m.y});
        }
        const Vec3 at = panel.position_m;
        return set_point(panel_path(what.id, "position_m"), {at.x + by_m.x, at.y, at.z + by_m.y});
    }
    return std::nullopt;
}

void light_keys(const Light& light, double step_m, bool building, Outbox& out) {
    const Column& column = light.support.column;
    const double up =
        building ? 0.0 : (pressed(page_up_key) ? 1.0 : 0.0) - (pressed(page_down_key) ? 1.0 : 0.0);
    if (up != 0.0) {
        const double height =
            std::clamp(column.height_m + up * step_m, column.min_height_m, column.max_height_m);
        if (height != column.height_m)
            out.perform(set_number(light_path(light.id, "support.column.height_m"), height));
    }
    const double louder = (pressed('.') ? 1.0 : 0.0) - (pressed(',') ? 1.0 : 0.0);
    if (louder == 0.0) return;
    const double below =
        std::clamp(light.head.power_stops_below - 0.1 * louder, 0.0, light.head.range_stops);
    if (below != light.head.power_stops_below)
        out.perform(set_number(light_path(light.id, "head.power_stops_below"), below));
}

} // namespace

void selection_keys(const App& app, Outbox& out) {
    const ImGuiIO& io = ImGui::GetIO();
    const bool listing = ImGui::IsPopupOpen("", ImGuiPopupFlags_AnyPopup);
    if (pressed(f10_key, false) && !listing) out.wish(Act::open_menu);
    const bool covered = app.files.open || app.picture_file.open || app.show_cautions ||
                         app.show_keys || app.asked.has_value();
    if (io.WantTextInput || io.KeyCtrl || io.KeyAlt || listing || covered || app.dragging()) return;
    const Set& set = app.history.set();
    for (int digit = 1; digit <= 9; ++digit)
        if (pressed('0' + digit, false) && static_cast<std::size_t>(digit) <= set.lights.size())
            out.select =
                Selection{Thing::light, set.lights[static_cast<std::size_t>(digit) - 1].id};
    if (pressed('0', false)) out.select = Selection{Thing::camera, {}};
    const double step_m = io.KeyShift ? 0.01 : 0.05;
    if (const Vec2 by = arrows(); by != Vec2(0.0))
        if (const auto command = moved(set, app.selection, step_m * by)) out.perform(*command);
    if (app.selection.thing != Thing::light) return;
    if (const auto index = light_index(set, app.selection.id))
        light_keys(set.lights[*index], step_m, app.build_order.shown(app.revision()) != nullptr,
                   out);
}

} // namespace keystead::ui
