#include "engine/ui/size_slider.h"

#include <algorithm>
#include <cmath>
#include <imgui.h>
#include <string>

namespace keystead::ui {

int size_after(int percent, int step) {
    const int at = step > 0 ? percent / size_step_percent
                            : (percent + size_step_percent - 1) / size_step_percent;
    return std::clamp((at + step) * size_step_percent, smallest_size_percent, largest_size_percent);
}

int size_at(float share) {
    constexpr float range = largest_size_percent - smallest_size_percent;
    const float percent = smallest_size_percent + std::clamp(share, 0.0F, 1.0F) * range;
    // Fives are as fine as anyone sees.
    return static_cast<int>(std::lround(percent / 5.0F)) * 5;
}

void size_slider(int percent, Outbox& out) {
    constexpr float range = largest_size_percent - smallest_size_percent;
    const float em = ImGui::GetFontSize();
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float track = 9.0F * em, height = 1.5F * em, knob = 0.4F * em;
    const float left = at.x + ImGui::CalcTextSize("Size of everything").x + em;
    ImGui::TextUnformatted("Size of everything");
    ImGui::SetCursorScreenPos({left - knob, at.y - 0.25F * em});
    ImGui::InvisibleButton("size", {track + 2.0F * knob, height});
    const float share = (ImGui::GetIO().MousePos.x - left) / track;
    const bool held = ImGui::IsItemActive();
    const int shown = held ? size_at(share) : percent;
    if (ImGui::IsItemDeactivated() && size_at(share) != percent)
        out.wish(Act::set_size, std::to_string(size_at(share)));
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float cy = std::floor(at.y + 0.5F * em), half = std::max(0.5F, std::floor(em / 16.0F));
    const float x = left + track * static_cast<float>(shown - smallest_size_percent) / range;
    list.AddRectFilled({left, cy - half}, {left + track, cy + half},
                       ImGui::GetColorU32(ImGuiCol_Border));
    list.AddCircleFilled({std::floor(x), cy}, knob, ImGui::GetColorU32(ImGuiCol_Text));
    const std::string words = std::to_string(shown) + " %";
    list.AddText({left + track + em, at.y}, ImGui::GetColorU32(ImGuiCol_Text), words.c_str());
    ImGui::SetCursorScreenPos({left + track + em, at.y});
    ImGui::Dummy({ImGui::CalcTextSize("300 %").x, em});
}

void size_keys(int percent, Outbox& out) {
    // GLFW's codes: plus shares the key of the equals sign; then the number pad.
    constexpr int equals = 61, minus = 45, nought = 48, pad_minus = 333, pad_plus = 334;
    const ImGuiIO& io = ImGui::GetIO();
    if (!io.KeyCtrl) return;
    const auto pressed = [](int key) { return ImGui::IsKeyPressed(key, false); };
    int wanted = percent;
    if (pressed(equals) || pressed(pad_plus)) wanted = size_after(percent, 1);
    if (pressed(minus) || pressed(pad_minus)) wanted = size_after(percent, -1);
    if (pressed(nought)) wanted = smallest_size_percent;
    if (wanted != percent) out.wish(Act::set_size, std::to_string(wanted));
}

} // namespace keystead::ui
