#include "sim/import/obj_data.h"
#include "sim/import/triangulate.h"

#include <algorithm>
#include <cmath>

namespace keystead::importing::obj {

namespace {

/// Polygons become triangles at the end of the list.
void cut_polygons(Data& data) {
    std::vector<glm::vec3> corners;
    std::size_t at = 0;
    for (const std::uint32_t size : data.polygon_sizes) {
        corners.clear();
        for (std::size_t i = at; i < at + size; ++i)
            corners.push_back(data.positions[data.polygon_corners[i] - 1]);
        for (const glm::uvec3& t : triangulate(corners)) {
            const auto pick = [&](const std::vector<std::uint32_t>& from) {
                return glm::uvec3(from[at + t.x], from[at + t.y], from[at + t.z]);
            };
            data.triangles.push_back(pick(data.polygon_corners));
            if (data.corners_with_normal)
                data.triangle_normals.push_back(pick(data.polygon_normals));
        }
        at += size;
    }
}

bool normals_are_usable(const Data& data) {
    return data.corners_with_normal && !data.corners_without_normal &&
           std::all_of(data.normals.begin(), data.normals.end(),
                       [](const glm::vec3& n) { return glm::length(n) > 0.0F; });
}

/// Makes a vertex of each pair of position and normal that occurs. The first normal of a position
/// keeps its place in the list, so a file with one normal a vertex keeps its order.
class Pairs {
public:
    Pairs(Mesh& mesh, const std::vector<glm::vec3>& normals)
        : mesh_(mesh)
        , normals_(normals)
        , normal_of_(mesh.positions_m.size(), 0)
        , next_(mesh.positions_m.size(), none) {
        mesh_.normals.assign(mesh.positions_m.size(), glm::vec3(0.0F, 1.0F, 0.0F));
    }

    std::uint32_t vertex(std::uint32_t position, std::uint32_t normal) {
        std::uint32_t at = position;
        // A place with more normals than this is searched no further: the file is made to be slow.
        for (int step = 0; step < 64; ++step) {
            if (normal_of_[at] == 0) set(at, normal);
            if (normal_of_[at] == normal) return at;
            if (next_[at] == none) break;
            at = next_[at];
        }
        const auto copy = static_cast<std::uint32_t>(mesh_.positions_m.size());
        mesh_.positions_m.push_back(glm::vec3(mesh_.positions_m[position]));
        if (!mesh_.colours.empty()) mesh_.colours.push_back(glm::vec3(mesh_.colours[position]));
        mesh_.normals.emplace_back();
        normal_of_.push_back(0);
        next_.push_back(next_[at]);
        next_[at] = copy;
        set(copy, normal);
        return copy;
    }

private:
    static constexpr std::uint32_t none = 0xFFFFFFFFU;

    void set(std::uint32_t at, std::uint32_t normal) {
        normal_of_[at] = normal;
        mesh_.normals[at] = glm::normalize(normals_[normal - 1]);
    }

    Mesh& mesh_;
    const std::vector<glm::vec3>& normals_;
    std::vector<std::uint32_t> normal_of_, next_;
};

/// IEC 61966-2-1 decoding.
float linear_of_srgb(float value) {
    return value <= 0.04045F ? value / 12.92F : std::pow((value + 0.055F) / 1.055F, 2.4F);
}

/// Scans write what their camera saw: sRGB, 0..1 or 0..255. Vertices without a colour get the
/// reflectance of a grey card.
std::vector<glm::vec3> linear_colours(const Data& data, std::vector<std::string>& notes) {
    std::vector<glm::vec3> colours = data.colours;
    if (colours.empty()) return colours;
    colours.resize(data.positions.size(), glm::vec3(-1.0F));
    float largest = 0.0F;
    for (const glm::vec3& c : colours) largest = std::max({largest, c.x, c.y, c.z});
    const float scale = largest > 1.0F ? 1.0F / 255.0F : 1.0F;
    for (glm::vec3& c : colours) {
        if (c.x < 0.0F) {
            c = glm::vec3(0.18F);
            continue;
        }
        for (int k = 0; k < 3; ++k) c[k] = linear_of_srgb(std::clamp(c[k] * scale, 0.0F, 1.0F));
    }
    notes.emplace_back("Vertex colours were read as sRGB.");
    return colours;
}

void note_left_out(const Data& data, std::vector<std::string>& notes) {
    const auto count = [&](std::uint64_t n, const std::string& what) {
        if (n > 0) notes.push_back(std::to_string(n) + " " + what + " were left out.");
    };
    if (data.decimal_commas) notes.emplace_back("Decimal commas were read as points.");
    if (data.has_materials)
        notes.emplace_back("Material files are not read: colours come from vertices.");
    count(data.short_faces, "faces with fewer than three corners");
    count(data.lines_and_points, "lines and points");
    count(data.free_form, "lines about free-form curves and surfaces");
    count(data.unknown, "lines of an unknown kind");
}

} // namespace

Mesh build_mesh(Data&& data, std::vector<std::string>& notes) {
    note_left_out(data, notes);
    cut_polygons(data);
    Mesh mesh;
    mesh.colours = linear_colours(data, notes);
    mesh.positions_m = std::move(data.positions);
    mesh.triangles = std::move(data.triangles);
    for (glm::uvec3& t : mesh.triangles) t -= glm::uvec3(1);
    if (!normals_are_usable(data)) return mesh;
    Pairs pairs(mesh, data.normals);
    for (std::size_t i = 0; i < mesh.triangles.size(); ++i)
        for (int k = 0; k < 3; ++k)
            mesh.triangles[i][k] = pairs.vertex(mesh.triangles[i][k], data.triangle_normals[i][k]);
    return mesh;
}

} // namespace keystead::importing::obj
