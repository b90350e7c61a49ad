#include "engine/ui/lettering.h"

#include "engine/ui/fonts.h"

#include <algorithm>
#include <cmath>
#include <imgui.h>
#include <imgui_internal.h>

namespace keystead::ui {

struct Lettering::Data {
    ImGuiContext* context = nullptr;
    Fonts fonts;
    const unsigned char* atlas = nullptr; ///< coverage, row by row
    int atlas_width = 0, atlas_height = 0;

    const ImFont* font(Face face) const {
        return face == Face::title ? fonts.title : face == Face::body ? fonts.body : fonts.small;
    }
};

namespace {

/// Calls `each` with the glyph and the pen's place along the line.
template <class F>
float walk(const ImFont& font, const std::string& text, F&& each) {
    float pen = 0.0F;
    const char* at = text.c_str();
    const char* end = at + text.size();
    while (at < end) {
        unsigned code = 0;
        const int bytes = ImTextCharFromUtf8(&code, at, end);
        at += std::max(1, bytes);
        const ImFontGlyph* glyph = font.FindGlyph(static_cast<ImWchar>(code));
        if (glyph == nullptr) continue;
        each(*glyph, pen);
        pen += glyph->AdvanceX;
    }
    return pen;
}

void blend(RgbaImage& picture, int x, int y, const glm::u8vec3& colour, float cover) {
    if (x < 0 || y < 0 || x >= picture.width || y >= picture.height) return;
    std::uint8_t* pixel =
        picture.pixels.data() + 4 * (static_cast<std::ptrdiff_t>(y) * picture.width + x);
    for (int c = 0; c < 3; ++c) {
        const float mixed =
            static_cast<float>(pixel[c]) * (1.0F - cover) + static_cast<float>(colour[c]) * cover;
        pixel[c] = static_cast<std::uint8_t>(std::lround(mixed));
    }
}

} // namespace

Lettering::Lettering(float scale)
    : data_(std::make_unique<Data>()) {
    ImGuiContext* before = ImGui::GetCurrentContext();
    data_->context = ImGui::CreateContext();
    ImGui::SetCurrentContext(data_->context);
    data_->fonts = load_fonts(scale, ThemeKind::dark);
    unsigned char* pixels = nullptr;
    ImGui::GetIO().Fonts->GetTexDataAsAlpha8(&pixels, &data_->atlas_width, &data_->atlas_height);
    data_->atlas = pixels;
    ImGui::SetCurrentContext(before);
}

Lettering::~Lettering() {
    ImGui::DestroyContext(data_->context);
}

int Lettering::width_px(const std::string& text, Face face) const {
    return static_cast<int>(
        std::ceil(walk(*data_->font(face), text, [](const ImFontGlyph&, float) {})));
}

int Lettering::line_px(Face face) const {
    return static_cast<int>(std::ceil(data_->font(face)->FontSize));
}

void Lettering::write(RgbaImage& picture, int left, int top, const std::string& text, Face face,
                      const glm::u8vec3& colour) const {
    const Data& d = *data_;
    // The atlas holds several columns a pixel: the mean of a few samples is the pixel's cover.
    constexpr int samples = 6;
    const auto cover = [&](const ImFontGlyph& g, float x, float y) {
        if (x < g.X0 || x >= g.X1 || y < g.Y0 || y >= g.Y1) return 0.0F;
        const float u = g.U0 + (g.U1 - g.U0) * (x - g.X0) / (g.X1 - g.X0);
        const float v = g.V0 + (g.V1 - g.V0) * (y - g.Y0) / (g.Y1 - g.Y0);
        const int column =
            std::min(static_cast<int>(u * static_cast<float>(d.atlas_width)), d.atlas_width - 1);
        const int row =
            std::min(static_cast<int>(v * static_cast<float>(d.atlas_height)), d.atlas_height - 1);
        return static_cast<float>(d.atlas[row * d.atlas_width + column]) / 255.0F;
    };
    walk(*d.font(face), text, [&](const ImFontGlyph& glyph, float pen) {
        const int first = static_cast<int>(std::floor(pen + glyph.X0));
        const int last = static_cast<int>(std::ceil(pen + glyph.X1));
        for (int y = static_cast<int>(std::floor(glyph.Y0));
             y < static_cast<int>(std::ceil(glyph.Y1)); ++y)
            for (int x = first; x < last; ++x) {
                float sum = 0.0F;
                for (int s = 0; s < samples; ++s)
                    sum += cover(glyph,
                                 static_cast<float>(x) - pen +
                                     (static_cast<float>(s) + 0.5F) / static_cast<float>(samples),
                                 static_cast<float>(y) + 0.5F);
                blend(picture, left + x, top + y, colour, sum / static_cast<float>(samples));
            }
    });
}

} // namespace keystead::ui
