#include "engine/plate/plate.h"

#include "engine/gl/context.h"
#include "engine/plate/pattern_label.h"
#include "engine/plate/sheet.h"
#include "engine/ui/lettering.h"
#include "sim/review/review.h"

#include <algorithm>

namespace keystead {

namespace {

using ui::Lettering;
using Face = Lettering::Face;

using sheet_colour::faint, sheet_colour::ink;
constexpr int gap_px = 6, margin_px = 14;

/// Where everything goes.
struct Sheet {
    int columns, rows, cell_w, cell_h, left, top, row_h, width, height;

    int x(int column) const { return left + column * (cell_w + gap_px); }
    int y(int row) const { return top + row * row_h; }
};

Sheet laid_out(const Plate& plate, const PlateOptions& options, const Lettering& letters) {
    Sheet s{};
    s.columns = static_cast<int>(plate.columns.size());
    s.rows = static_cast<int>(plate.rows.size());
    s.cell_w = options.cell_width_px;
    s.cell_h = options.cell_height_px;
    int label = 0;
    for (const std::string& row : plate.rows)
        label = std::max(label, letters.width_px(row, Face::body));
    s.left = margin_px + label + margin_px;
    s.top = margin_px + letters.line_px(Face::small) + gap_px;
    if (!plate.groups.empty()) s.top += letters.line_px(Face::title) + gap_px;
    s.row_h = s.cell_h + gap_px;
    if (plate.name_patterns || plate.captioned) s.row_h += letters.line_px(Face::body) + gap_px;
    s.width = s.x(s.columns) - gap_px + margin_px;
    s.height = s.y(s.rows) - gap_px + margin_px;
    return s;
}

void write_heads(RgbaImage& picture, const Plate& plate, const Sheet& s, const Lettering& letters) {
    const int line = s.top - gap_px - letters.line_px(Face::small);
    for (int c = 0; c < s.columns; ++c)
        letters.write(picture, s.x(c), line, plate.columns[static_cast<std::size_t>(c)],
                      Face::small, faint);
    const int share = plate.groups.empty() ? 1 : s.columns / static_cast<int>(plate.groups.size());
    for (std::size_t g = 0; g < plate.groups.size(); ++g)
        letters.write(picture, s.x(static_cast<int>(g) * share), margin_px, plate.groups[g],
                      Face::title, ink);
    for (int r = 0; r < s.rows; ++r)
        letters.write(picture, margin_px, s.y(r), plate.rows[static_cast<std::size_t>(r)],
                      Face::body, ink);
}

Result<RgbaImage> draw_cell(const std::shared_ptr<const Studio>& studio, bool skin_look,
                            const PlateOptions& options) {
    StillOptions still;
    still.width_px = options.cell_width_px;
    still.height_px = options.cell_height_px;
    still.samples = options.samples;
    still.bounce_paths = options.bounce_paths;
    still.surfaces.skin_wrap = skin_look;
    // Undithered, the file is half as large and nobody sees it in pictures this small.
    still.display = camera_display(studio->set.camera, studio->set.meter);
    still.display->dither = false;
    Result<Still> drawn = render_still(studio, still, false);
    if (!drawn) return drawn.problem();
    return std::move(drawn).value().picture;
}

void write_below(RgbaImage& picture, int x, int y, const PlateCell& cell, const Plate& plate,
                 const Studio& studio, const Lettering& letters) {
    const glm::u8vec3 amiss(236, 150, 84);
    ReviewOptions quick;
    quick.margins = quick.bounce = false;
    const PatternLabel label = plate.captioned ? PatternLabel{cell.caption}
                                               : pattern_label(cell, review_set(studio, quick));
    letters.write(picture, x, y, label.text, Face::body, label.as_meant ? ink : amiss);
}

} // namespace

Result<RgbaImage> draw_plate(const Plate& plate, const PlateOptions& options) {
    const auto context = HeadlessContext::create();
    if (!context) return context.problem();
    const Lettering letters(1.0F);
    const Sheet sheet = laid_out(plate, options, letters);
    RgbaImage picture = blank_sheet(sheet.width, sheet.height);
    write_heads(picture, plate, sheet, letters);
    std::shared_ptr<const Studio> studio;
    for (std::size_t i = 0; i < plate.cells.size(); ++i) {
        const int column = static_cast<int>(i) % sheet.columns;
        const int row = static_cast<int>(i) / sheet.columns;
        studio = lit_studio(plate.cells[i], studio);
        const Result<RgbaImage> cell = draw_cell(studio, plate.skin_look, options);
        if (!cell) return cell.problem();
        paste(picture, cell.value(), sheet.x(column), sheet.y(row));
        if (plate.name_patterns || plate.captioned)
            write_below(picture, sheet.x(column), sheet.y(row) + sheet.cell_h + gap_px / 2,
                        plate.cells[i], plate, *studio, letters);
        const double done = static_cast<double>(i + 1) / static_cast<double>(plate.cells.size());
        if (options.progress && !options.progress(done))
            return Problem{"plate", "stopped", "before it was finished"};
    }
    return picture;
}

} // namespace keystead
