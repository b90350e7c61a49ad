#include "tests/sim/transport/reference_bench.h"

#include "sim/light/emitter_face.h"

#include <cmath>

namespace reference_bench {

std::shared_ptr<const Mesh> quad(const Vec3& centre_m, const Vec3& right_m, const Vec3& up_m) {
    auto mesh = std::make_shared<Mesh>();
    for (const auto& [x, y] : {std::pair(-1, -1), {1, -1}, {1, 1}, {-1, 1}})
        mesh->positions_m.emplace_back(centre_m + double(x) * right_m + double(y) * up_m);
    mesh->triangles = {{0, 1, 2}, {0, 2, 3}};
    return mesh;
}

ScenePart matt_part(std::shared_ptr<const Mesh> mesh, float albedo, std::uint32_t mask) {
    ScenePart part;
    part.mesh = std::move(mesh);
    part.material.albedo = glm::vec3(albedo);
    part.material.f0 = 0.0F;
    part.mask = mask;
    return part;
}

Emitter rectangle(const Vec3& centre_m, const Vec3& beam, double width_m, double height_m) {
    Emitter e;
    e.shape = ModifierShape::rectangle;
    e.centre_m = centre_m;
    const Vec3 outward = glm::normalize(beam);
    const Vec3 up = std::abs(outward.y) > 0.99 ? Vec3(0, 0, -1) : Vec3(0, 1, 0);
    const Vec3 across = glm::normalize(glm::cross(up, outward));
    e.axes = Mat3(across, glm::cross(outward, across), outward);
    e.width_m = width_m;
    e.height_m = height_m;
    e.exitance = 1000.0;
    e.area_m2 = face_area_m2(e);
    return e;
}

Emitter disc(const Vec3& centre_m, const Vec3& beam, double radius_m) {
    Emitter e = rectangle(centre_m, beam, 2.0 * radius_m, 2.0 * radius_m);
    e.shape = ModifierShape::disc;
    e.area_m2 = face_area_m2(e);
    return e;
}

std::array<std::shared_ptr<const Mesh>, 6> walls(const Vec3& s) {
    const Vec3 c = 0.5 * s;
    const Vec3 x(0.5 * s.x, 0, 0), y(0, 0.5 * s.y, 0), z(0, 0, 0.5 * s.z);
    return {quad(c - x, y, z), quad(c + x, z, y), quad(c - y, z, x),
            quad(c + y, x, z), quad(c - z, x, y), quad(c + z, y, x)};
}

Studio studio(std::vector<ScenePart> parts, std::vector<Emitter> emitters) {
    Studio made;
    made.rays = std::make_shared<RayScene>();
    for (const ScenePart& part : parts) made.rays->add(part.mesh, part.mask);
    made.rays->commit();
    made.scene.parts = std::move(parts);
    made.emitters = std::move(emitters);
    return made;
}

View view(const Vec3& eye_m, const Vec3& at_m, double slope_wide, double slope_high) {
    View v;
    v.eye_m = eye_m;
    const Vec3 backward = glm::normalize(eye_m - at_m);
    const Vec3 up = std::abs(backward.y) > 0.99 ? Vec3(0, 0, -1) : Vec3(0, 1, 0);
    const Vec3 right = glm::normalize(glm::cross(up, backward));
    v.axes = Mat3(right, glm::cross(backward, right), backward);
    v.tan_half_width = slope_wide;
    v.tan_half_height = slope_high;
    return v;
}

ReferenceOptions options(int width_px, int height_px, int samples, int bounces) {
    ReferenceOptions o;
    o.width_px = width_px;
    o.height_px = height_px;
    o.samples = samples;
    o.bounces = bounces;
    return o;
}

Mean mean_green(const ReferencePicture& picture, glm::ivec2 from, glm::ivec2 to) {
    Mean mean;
    for (int y = from.y; y < to.y; ++y)
        for (int x = from.x; x < to.x; ++x) {
            const auto at = static_cast<std::size_t>(y * picture.width_px + x);
            const auto error = static_cast<double>(picture.standard_error[at].g);
            mean.value += static_cast<double>(picture.radiance[at].g);
            mean.error += error * error;
        }
    const int count = (to.x - from.x) * (to.y - from.y);
    mean.value /= count;
    mean.error = std::sqrt(mean.error) / count;
    return mean;
}

Mean mean_green(const ReferencePicture& picture) {
    return mean_green(picture, {0, 0}, {picture.width_px, picture.height_px});
}

} // namespace reference_bench
