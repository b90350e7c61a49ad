#include "engine/ui/theme.h"

#include <cmath>

namespace keystead::ui {

namespace {

constexpr ImU32 rgb(unsigned hex) {
    return IM_COL32((hex >> 16U) & 0xFFU, (hex >> 8U) & 0xFFU, hex & 0xFFU, 0xFF);
}

Palette dark() {
    Palette p{};
    p.chrome = rgb(0x26282A), p.panel = rgb(0x2B2D2F);
    p.line = rgb(0x3A3D40), p.line_strong = rgb(0x4A4E52);
    p.text = rgb(0xE4E4E1), p.text2 = rgb(0xAEB1B2), p.text3 = rgb(0x969A9C);
    p.page = rgb(0x20262A), p.wall = rgb(0x2E363B);
    p.ink = rgb(0xD5D8D3), p.ink2 = rgb(0x8F989B), p.ink3 = rgb(0x5A6468);
    p.surround = rgb(0x262626), p.caption = rgb(0xE4E4E1), p.caption2 = rgb(0xA2A2A2);
    p.accent = rgb(0x7DB6E8), p.on_accent = rgb(0x14222E);
    p.hover = rgb(0x35383B), p.pressed = rgb(0x404448), p.field = rgb(0x202224);
    p.caution = rgb(0xE8AE4E), p.danger = rgb(0xF0704F);
    return p;
}

Palette light() {
    Palette p{};
    p.chrome = rgb(0xE3E2DF), p.panel = rgb(0xECEBE8);
    p.line = rgb(0xCDCBC6), p.line_strong = rgb(0xB2AFA9);
    p.text = rgb(0x232423), p.text2 = rgb(0x55585A), p.text3 = rgb(0x666A6B);
    p.page = rgb(0xF5F1E7), p.wall = rgb(0xE4DECF);
    p.ink = rgb(0x34363A), p.ink2 = rgb(0x6B6B68), p.ink3 = rgb(0xB3AFA6);
    p.surround = rgb(0xA6A6A6), p.caption = rgb(0x1C1C1C), p.caption2 = rgb(0x3C3C3C);
    p.accent = rgb(0x1F5F99), p.on_accent = rgb(0xFFFFFF);
    p.hover = rgb(0xDAD8D4), p.pressed = rgb(0xCFCDC8), p.field = rgb(0xFAF9F6);
    p.caution = rgb(0x9A5B00), p.danger = rgb(0xB3301A);
    return p;
}

ImVec4 as_vec(ImU32 colour, float alpha = 1.0F) {
    ImVec4 v = ImGui::ColorConvertU32ToFloat4(colour);
    v.w *= alpha;
    return v;
}

} // namespace

float Theme::px(float logical) const {
    return std::floor(logical * scale + 0.5F);
}

Palette palette_of(ThemeKind kind, Surround surround) {
    Palette p = kind == ThemeKind::dark ? dark() : light();
    if (surround == Surround::theme) return p;
    const bool bright = surround == Surround::light;
    p.surround = surround == Surround::dark ? rgb(0x262626)
                 : bright                   ? rgb(0xD2D2D2)
                                            : rgb(0x767676);
    p.caption = surround == Surround::dark ? rgb(0xE4E4E1) : bright ? rgb(0x1C1C1C) : rgb(0x000000);
    p.caption2 = surround == Surround::dark ? rgb(0xA2A2A2)
                 : bright                   ? rgb(0x3C3C3C)
                                            : rgb(0x101010);
    return p;
}

ImU32 faded(ImU32 colour, float alpha) {
    const auto old = static_cast<float>((colour >> IM_COL32_A_SHIFT) & 0xFFU);
    const auto made = static_cast<ImU32>(std::lround(old * alpha));
    return (colour & ~IM_COL32_A_MASK) | (made << IM_COL32_A_SHIFT);
}

void apply_style(const Theme& theme) {
    ImGuiStyle style;
    style.WindowPadding = ImVec2(0, 0);
    style.WindowBorderSize = 0;
    style.WindowRounding = 0;
    style.ChildBorderSize = 0;
    style.ItemSpacing = ImVec2(8, 6);
    style.FramePadding = ImVec2(8, 5);
    style.FrameRounding = 3;
    style.PopupRounding = 4;
    style.PopupBorderSize = 1;
    style.ScrollbarSize = 10;
    style.ScrollbarRounding = 5;
    style.GrabRounding = 3;
    style.GrabMinSize = 24;
    style.ScaleAllSizes(theme.scale);
    style.AntiAliasedLinesUseTex = true;
    style.CircleTessellationMaxError = 0.2F;
    const Palette& c = theme.colour;
    ImVec4* colours = style.Colors;
    colours[ImGuiCol_Text] = as_vec(c.text);
    colours[ImGuiCol_TextDisabled] = as_vec(c.text3);
    colours[ImGuiCol_WindowBg] = as_vec(c.chrome);
    colours[ImGuiCol_ChildBg] = ImVec4(0, 0, 0, 0);
    colours[ImGuiCol_MenuBarBg] = as_vec(c.chrome);
    colours[ImGuiCol_PopupBg] = as_vec(c.panel);
    colours[ImGuiCol_Border] = as_vec(c.line_strong);
    colours[ImGuiCol_Header] = as_vec(c.hover);
    colours[ImGuiCol_HeaderHovered] = as_vec(c.hover);
    colours[ImGuiCol_HeaderActive] = as_vec(c.pressed);
    colours[ImGuiCol_FrameBg] = as_vec(c.field);
    colours[ImGuiCol_TextSelectedBg] = as_vec(c.accent, 0.35F);
    colours[ImGuiCol_NavHighlight] = as_vec(c.accent);
    colours[ImGuiCol_ScrollbarBg] = ImVec4(0, 0, 0, 0);
    colours[ImGuiCol_ScrollbarGrab] = as_vec(c.line_strong);
    colours[ImGuiCol_ScrollbarGrabHovered] = as_vec(c.text3);
    colours[ImGuiCol_ScrollbarGrabActive] = as_vec(c.text2);
    colours[ImGuiCol_Separator] = as_vec(c.line);
    ImGui::GetStyle() = style;
}

} // namespace keystead::ui
