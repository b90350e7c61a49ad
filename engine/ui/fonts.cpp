#include "engine/ui/fonts.h"

#include <fontconfig/fontconfig.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cstdint>
#include <fstream>
#include <vector>

namespace keystead::ui {

namespace {

constexpr ImWchar glyph_ranges[] = {0x20,   0x17F,  0x394,  0x394,  0x2010, 0x2027, 0x2030,
                                    0x2044, 0x2070, 0x209F, 0x2150, 0x215F, 0x2190, 0x2193,
                                    0x2212, 0x2212, 0x2220, 0x2220, 0x2248, 0x2248, 0x2260,
                                    0x2265, 0x25CF, 0x25CF, 0};

/// File of a family at a weight, or empty when fontconfig has nothing of that family.
std::string file_of(const char* family, int weight) {
    FcPattern* wanted = FcPatternCreate();
    FcPatternAddString(wanted, FC_FAMILY, reinterpret_cast<const FcChar8*>(family));
    FcPatternAddInteger(wanted, FC_WEIGHT, weight);
    FcPatternAddInteger(wanted, FC_SLANT, FC_SLANT_ROMAN);
    FcConfigSubstitute(nullptr, wanted, FcMatchPattern);
    FcDefaultSubstitute(wanted);
    FcResult result = FcResultNoMatch;
    FcPattern* found = FcFontMatch(nullptr, wanted, &result);
    std::string file;
    if (found != nullptr) {
        FcChar8 *path = nullptr, *name = nullptr;
        const bool named = FcPatternGetString(found, FC_FAMILY, 0, &name) == FcResultMatch &&
                           std::string(reinterpret_cast<const char*>(name)) == family;
        if (named && FcPatternGetString(found, FC_FILE, 0, &path) == FcResultMatch)
            file = reinterpret_cast<const char*>(path);
        FcPatternDestroy(found);
    }
    FcPatternDestroy(wanted);
    return file;
}

unsigned big_endian(const std::vector<unsigned char>& bytes, std::size_t at, int count) {
    unsigned value = 0;
    for (int i = 0; i < count; ++i)
        value = (value << 8U) | (at + static_cast<std::size_t>(i) < bytes.size()
                                     ? bytes[at + static_cast<std::size_t>(i)]
                                     : 0U);
    return value;
}

std::size_t table_offset(const std::vector<unsigned char>& bytes, const char* tag) {
    const unsigned tables = big_endian(bytes, 4, 2);
    for (unsigned i = 0; i < tables; ++i) {
        const std::size_t at = 12U + 16U * i;
        if (at + 16U > bytes.size()) break;
        if (std::equal(tag, tag + 4, bytes.begin() + static_cast<std::ptrdiff_t>(at)))
            return big_endian(bytes, at + 8, 4);
    }
    return 0;
}

/// (ascent − descent) / units per em from the file's hhea and head tables (OpenType 1.9); 1.2102
/// for Inter. What ImGui calls a font's size is this many ems.
float size_ratio(const std::string& file) {
    std::ifstream in(file, std::ios::binary);
    const std::vector<unsigned char> bytes((std::istreambuf_iterator<char>(in)), {});
    const std::size_t head = table_offset(bytes, "head"), hhea = table_offset(bytes, "hhea");
    if (head == 0 || hhea == 0) return 1.2F;
    const auto per_em = static_cast<float>(big_endian(bytes, head + 18, 2));
    const auto ascent = static_cast<std::int16_t>(big_endian(bytes, hhea + 4, 2));
    const auto descent = static_cast<std::int16_t>(big_endian(bytes, hhea + 6, 2));
    const float ratio = static_cast<float>(ascent - descent) / std::max(1.0F, per_em);
    return ratio > 0.8F && ratio < 2.0F ? ratio : 1.2F;
}

struct Faces {
    std::string regular, medium, semibold, name;
};

Faces find_faces() {
    for (const char* family : {"Inter", "DejaVu Sans"}) {
        Faces faces{file_of(family, FC_WEIGHT_REGULAR), file_of(family, FC_WEIGHT_MEDIUM),
                    file_of(family, FC_WEIGHT_DEMIBOLD), family};
        if (!faces.regular.empty()) return faces;
    }
    return {};
}

ImFont* add_face(const std::string& file, float em_px, float ratio, float scale, ThemeKind kind) {
    ImFontConfig config;
    config.OversampleH = scale >= 1.5F ? 2 : 3;
    config.OversampleV = 1;
    config.PixelSnapH = false;
    config.RasterizerMultiply = kind == ThemeKind::light ? 1.1F : 1.0F;
    ImFontAtlas* atlas = ImGui::GetIO().Fonts;
    if (file.empty()) {
        config.SizePixels = std::max(1.0F, em_px * scale);
        return atlas->AddFontDefault(&config);
    }
    return atlas->AddFontFromFileTTF(file.c_str(), em_px * ratio * scale, &config, glyph_ranges);
}

/// One advance for all ten digits, each centred in it.
void make_tabular(ImFont* font) {
    float widest = 0.0F;
    for (ImWchar c = '0'; c <= '9'; ++c)
        if (const ImFontGlyph* glyph = font->FindGlyph(c))
            widest = std::max(widest, glyph->AdvanceX);
    for (ImFontGlyph& glyph : font->Glyphs) {
        if (glyph.Codepoint < '0' || glyph.Codepoint > '9') continue;
        const float shift = 0.5F * (widest - glyph.AdvanceX);
        glyph.X0 += shift;
        glyph.X1 += shift;
        glyph.AdvanceX = widest;
    }
    font->BuildLookupTable();
}

} // namespace

Fonts load_fonts(float scale, ThemeKind kind, std::string* name) {
    ImFontAtlas* atlas = ImGui::GetIO().Fonts;
    atlas->Clear();
    const Faces faces = find_faces();
    const float ratio = faces.regular.empty() ? 1.0F : size_ratio(faces.regular);
    const auto face = [&](const std::string& file, float em_px) {
        return add_face(file.empty() ? faces.regular : file, em_px, ratio, scale, kind);
    };
    Fonts fonts;
    fonts.body = face(faces.regular, 13.0F);
    fonts.medium = face(faces.medium, 13.0F);
    fonts.small = face(faces.regular, 11.5F);
    fonts.small_medium = face(faces.medium, 11.5F);
    fonts.title = face(faces.semibold, 16.0F);
    fonts.tag = face(faces.semibold, 11.0F);
    atlas->Build();
    for (ImFont* font : atlas->Fonts) make_tabular(font);
    if (name != nullptr) *name = faces.name.empty() ? "built-in" : faces.name;
    return fonts;
}

} // namespace keystead::ui
