#include "sim/import/import.h"

#include "sim/import/finish.h"
#include "sim/import/glb.h"
#include "sim/import/readers.h"

#include <array>
#include <new>
#include <optional>

namespace keystead {

namespace {

using namespace importing;

/// Other formats people try, by how their files begin.
struct Foreign {
    std::string_view start, words;
};

constexpr std::array<Foreign, 11> foreign{{{"Kaydara FBX", "an FBX file"},
                                           {"ply\n", "a PLY file"},
                                           {"ply\r", "a PLY file"},
                                           {"solid ", "an STL file"},
                                           {"PK\x03\x04", "a zip archive"},
                                           {"\x1F\x8B", "a gzip archive"},
                                           {"\x89PNG", "a PNG image"},
                                           {"\xFF\xD8\xFF", "a JPEG image"},
                                           {"BLENDER", "a Blender file"},
                                           {"<?xml", "an XML file"},
                                           {"PXR-USDC", "a USD file"}}};

std::string_view as_text(ByteView bytes) {
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

/// glTF documents begin with a brace, containers with their magic; anything else is tried as OBJ.
Result<MeshFormat> format_of(const std::filesystem::path& file, const Blame& blame) {
    const Bytes start = read_start(file, 512);
    std::string_view text = as_text(start);
    if (is_glb(start)) return MeshFormat::gltf;
    for (const Foreign& other : foreign)
        if (text.starts_with(other.start))
            return blame.problem("", "it is " + std::string(other.words),
                                 "export as glTF (.glb, .gltf) or OBJ");
    if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
    const std::size_t first = text.find_first_not_of(" \t\r\n");
    if (first != std::string_view::npos && text[first] == '{') return MeshFormat::gltf;
    const std::string ending = file.extension().string();
    if (ending == ".glb" || ending == ".gltf" || ending == ".GLB" || ending == ".GLTF")
        return blame.damaged("", "it begins like no glTF file");
    return MeshFormat::obj;
}

Result<ImportedMesh> import_checked(const std::filesystem::path& file, const ImportLimits& limits,
                                    const ImportProgress& progress, const Blame& blame) {
    const Result<std::uint64_t> size = checked_size(file, limits.max_file_bytes, blame);
    if (!size) return size.problem();
    const Result<MeshFormat> format = format_of(file, blame);
    if (!format) return format.problem();
    Result<ImportedMesh> read = format.value() == MeshFormat::gltf
                                    ? read_gltf(file, limits, progress, blame)
                                    : read_obj(file, limits, progress, blame);
    if (!read) return read.problem();
    ImportedMesh imported = std::move(read).value();
    if (!go_on(progress, 0.8, "finishing the surface")) return blame.stopped();
    if (const Outcome bad = finish(imported, blame)) return *bad;
    if (!go_on(progress, 1.0, "done")) return blame.stopped();
    return imported;
}

} // namespace

Result<ImportedMesh> import_mesh(const std::filesystem::path& file, const ImportLimits& limits,
                                 const ImportProgress& progress) {
    const Blame blame(file);
    try {
        return import_checked(file, limits, progress, blame);
    } catch (const std::bad_alloc&) {
        return blame.problem("", "it does not fit in this machine's memory",
                             "reduce the mesh before exporting");
    }
}

} // namespace keystead
