#include "tools/bench/scene_obj.h"

#include <fstream>

namespace keystead::bench {

Outcome write_obj(const Studio& studio, const std::string& file) {
    std::ofstream out(file);
    std::size_t first = 1;
    for (const ScenePart& part : studio.scene.parts) {
        out << "o " << part.owner << '-' << part.part << '\n';
        for (const glm::vec3& p : part.mesh->positions_m)
            out << "v " << p.x << ' ' << p.y << ' ' << p.z << '\n';
        for (const glm::uvec3& t : part.mesh->triangles)
            out << "f " << first + t.x << ' ' << first + t.y << ' ' << first + t.z << '\n';
        first += part.mesh->positions_m.size();
    }
    if (!out.flush()) return Problem{file, "cannot be written", ""};
    return std::nullopt;
}

} // namespace keystead::bench
