#include "sim/import/finish.h"
#include "sim/import/glb.h"
#include "sim/import/gltf_buffers.h"
#include "sim/import/gltf_clean.h"
#include "sim/import/gltf_extensions.h"
#include "sim/import/gltf_mesh.h"
#include "sim/import/gltf_parse.h"
#include "sim/import/json_guard.h"
#include "sim/import/readers.h"

namespace keystead::importing {

namespace {

using nlohmann::json;

/// Vertices and triangles that will be made, told before anything is made: a mesh may be placed
/// by many nodes.
struct Totals {
    std::uint64_t vertices = 0, triangles = 0;
};

Totals totals_of(const gltf::Document& document, const gltf::NodeTree& tree) {
    Totals totals;
    for (const std::size_t node : tree.shown) {
        if (!document.nodes[node].mesh) continue;
        for (const gltf::Primitive& part : document.meshes[*document.nodes[node].mesh].primitives) {
            const std::uint64_t vertices = document.accessors[part.position].count;
            const std::uint64_t corners =
                part.indices ? document.accessors[*part.indices].count : vertices;
            totals.vertices += vertices;
            totals.triangles += part.mode == 4 ? corners / 3 : corners;
        }
    }
    return totals;
}

Outcome check_totals(const Totals& totals, const ImportLimits& limits, const Blame& blame) {
    if (totals.vertices <= limits.max_vertices && totals.triangles <= limits.max_triangles)
        return std::nullopt;
    return blame.problem("scene",
                         "it shows " + std::to_string(totals.triangles) + " triangles on " +
                             std::to_string(totals.vertices) + " vertices, above the limit",
                         "reduce the mesh before exporting");
}

Result<gltf::Placement> placement_of(const gltf::Source& source, const gltf::NodeTree& tree,
                                     std::size_t node, std::vector<std::string>& notes) {
    gltf::Placement placement{tree.global[node], {}};
    const std::optional<std::size_t> skin = source.document.nodes[node].skin;
    if (!skin) return placement;
    Result<std::vector<glm::dmat4>> joints = gltf::joint_matrices(source, tree, *skin);
    if (!joints) return joints.problem();
    placement.joints = std::move(joints).value();
    gltf::note_once(notes, "The figure is shown in the file's rest pose.");
    return placement;
}

Result<Mesh> build_scene(const gltf::Source& source, const gltf::NodeTree& tree,
                         const ImportProgress& progress, std::vector<std::string>& notes) {
    Mesh mesh;
    for (std::size_t i = 0; i < tree.shown.size(); ++i) {
        const std::size_t node = tree.shown[i];
        const std::optional<std::size_t> shape = source.document.nodes[node].mesh;
        if (!shape) continue;
        const double share = static_cast<double>(i) / static_cast<double>(tree.shown.size());
        if (!go_on(progress, 0.3 + 0.4 * share, "placing parts")) return source.blame.stopped();
        const Result<gltf::Placement> placement = placement_of(source, tree, node, notes);
        if (!placement) return placement.problem();
        if (glm::determinant(glm::dmat3(placement.value().node)) == 0.0 &&
            placement.value().joints.empty()) {
            gltf::note_once(notes, "A part scaled to nothing is left out.");
            continue;
        }
        for (const gltf::Primitive& part : source.document.meshes[*shape].primitives) {
            const Result<Mesh> placed =
                gltf::place_primitive(source, part, placement.value(), notes);
            if (!placed) return placed.problem();
            append_part(mesh, placed.value());
        }
    }
    return mesh;
}

/// Document and bytes of a file, compressed parts and foreign references refused.
struct Opened {
    gltf::Document document;
    gltf::Buffers buffers;
};

Result<Opened> open_document(std::string_view text, std::optional<ByteView> binary,
                             const std::filesystem::path& folder, const ImportLimits& limits,
                             const Blame& blame, std::vector<std::string>& notes) {
    const Result<json> document = parse_guarded(text, limits, blame);
    if (!document) return document.problem();
    if (const Outcome bad = gltf::check_extensions(document.value(), blame, notes)) return *bad;
    const Result<json> clean = gltf::clean_document(document.value(), limits, blame, notes);
    if (!clean) return clean.problem();
    Result<gltf::Buffers> buffers =
        gltf::fetch_buffers(document.value(), binary, folder, limits, blame);
    if (!buffers) return buffers.problem();
    gltf::note_images(document.value(), folder, blame, notes);
    Result<gltf::Document> parsed = gltf::parse_clean(clean.value().dump(), blame);
    if (!parsed) return parsed.problem();
    return Opened{std::move(parsed).value(), std::move(buffers).value()};
}

} // namespace

Result<ImportedMesh> read_gltf(const std::filesystem::path& file, const ImportLimits& limits,
                               const ImportProgress& progress, const Blame& blame) {
    if (!go_on(progress, 0.0, "reading the file")) return blame.stopped();
    const Result<Bytes> bytes = read_bytes(file, limits.max_file_bytes, blame);
    if (!bytes) return bytes.problem();
    GlbChunks chunks{{reinterpret_cast<const char*>(bytes.value().data()), bytes.value().size()},
                     std::nullopt};
    if (is_glb(bytes.value())) {
        const Result<GlbChunks> split = split_glb(bytes.value(), blame);
        if (!split) return split.problem();
        chunks = split.value();
    }
    ImportedMesh imported;
    imported.format = MeshFormat::gltf;
    if (!go_on(progress, 0.2, "checking the document")) return blame.stopped();
    const Result<Opened> opened = open_document(chunks.json, chunks.binary, file.parent_path(),
                                                limits, blame, imported.notes);
    if (!opened) return opened.problem();
    const auto& [document, buffers] = opened.value();
    if (const Outcome bad = gltf::check_ranges(document, buffers, limits, blame)) return *bad;
    const Result<gltf::NodeTree> tree = gltf::walk_nodes(document, limits, blame);
    if (!tree) return tree.problem();
    if (const Outcome bad = check_totals(totals_of(document, tree.value()), limits, blame))
        return *bad;
    Result<Mesh> mesh =
        build_scene({document, buffers, blame}, tree.value(), progress, imported.notes);
    if (!mesh) return mesh.problem();
    imported.mesh = std::move(mesh).value();
    return imported;
}

} // namespace keystead::importing
