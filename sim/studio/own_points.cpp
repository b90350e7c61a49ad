#include "sim/studio/own_points.h"

#include <limits>

namespace keystead {

namespace {

/// The file's mesh, if what is lit was made of it: then the posed skin has the same triangles.
const StoredMesh* lit_file(const Studio& studio) {
    if (!studio.set.subject.file || studio.files.empty()) return nullptr;
    const StoredMesh& stored = *studio.files.front(); // the subject's comes before the props'
    if (stored.problem || stored.mesh.triangles.size() != studio.subject->skin->triangles.size())
        return nullptr;
    return &stored;
}

Vec3 posed_place(const Mesh& stored, const Mesh& posed, const Vec3& point_m) {
    std::size_t nearest = 0;
    float least = std::numeric_limits<float>::max();
    const glm::vec3 wanted(point_m);
    for (std::size_t i = 0; i < stored.positions_m.size(); ++i) {
        const glm::vec3 off = stored.positions_m[i] - wanted;
        if (const float apart = glm::dot(off, off); apart < least) {
            least = apart;
            nearest = i;
        }
    }
    return Vec3(posed.positions_m[nearest]);
}

} // namespace

std::string own_point_path(std::size_t index) {
    return std::string("subject.file.") + own_point_fields[index];
}

std::array<OwnPoint, 5> own_points(const Studio& studio) {
    std::array<OwnPoint, 5> points;
    const StoredMesh* stored = lit_file(studio);
    if (stored == nullptr) return points;
    const SubjectFile& file = *studio.set.subject.file;
    const HeadLandmarks head =
        with_placed(stored->landmarks, {file.nose_tip_m, file.pupil_left_m, file.pupil_right_m,
                                        file.chin_m, file.top_m});
    const std::array<const std::optional<HeadPoint>*, 5> known{
        &head.nose_tip, &head.pupil_left, &head.pupil_right, &head.chin, &head.top};
    for (std::size_t i = 0; i < points.size(); ++i) {
        points[i].point = *known[i];
        if (points[i].point)
            points[i].in_room_m =
                posed_place(stored->mesh, *studio.subject->skin, points[i].point->point_m);
    }
    return points;
}

std::optional<Vec3> own_point_met(const Studio& studio, const Vec3& from_m, const Vec3& direction) {
    const StoredMesh* stored = lit_file(studio);
    RayHit hit;
    if (stored == nullptr ||
        !studio.rays->first_hit(from_m, direction, 0.05, 100.0, ray_mask::all, hit) ||
        studio.scene.parts[hit.mesh].mesh != studio.subject->skin)
        return std::nullopt;
    const glm::uvec3 t = stored->mesh.triangles[hit.triangle];
    const auto corner = [&](int k) { return Vec3(stored->mesh.positions_m[t[k]]); };
    return (1.0 - hit.u - hit.v) * corner(0) + hit.u * corner(1) + hit.v * corner(2);
}

} // namespace keystead
