#include "engine/plate/pattern_chart.h"

#include "engine/plate/chart_names.h"
#include "engine/plate/chart_paint.h"
#include "engine/ui/lettering.h"
#include "sim/studio/studio.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <utility>
#include <vector>

namespace keystead {

namespace {

using ui::Lettering;
using Face = Lettering::Face;

using namespace chart_colour;

std::string text_of(const char* format, double value) {
    std::array<char, 48> text{};
    std::snprintf(text.data(), text.size(), format, value);
    return text.data();
}

/// Degrees with a real minus sign.
std::string degrees_text(double deg) {
    const std::string digits = text_of("%.0f", std::abs(deg)) + "°";
    return deg < 0.0 ? "−" + digits : digits;
}

/// Letters with the sizes they have on this page.
class Writer {
public:
    Writer(RgbaImage& picture, const Lettering& letters)
        : picture_(picture)
        , letters_(letters) {}
    void left(float x, float y, const std::string& text, Face face, const glm::u8vec3& colour) {
        letters_.write(picture_, static_cast<int>(std::lround(x)), static_cast<int>(std::lround(y)),
                       text, face, colour);
    }
    void centred(float x, float y, const std::string& text, Face face, const glm::u8vec3& colour) {
        left(x - 0.5F * width(text, face), y, text, face, colour);
    }
    void right(float x, float y, const std::string& text, Face face, const glm::u8vec3& colour) {
        left(x - width(text, face), y, text, face, colour);
    }
    float width(const std::string& text, Face face) const {
        return static_cast<float>(letters_.width_px(text, face));
    }
    float line(Face face) const { return static_cast<float>(letters_.line_px(face)); }

private:
    RgbaImage& picture_;
    const Lettering& letters_;
};

void write_axes(Writer& writer, const ChartFrame& frame, float scale) {
    const float below = frame.bottom + 9.0F * scale;
    for (double azimuth = -180; azimuth <= 180; azimuth += 30)
        writer.centred(frame.x(azimuth), below, degrees_text(azimuth), Face::small, ink);
    const float words = below + writer.line(Face::small) + 2.0F * scale;
    const std::pair<double, const char*> across[] = {{-135, "behind, sitter's right"},
                                                     {-90, "side"},
                                                     {-45, "sitter's right"},
                                                     {0, "nose"},
                                                     {45, "sitter's left"},
                                                     {90, "side"},
                                                     {135, "behind, sitter's left"}};
    for (const auto& [azimuth, word] : across)
        writer.centred(frame.x(azimuth), words, word, Face::small, faint);
    const float beside = frame.left - 10.0F * scale, half = 0.5F * writer.line(Face::small);
    for (double elevation = std::ceil(frame.map.low_deg / 15.0) * 15.0;
         elevation <= frame.high_deg(); elevation += 15)
        writer.right(beside, frame.y(elevation) - half, degrees_text(elevation), Face::small, ink);
    const float column = beside - writer.width("−60°", Face::small) - 8.0F * scale;
    const std::pair<double, const char*> up[] = {
        {75, "overhead"}, {45, "high"}, {0, "eye level"}, {-30, "low"}, {-52, "floor"}};
    for (const auto& [elevation, word] : up)
        if (elevation >= frame.map.low_deg && elevation <= frame.high_deg())
            writer.right(column, frame.y(elevation) - half, word, Face::small, faint);
}

/// The lines' meaning, in one row below the axes.
class LegendRow {
public:
    LegendRow(float left, float middle, float scale)
        : x_(left)
        , middle_(middle)
        , scale_(scale) {}
    float sample_left() const { return x_; }
    float sample_right() const { return x_ + 30.0F * scale_; }
    float middle() const { return middle_; }
    float words_left() const { return sample_right() + 8.0F * scale_; }
    void next(float words_width) { x_ = words_left() + words_width + 28.0F * scale_; }

private:
    float x_, middle_, scale_;
};

const std::array<const char*, 4> legend_words{"the sitter's left eye sees half of the lamp inside",
                                              "the right eye", "neither pupil sees a tenth of it",
                                              "the key as it stands"};

void paint_legend(FineCanvas& canvas, const Lettering& letters, LegendRow row, float scale) {
    for (std::size_t i = 0; i < legend_words.size(); ++i) {
        const float left = row.sample_left(), right = row.sample_right(), y = row.middle();
        if (i == 0) canvas.line({left, y}, {right, y}, 1.9F * scale, left_eye, left_eye_dash);
        if (i == 1) canvas.line({left, y}, {right, y}, 1.9F * scale, right_eye, right_eye_dash);
        if (i == 2)
            for (float x = left; x + 10.0F * scale <= right; x += 7.0F * scale)
                canvas.line({x, y + 5.0F * scale}, {x + 10.0F * scale, y - 5.0F * scale},
                            0.9F * scale, glm::u8vec3(165, 163, 158));
        if (i == 3) paint_key(canvas, {0.5F * (left + right), y}, scale);
        row.next(static_cast<float>(letters.width_px(legend_words[i], Face::small)));
    }
}

void write_legend(Writer& writer, LegendRow row) {
    for (const char* words : legend_words) {
        writer.left(row.words_left(), row.middle() - 0.5F * writer.line(Face::small), words,
                    Face::small, ink);
        row.next(writer.width(words, Face::small));
    }
}

} // namespace

RgbaImage draw_pattern_chart(const PatternChart& chart, int width_px, int height_px) {
    const float scale = std::max(0.6F, static_cast<float>(width_px) / 1280.0F);
    const Lettering letters(scale);
    const auto line = [&](Face face) { return static_cast<float>(letters.line_px(face)); };
    const float margin = 24.0F * scale;
    const ChartFrame frame{
        chart.map,
        margin + static_cast<float>(letters.width_px("eye level", Face::small)) +
            static_cast<float>(letters.width_px("−60°", Face::small)) + 24.0F * scale,
        margin + line(Face::title) + line(Face::body) + 18.0F * scale,
        static_cast<float>(width_px) - margin,
        static_cast<float>(height_px) - margin - 3.0F * line(Face::small) - 34.0F * scale};
    const LegendRow legend(
        frame.left, static_cast<float>(height_px) - margin - 0.5F * line(Face::small), scale);
    FineCanvas canvas(width_px, height_px, paper);
    paint_areas(canvas, frame, scale);
    paint_grid(canvas, frame, scale);
    paint_eye_lines(canvas, frame, scale);
    // No line runs through a name.
    const std::vector<PlacedName> names = placed_names(letters, frame, scale);
    for (const PlacedName& name : names) {
        if (name.leader_to)
            canvas.line(name.corner + 0.5F * name.size, *name.leader_to, 1.2F * scale, ink);
        canvas.fill(name.corner.x - 3.0F * scale, name.corner.y,
                    name.corner.x + name.size.x + 3.0F * scale, name.corner.y + name.size.y,
                    tint_of(name.leader_to ? Pattern::none : name.name));
    }
    paint_frame(canvas, frame, scale);
    paint_key(canvas, key_place(frame), scale);
    const KeyLabel label = key_label(letters, frame, names, scale);
    const float label_wide = static_cast<float>(letters.width_px(label.words, Face::body));
    canvas.fill(label.corner.x - 5.0F * scale, label.corner.y - 2.0F * scale,
                label.corner.x + label_wide + 5.0F * scale,
                label.corner.y + line(Face::body) + 2.0F * scale, paper);
    paint_legend(canvas, letters, legend, scale);

    RgbaImage picture = canvas.averaged();
    Writer writer(picture, letters);
    writer.left(frame.left, margin, chart.title, Face::title, ink);
    writer.left(frame.left, margin + line(Face::title) + 6.0F * scale, chart.subtitle, Face::body,
                faint);
    write_axes(writer, frame, scale);
    for (const PlacedName& name : names)
        writer.left(name.corner.x, name.corner.y, name.text, name.face,
                    name.name == Pattern::none ? faint : ink);
    writer.left(label.corner.x, label.corner.y, label.words, Face::body, ink);
    write_legend(writer, legend);
    return picture;
}

PatternChart chart_of(const Studio& studio, std::size_t light) {
    const Emitter& key = studio.emitters[light];
    const std::shared_ptr<const FaceChart> face = make_face_chart(*studio.form);
    const double distance_m = glm::length(key.centre_m - studio.subject->landmarks.face);
    PatternChart chart;
    chart.map = map_patterns(*face, key, studio.subject->head_axes, studio.subject->head_origin_m,
                             distance_m);
    chart.title = "Where a key makes which pattern on this face";
    const Vec2 size = chart.map.size_m;
    const std::string lamp = size.x == size.y
                                 ? text_of("%.2f m across", size.x)
                                 : text_of("%.2f", size.x) + " × " + text_of("%.2f m", size.y);
    chart.subtitle = studio.set.name + ": “" + key.light + "”, " + lamp + ", carried round at " +
                     text_of("%.2f m", distance_m) + "; directions as the face sees them";
    return chart;
}

} // namespace keystead
