#include "engine/ui/picture_file.h"

#include "engine/render/png.h"
#include "engine/ui/app.h"
#include "engine/ui/lettering.h"
#include "engine/ui/marks.h"
#include "engine/ui/picture_maker.h"
#include "engine/ui/sheet_box.h"
#include "engine/ui/words.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstring>

namespace keystead::ui {

std::optional<int> picture_width(const char* typed) {
    const char* end = typed + std::strlen(typed);
    int width = 0;
    const auto [at, error] = std::from_chars(typed, end, width);
    const bool whole = error == std::errc() && at == end;
    if (!whole || width < narrowest_picture_px || width > widest_picture_px) return std::nullopt;
    return width;
}

int picture_height(const Camera& camera, int width_px) {
    const float height = static_cast<float>(width_px) / frame_aspect(camera);
    return std::clamp(static_cast<int>(std::lround(height)), 1, widest_picture_px);
}

namespace {

std::string shutter_words(double seconds) {
    if (seconds < 0.4) return "1/" + number_text(1.0 / seconds, 0) + " s";
    return number_text(seconds, 1) + " s";
}

std::string camera_words(const Camera& camera) {
    return "camera " + f_words(camera.f_number) + ", " + shutter_words(camera.shutter_s) +
           ", ISO " + number_text(camera.iso, 0) + ", " + number_text(camera.focal_length_mm, 0) +
           " mm";
}

std::string light_words(const Light& light, std::size_t index, const LightReview& review) {
    std::string words = letter_of(index) + " " + (light.role.empty() ? light.id : light.role) +
                        ", " + modifier_words(light.modifier) + ": ";
    if (!review.f_number) return words + "not on the face";
    words += review.reading;
    if (review.stops_from_key)
        words += ", " + stops_words(*review.stops_from_key) + " from the key";
    return words + ", " + number_text(100.0 * review.share, 0) + " % of the light on the face";
}

} // namespace

std::vector<std::string> caption_lines(const Set& set, const Review& review) {
    std::string first = set.name.empty() ? "unnamed set" : set.name;
    bool begun = false;
    for (const std::string& part : caption_parts(review)) {
        first += (begun ? ", " : ": ") + part;
        begun = true;
    }
    if (const std::string holds = hold_words(review); !holds.empty())
        first += (begun ? ", " : ": ") + holds;
    std::vector<std::string> lines{first, camera_words(set.camera)};
    for (std::size_t i = 0; i < set.lights.size(); ++i)
        for (const LightReview& light : review.lights)
            if (set.lights[i].on && light.id == set.lights[i].id)
                lines.push_back(light_words(set.lights[i], i, light));
    return lines;
}

RgbaImage caption_band(const std::vector<std::string>& lines, int width_px) {
    if (lines.empty() || width_px < narrowest_picture_px) return {};
    // As large beside the picture as on screen, but never too small to be read.
    const float scale = std::clamp(static_cast<float>(width_px) / 900.0F, 0.75F, 6.0F);
    const Lettering lettering(scale);
    const int line = lettering.line_px(Lettering::Face::body) + static_cast<int>(4.0F * scale),
              margin = static_cast<int>(10.0F * scale);
    const std::size_t count = std::min<std::size_t>(2, lines.size());
    RgbaImage band{width_px, 2 * margin + line * static_cast<int>(count), {}};
    constexpr std::uint8_t grey = 0x26;
    band.pixels.assign(
        4U * static_cast<std::size_t>(band.width) * static_cast<std::size_t>(band.height), grey);
    for (std::size_t i = 3; i < band.pixels.size(); i += 4) band.pixels[i] = 255;
    for (std::size_t i = 0; i < count; ++i) {
        // Parts that don't fit are left out from the end, whole.
        std::string words = lines[i];
        while (lettering.width_px(words, Lettering::Face::body) > width_px - 2 * margin) {
            const std::size_t cut = words.rfind(", ");
            if (cut == std::string::npos) break;
            words.resize(cut);
        }
        lettering.write(band, margin, margin + line * static_cast<int>(i), words,
                        Lettering::Face::body,
                        i == 0 ? glm::u8vec3(228, 228, 225) : glm::u8vec3(162, 162, 162));
    }
    return band;
}

namespace {

struct AskSheet {
    Pen pen;
    Rect box;
    float left = 0.0F, right = 0.0F, y = 0.0F;
};

/// A ring, or a square for what is chosen by itself, and what it stands for; true when clicked.
bool choice(AskSheet& sheet, const char* id, const std::string& words, const std::string& second,
            bool chosen, bool one_of_many = true) {
    const Pen pen = sheet.pen;
    const Palette& c = pen.colour();
    const Rect row{sheet.left - pen.px(6), sheet.y, sheet.right - sheet.left + pen.px(12),
                   pen.px(28)};
    const Hit hit = hit_area(id, row);
    if (hit.hovered) fill_rect(pen, row, c.hover, 3.0F);
    const float cy = row.centre_y();
    const ImVec2 mark{sheet.left + pen.px(6), std::floor(cy)};
    const ImU32 ink = chosen ? c.accent : c.text3;
    if (one_of_many) {
        ring(pen, mark, pen.px(5), 1.0F, ink);
        if (chosen) disc(pen, mark, pen.px(2.5F), ink);
    } else {
        const Rect square{mark.x - pen.px(5), mark.y - pen.px(5), pen.px(10), pen.px(10)};
        frame_rect(pen, square, ink, 2.0F);
        if (chosen) fill_rect(pen, inset(square, pen.px(3)), ink);
    }
    const float end =
        text_at(pen, pen.theme->font.body, sheet.left + pen.px(20), cy, c.text, words);
    text_at(pen, pen.theme->font.small, end + pen.px(10), cy, c.text2,
            fitted(pen.theme->font.small, second, sheet.right - end - pen.px(10)));
    sheet.y += pen.px(30);
    return hit.clicked;
}

/// "width [1920] pixels, 1280 high".
void width_row(AskSheet& sheet, PictureFile& file, const Camera& camera) {
    const Pen pen = sheet.pen;
    const Palette& c = pen.colour();
    const ImFont* font = pen.theme->font.body;
    const float cy = sheet.y + pen.px(15);
    const float x = text_at(pen, font, sheet.left + pen.px(20), cy, c.text2, "width") + pen.px(10);
    const Rect field{x, sheet.y + pen.px(3), pen.px(64), pen.px(24)};
    const std::optional<int> width = picture_width(file.width);
    fill_rect(pen, field, c.field, 3.0F);
    frame_rect(pen, field, width ? c.line_strong : c.danger, 3.0F);
    ImGui::SetCursorScreenPos(
        {field.x + pen.px(8), std::floor(field.centre_y() - 0.5F * ImGui::GetFontSize())});
    ImGui::SetNextItemWidth(field.w - pen.px(12));
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, ImVec2(0, 0));
    ImGui::PushStyleColor(ImGuiCol_FrameBg, ImVec4(0, 0, 0, 0));
    if (ImGui::InputText("##picture width", file.width, sizeof file.width)) {
        file.choice.as_seen = false;
        if (const auto typed = picture_width(file.width)) file.choice.width_px = *typed;
    }
    ImGui::PopStyleColor();
    ImGui::PopStyleVar();
    const std::string words =
        width ? "× " + std::to_string(picture_height(camera, *width)) + " pixels"
              : std::to_string(narrowest_picture_px) + " to " + std::to_string(widest_picture_px) +
                    " pixels";
    text_at(pen, pen.theme->font.small, field.right() + pen.px(10), cy, width ? c.text2 : c.danger,
            words);
    sheet.y += pen.px(36);
}

} // namespace

void picture_sheet(Pen pen, const Rect& area, App& app, Outbox& out) {
    const Palette& c = pen.colour();
    PictureFile& file = app.picture_file;
    const float w = std::min(pen.px(430), area.w - pen.px(24)),
                h = std::min(pen.px(226), area.h - pen.px(24));
    const Rect box = sheet_box(pen, area, w, h);
    AskSheet sheet{pen, box, box.x + pen.px(20), box.right() - pen.px(20), box.y + pen.px(44)};
    text_at(pen, pen.theme->font.medium, sheet.left, box.y + pen.px(24), c.text,
            "Save the picture");
    const std::string seen = std::to_string(static_cast<int>(app.lens_picture.w)) + " × " +
                             std::to_string(static_cast<int>(app.lens_picture.h)) + " pixels";
    if (choice(sheet, "picture as seen", "as it is seen now", seen, file.choice.as_seen))
        file.choice.as_seen = true;
    if (choice(sheet, "picture made", "made anew, settled", "in the background, at any size",
               !file.choice.as_seen))
        file.choice.as_seen = false;
    width_row(sheet, file, app.history.set().camera);
    if (choice(sheet, "picture caption", "with its caption", "a line of figures under it",
               file.choice.caption, false))
        file.choice.caption = !file.choice.caption;
    const float act = button_width(pen, "choose a file"), leave = button_width(pen, "cancel"),
                y = box.bottom() - pen.px(40);
    const bool ready = file.choice.as_seen || picture_width(file.width).has_value();
    if (button(pen, "picture file", {sheet.right - act, y, act, pen.px(24)}, "choose a file",
               ready ? ButtonKind::accent : ButtonKind::plain) &&
        ready)
        out.wish(Act::choose_picture);
    if (button(pen, "picture cancel", {sheet.right - act - pen.px(8) - leave, y, leave, pen.px(24)},
               "cancel", ButtonKind::plain) ||
        ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false))
        out.wish(Act::picture_sheet);
}

namespace {

Rect progress_rect(Pen pen, const Rect& view) {
    const float w = std::min(pen.px(260), view.w - pen.px(24));
    return {view.right() - pen.px(12) - w, view.y + pen.px(36), w, pen.px(52)};
}

Rect stop_rect(Pen pen, const Rect& card) {
    const float w = pen.px(56);
    return {card.right() - pen.px(10) - w, card.y + pen.px(8), w, pen.px(24)};
}

} // namespace

bool still_progress_pointer(Pen pen, const Rect& view, const StillProgress& progress) {
    if (!progress.busy) return false;
    const Rect card = progress_rect(pen, view);
    const bool stop = hit_area("stop still", stop_rect(pen, card)).clicked;
    hit_area("still", card);
    return stop;
}

void draw_still_progress(Pen pen, const Rect& view, const StillProgress& progress) {
    if (!progress.busy) return;
    const Palette& c = pen.colour();
    const Rect card = progress_rect(pen, view), stop = stop_rect(pen, card);
    fill_rect(pen, card, c.panel, 4.0F);
    frame_rect(pen, card, c.line_strong, 4.0F);
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    if (stop.contains(mouse.x, mouse.y)) fill_rect(pen, stop, c.hover, 3.0F);
    frame_rect(pen, stop, c.line_strong, 3.0F);
    text_centre(pen, pen.theme->font.body, stop.centre_x(), stop.centre_y(), c.text, "stop");
    const std::string words = progress.file.filename().string() + ", " +
                              std::to_string(static_cast<int>(100.0 * progress.share)) + " %";
    text_at(pen, pen.theme->font.body, card.x + pen.px(12), stop.centre_y(), c.text,
            fitted(pen.theme->font.body, words, stop.x - card.x - pen.px(20)));
    const Rect bar{card.x + pen.px(12), card.bottom() - pen.px(11), card.w - pen.px(24),
                   std::max(2.0F, pen.px(3))};
    fill_rect(pen, bar, c.line);
    fill_rect(pen, {bar.x, bar.y, std::floor(bar.w * static_cast<float>(progress.share)), bar.h},
              c.accent);
}

namespace {

void tell(App& app, std::string words, bool bad = false) {
    app.notice = std::move(words);
    app.notice_is_bad = bad;
}

/// The set and review of what is shown: a step of the build where one is looked at.
std::vector<std::string> lines_of_shown(const App& app) {
    const BuildStep* step = app.build_order.shown(app.revision());
    if (step != nullptr && step->review) return caption_lines(step->drawn.set, *step->review);
    return app.review ? caption_lines(app.history.set(), *app.review) : std::vector<std::string>();
}

void make_still(App& app, const std::filesystem::path& file) {
    const BuildStep* step = app.build_order.shown(app.revision());
    const auto studio = step != nullptr && step->studio ? step->studio : app.studio;
    if (!studio) return tell(app, "the set is still being shaped", true);
    StillOptions options;
    options.width_px = app.picture_file.choice.width_px;
    options.height_px = picture_height(studio->set.camera, options.width_px);
    options.samples = still_samples;
    RgbaImage band;
    if (app.picture_file.choice.caption) band = caption_band(lines_of_shown(app), options.width_px);
    if (!app.picture_file.maker.start(studio, options, std::move(band), file, app.wake))
        tell(app, "one picture at a time: the other is not done yet", true);
}

void choose(App& app) {
    const std::string name =
        (app.history.set().name.empty() ? std::string("picture") : app.history.set().name) + ".png";
    open_picture_list(app.files,
                      app.file.empty() ? std::filesystem::path() : app.file.parent_path(), name);
}

void copy_caption(App& app) {
    const std::vector<std::string> lines = lines_of_shown(app);
    if (lines.empty()) return tell(app, "nothing is read yet", true);
    std::string text;
    for (const std::string& line : lines) text += line + "\n";
    ImGui::SetClipboardText(text.c_str());
    tell(app, "the caption is on the clipboard");
}

} // namespace

bool carry_out_picture_wish(App& app, const Wish& wish) {
    PictureFile& file = app.picture_file;
    switch (wish.act) {
    case Act::picture_sheet:
        return file.open = !file.open, true;
    case Act::choose_picture:
        return choose(app), true;
    case Act::save_picture_to:
        file.open = false;
        if (file.choice.as_seen)
            file.seen_to = wish.text;
        else
            make_still(app, wish.text);
        return true;
    case Act::stop_picture:
        return file.maker.stop(), true;
    case Act::copy_caption:
        return copy_caption(app), true;
    default:
        return false;
    }
}

bool take_picture_results(App& app) {
    const std::optional<StillEnd> end = app.picture_file.maker.take_end();
    if (!end) return false;
    const std::string name = end->file.filename().string();
    if (end->problem)
        tell(app, end->problem->message(), true);
    else
        tell(app, end->stopped ? name + " was stopped" : "saved " + name);
    return true;
}

void write_seen_picture(App& app, const PictureMaker& pictures) {
    if (!app.picture_file.seen_to) return;
    const std::filesystem::path file = *app.picture_file.seen_to;
    app.picture_file.seen_to.reset();
    RgbaImage image = pictures.seen(app);
    if (image.width <= 0) return tell(app, "there is no picture yet", true);
    if (app.picture_file.choice.caption)
        image = with_band(image, caption_band(lines_of_shown(app), image.width));
    if (const Outcome problem = write_png(image, file)) return tell(app, problem->message(), true);
    tell(app, "saved " + file.filename().string());
}

} // namespace keystead::ui
