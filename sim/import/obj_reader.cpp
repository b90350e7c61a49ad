#include "sim/import/obj_data.h"
#include "sim/import/readers.h"
#include "sim/import/text_lines.h"

namespace keystead::importing {

namespace {

constexpr std::uint64_t bytes_between_reports = 4U << 20U;

/// Why a file without faces shows nothing.
Problem nothing_to_show(const obj::Data& data, const Blame& blame) {
    if (data.free_form > 0)
        return blame.problem("", "it holds free-form surfaces but no faces",
                             "convert them to polygons before exporting");
    if (!data.positions.empty())
        return blame.problem(
            "", "it holds " + std::to_string(data.positions.size()) + " vertices but no faces",
            "make a surface of the points before exporting");
    return blame.problem("", "it holds no vertices and no faces",
                         "choose an OBJ or glTF file of a surface");
}

} // namespace

Result<ImportedMesh> read_obj(const std::filesystem::path& file, const ImportLimits& limits,
                              const ImportProgress& progress, const Blame& blame) {
    const Result<std::uint64_t> size = checked_size(file, limits.max_file_bytes, blame);
    if (!size) return size.problem();
    TextLines lines(file, blame);
    obj::Data data;
    std::uint64_t report_at = 0;
    while (const std::optional<std::string_view> line = lines.next()) {
        if (Outcome bad = obj::read_line(*line, lines.number(), limits, blame, data)) return *bad;
        if (lines.bytes_read() < report_at) continue;
        report_at = lines.bytes_read() + bytes_between_reports;
        const double share =
            static_cast<double>(lines.bytes_read()) / static_cast<double>(size.value());
        if (!go_on(progress, 0.7 * std::min(share, 1.0), "reading the file"))
            return blame.stopped();
    }
    if (lines.problem()) return *lines.problem();
    if (data.triangle_count == 0) return nothing_to_show(data, blame);
    if (Outcome bad = obj::check_references(data, blame)) return *bad;
    if (!go_on(progress, 0.7, "making triangles")) return blame.stopped();
    ImportedMesh imported;
    imported.format = MeshFormat::obj;
    imported.mesh = obj::build_mesh(std::move(data), imported.notes);
    return imported;
}

} // namespace keystead::importing
