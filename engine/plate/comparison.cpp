#include "engine/plate/comparison.h"

#include "engine/plate/sheet.h"
#include "engine/ui/lettering.h"

#include <algorithm>

namespace keystead {

namespace {

using ui::Lettering;
using Face = Lettering::Face;

using sheet_colour::faint, sheet_colour::ink;
constexpr int gap_px = 16, margin_px = 20;

/// Left edges of the table's columns, and how wide it is.
struct Columns {
    int what = margin_px, first = 0, second = 0, change = 0, end = 0;
};

Columns laid_out(const std::vector<Difference>& table, const Lettering& letters) {
    int widths[4] = {0, 0, 0, 0};
    for (const Difference& line : table) {
        const std::string* cells[4] = {&line.what, &line.first, &line.second, &line.change};
        for (int i = 0; i < 4; ++i)
            widths[i] = std::max(widths[i], letters.width_px(*cells[i], Face::body));
    }
    Columns columns;
    columns.first = columns.what + widths[0] + 2 * gap_px;
    columns.second = columns.first + widths[1] + 2 * gap_px;
    columns.change = columns.second + widths[2] + 2 * gap_px;
    columns.end = columns.change + widths[3] + margin_px;
    return columns;
}

void write_table(RgbaImage& sheet, const std::vector<Difference>& table, const Columns& columns,
                 int top, const Lettering& letters) {
    const int line_px = letters.line_px(Face::body) + 6;
    for (const Difference& line : table) {
        const glm::u8vec3 colour = line.same() ? faint : ink;
        letters.write(sheet, columns.what, top, line.what, Face::body, faint);
        letters.write(sheet, columns.first, top, line.first, Face::body, colour);
        letters.write(sheet, columns.second, top, line.second, Face::body, colour);
        letters.write(sheet, columns.change, top, line.change, Face::body, faint);
        top += line_px;
    }
}

} // namespace

RgbaImage draw_comparison(const ComparisonSide& first, const ComparisonSide& second,
                          const std::vector<Difference>& table) {
    const Lettering letters(1.0F);
    const Columns columns = laid_out(table, letters);
    const int names_px = letters.line_px(Face::title) + gap_px / 2;
    const int lines_px = static_cast<int>(table.size()) * (letters.line_px(Face::body) + 6);
    const int tallest = std::max(first.picture.height, second.picture.height);
    const int second_x = margin_px + first.picture.width + gap_px;
    const int width = std::max(second_x + second.picture.width + margin_px, columns.end);
    const int table_y = margin_px + names_px + tallest + gap_px;
    RgbaImage sheet = blank_sheet(width, table_y + lines_px + margin_px);
    letters.write(sheet, margin_px, margin_px, first.name, Face::title, ink);
    letters.write(sheet, second_x, margin_px, second.name, Face::title, ink);
    paste(sheet, first.picture, margin_px, margin_px + names_px);
    paste(sheet, second.picture, second_x, margin_px + names_px);
    write_table(sheet, table, columns, table_y, letters);
    return sheet;
}

} // namespace keystead
