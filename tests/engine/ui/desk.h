// An ImGui context without a window for the tests of panels and views: frames are built, the
// pointer and the keyboard are simulated.
#pragma once

#include "engine/ui/fonts.h"
#include "engine/ui/theme.h"

#include <functional>
#include <imgui.h>
#include <string>

namespace keystead::ui::testing {

class Table {
public:
    explicit Table(float width = 1280.0F, float height = 720.0F) {
        ImGui::CreateContext();
        ImGuiIO& io = ImGui::GetIO();
        io.IniFilename = nullptr;
        io.DisplaySize = {width, height};
        io.DeltaTime = 1.0F / 60.0F;
        // Own indices for the keys, as the window has GLFW's.
        for (int key = 0; key < ImGuiKey_COUNT; ++key) io.KeyMap[key] = 400 + key;
        theme.colour = palette_of(ThemeKind::dark, Surround::theme);
        use_scale(1.0F);
        away();
    }
    ~Table() { ImGui::DestroyContext(); }
    Table(const Table&) = delete;
    Table& operator=(const Table&) = delete;

    /// One frame; `body` draws into a window that fills the display.
    void frame(const std::function<void()>& body) {
        ImGui::NewFrame();
        ImGui::SetNextWindowPos({0, 0});
        ImGui::SetNextWindowSize(ImGui::GetIO().DisplaySize);
        ImGui::Begin("table", nullptr,
                     ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                         ImGuiWindowFlags_NoBackground);
        body();
        ImGui::End();
        ImGui::Render();
        ImGui::GetIO().MouseWheel = 0.0F;
    }
    /// The same for a body that opens its own windows.
    void bare_frame(const std::function<void()>& body) {
        ImGui::NewFrame();
        body();
        ImGui::Render();
    }

    /// Type and marks that many times their usual size.
    void use_scale(float scale) {
        ImGuiIO& io = ImGui::GetIO();
        theme.scale = scale;
        theme.font = load_fonts(scale, ThemeKind::dark);
        io.FontDefault = theme.font.body;
        unsigned char* pixels = nullptr;
        int w = 0, h = 0;
        io.Fonts->GetTexDataAsAlpha8(&pixels, &w, &h);
        apply_style(theme);
    }

    void point(float x, float y) { ImGui::GetIO().MousePos = {x, y}; }
    void away() { ImGui::GetIO().MousePos = {-1e9F, -1e9F}; }
    void button(bool down) { ImGui::GetIO().MouseDown[0] = down; }
    void key(ImGuiKey key, bool down) { ImGui::GetIO().KeysDown[400 + key] = down; }
    void control(bool down) { ImGui::GetIO().KeyCtrl = down; }
    void type(const std::string& text) { ImGui::GetIO().AddInputCharactersUTF8(text.c_str()); }

    Theme theme;
};

} // namespace keystead::ui::testing
