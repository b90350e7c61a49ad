// The whole window at a simulated display: pointer and keyboard against the document.
#pragma once

#include "engine/ui/findings_line.h"
#include "engine/ui/frame.h"
#include "tests/engine/ui/desk.h"
#include "tests/engine/ui/sets.h"

#include <cmath>
#include <imgui_internal.h>
#include <string>

namespace keystead::ui::testing {

struct WindowBench {
    Table table;
    App app;

    explicit WindowBench(const char* set, float width = 1280.0F, float height = 720.0F)
        : WindowBench(example(set), {}, width, height) {}
    WindowBench(Set set, std::filesystem::path file, float width, float height)
        : table(width, height) {
        show_set(app, std::move(set), std::move(file));
        frames(3);
    }
    void frames(int count) {
        for (int i = 0; i < count; ++i)
            table.bare_frame([&] { build_frame(app, table.theme, {}); });
    }
    Layout layout() const {
        LayoutInput in;
        in.width = ImGui::GetIO().DisplaySize.x, in.height = ImGui::GetIO().DisplaySize.y;
        in.scale = table.theme.scale;
        in.arrangement = app.arrangement();
        in.frame_aspect = frame_aspect(app.history.set().camera);
        in.splits = app.settings.splits[static_cast<std::size_t>(app.arrangement())];
        in.findings_rows =
            app.findings_open && app.review ? findings_rows(&*app.review, app.seen()) : 0;
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

    /// The control under the pointer goes by that id, in its window or as an entry of a list.
    static bool hovers(const std::string& id) {
        const ImGuiContext& context = *ImGui::GetCurrentContext();
        const ImGuiWindow* window = context.HoveredWindow;
        if (window == nullptr || context.HoveredId == 0) return false;
        const ImGuiID own = ImHashStr(id.c_str(), 0, window->ID);
        // An entry of a menu is a nameless thing below its words.
        if (context.HoveredId == own || context.HoveredId == ImHashStr("", 0, own)) return true;
        constexpr int longest_list = 64;
        for (int i = 0; i < longest_list; ++i)
            if (context.HoveredId == ImHashStr(id.c_str(), 0, ImHashData(&i, sizeof i, window->ID)))
                return true;
        return false;
    }
    bool hovers_at(const std::string& id, const ImVec2& p) {
        table.point(p.x, p.y), frames(1);
        return hovers(id);
    }
    /// Where in `area` that control is, at the middle of its height: found by pointing down it,
    /// from its right end.
    ImVec2 find(const std::string& id, const Rect& area, float step_x = 24.0F) {
        for (float x = std::floor(area.right() - step_x); x > area.x; x -= step_x)
            for (float y = std::floor(area.y) + 3.0F; y < area.bottom(); y += 6.0F) {
                if (!hovers_at(id, {x, y})) continue;
                float top = y, bottom = y;
                while (hovers_at(id, {x, top - 1.0F})) top -= 1.0F;
                while (hovers_at(id, {x, bottom + 1.0F})) bottom += 1.0F;
                y = std::floor(0.5F * (top + bottom));
                to({x, y});
                return {x, y};
            }
        FAIL("no control " << id << " there");
        return {};
    }
    /// The panel at the right.
    ImVec2 in_panel(const std::string& id) { return find(id, layout().panel); }
    void click(const ImVec2& p) {
        to(p);
        table.button(true), frames(2);
        let_go();
    }
};

} // namespace keystead::ui::testing
