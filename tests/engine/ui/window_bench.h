// The whole window at a simulated display: pointer and keyboard against the document.
#pragma once

#include "engine/ui/frame.h"
#include "tests/engine/ui/desk.h"
#include "tests/engine/ui/sets.h"

#include <imgui_internal.h>
#include <string>

namespace keystead::ui::testing {

struct WindowBench {
    Table table;
    App app;

    explicit WindowBench(const char* set, float width = 1280.0F, float height = 720.0F)
        : table(width, height) {
        show_set(app, example(set), {});
        frames(3);
    }
    void frames(int count) {
        for (int i = 0; i < count; ++i)
            table.bare_frame([&] { build_frame(app, table.theme, {}); });
    }
    Layout layout() const {
        LayoutInput in;
        in.width = ImGui::GetIO().DisplaySize.x, in.height = ImGui::GetIO().DisplaySize.y;
        in.arrangement = app.arrangement();
        in.frame_aspect = frame_aspect(app.history.set().camera);
        return arrange(in);
    }
    Page plan() const {
        return page_of(app.plan.sheet, Plane::plan, layout().plan, table.theme,
                       app.history.set().room);
    }
    Page elevation() const {
        return page_of(app.elevation.sheet, Plane::elevation, layout().elevation, table.theme,
                       app.history.set().room);
    }
    void to(const ImVec2& p) { table.point(p.x, p.y), frames(2); }
    void drag(const ImVec2& from, const ImVec2& on) {
        to(from);
        table.button(true), frames(2);
        to({from.x + 5.0F, from.y});
        to(on);
    }
    void let_go() { table.button(false), frames(2); }
    void press(int key, bool control) {
        table.control(control);
        ImGui::GetIO().KeysDown[key] = true, frames(1);
        ImGui::GetIO().KeysDown[key] = false, frames(1);
        table.control(false);
    }
    Vec2 base(const char* id) const {
        return light_of(app.history.set(), id).support.base.position_m;
    }

    /// Where the panel at the right has that control: found by pointing down the panel.
    ImVec2 in_panel(const std::string& id) {
        const Rect panel = layout().panel;
        for (float x = panel.right() - 24.0F; x > panel.x; x -= 24.0F)
            for (float y = panel.y + 4.0F; y < panel.bottom(); y += 6.0F) {
                table.point(x, y), frames(1);
                const ImGuiContext& context = *ImGui::GetCurrentContext();
                const ImGuiWindow* window = context.HoveredWindow;
                if (window == nullptr || context.HoveredId == 0) continue;
                if (context.HoveredId == ImHashStr(id.c_str(), 0, window->ID)) return {x, y};
            }
        FAIL("no control " << id << " in the panel");
        return {};
    }
    void click(const ImVec2& p) {
        to(p);
        table.button(true), frames(2);
        let_go();
    }
};

} // namespace keystead::ui::testing
