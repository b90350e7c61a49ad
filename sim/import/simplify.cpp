#include "sim/import/simplify.h"

#include "sim/import/decimate.h"
#include "sim/import/finish.h"

#include <algorithm>

namespace keystead {

namespace {

void weld(Mesh& mesh) {
    const std::vector<std::uint32_t> first = importing::weld_map(mesh.positions_m);
    for (glm::uvec3& t : mesh.triangles) t = {first[t.x], first[t.y], first[t.z]};
    std::erase_if(mesh.triangles,
                  [](const glm::uvec3& t) { return t.x == t.y || t.y == t.z || t.z == t.x; });
}

} // namespace

SimplifiedMesh simplify(const Mesh& mesh, std::size_t max_triangles) {
    SimplifiedMesh result;
    result.mesh = mesh;
    const std::size_t budget = std::max<std::size_t>(max_triangles, 4);
    if (mesh.triangles.size() <= budget) return result;
    weld(result.mesh);
    importing::drop_unused_vertices(result.mesh);
    importing::Decimated coarse =
        importing::decimate(result.mesh.positions_m, result.mesh.triangles, budget);
    result.mesh.triangles = std::move(coarse.triangles);
    result.error = static_cast<double>(coarse.error);
    result.kept_topology = coarse.kept_topology;
    importing::drop_unused_vertices(result.mesh);
    return result;
}

} // namespace keystead
