// Folds of the clothes, laid on the finished surface.
#include "sim/subject/body.h"
#include "sim/subject/noise.h"
#include "sim/subject/paint.h"

#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>

namespace keystead::sculpt {

namespace {

// Outward millimetres at a canonical point on its own side.
double folds(const Vec3& q, const Limbs& limbs) {
    const Vec3 half(std::abs(q.x), q.y, q.z);
    const double from_elbow = glm::length(half - limbs.elbow);
    const double on_arm = smooth_step(150.0, 185.0, half.x) * smooth_step(-730.0, -640.0, q.y);
    // Hanging folds below the chest, pulls from the armpit, rings about the elbow and the knee.
    double out = 2.6 * smooth_step(-300.0, -480.0, q.y) * (1.0 - on_arm) *
                 value_noise({q.x / 42.0, q.y / 150.0, q.z / 60.0});
    const double armpit = bump(glm::length(half - Vec3(150, -290, -20)), 70.0);
    out += 3.0 * armpit * value_noise({(half.x + q.y) / 24.0 + 5.0, q.x / 160.0, q.z / 50.0});
    out += 2.8 * bump(from_elbow, 80.0) *
           value_noise({q.x / 90.0, (q.y + 0.4 * q.z) / 19.0, q.z / 70.0});
    const double from_knee = glm::length(half - limbs.knee);
    out += 3.2 * bump(from_knee, 90.0) * value_noise({q.x / 60.0, q.y / 26.0, q.z / 26.0});
    out += 0.9 * value_noise({q.x / 65.0, q.y / 65.0, q.z / 65.0});
    return out * smooth_step(-165.0, -260.0, q.y);
}

} // namespace

void drape_cloth(Mesh& cloth, const Shape& shape, const ArmBends& arms) {
    const Limbs left = limbs_of(shape, arms.left), right = limbs_of(shape, arms.right);
    const std::size_t count = cloth.positions_m.size();
    const auto height = [&](const Vec3& p) {
        Vec3 q = shape.canonical(p);
        if (p.x < 0.0) q.x = -q.x;
        const Limbs& limbs = p.x < 0.0 ? right : left;
        if (q.y < limbs.sole_y + 92.0) return 0.0; // shoes keep their shape
        return folds(q, limbs);
    };
    tbb::parallel_for(tbb::blocked_range<std::size_t>(0, count, 512), [&](const auto& range) {
        for (std::size_t i = range.begin(); i != range.end(); ++i) {
            const Vec3 p = Vec3(cloth.positions_m[i]) * 1000.0, n(cloth.normals[i]);
            constexpr double e = 1.0;
            Vec3 slope(height(p + Vec3(e, 0, 0)) - height(p - Vec3(e, 0, 0)),
                       height(p + Vec3(0, e, 0)) - height(p - Vec3(0, e, 0)),
                       height(p + Vec3(0, 0, e)) - height(p - Vec3(0, 0, e)));
            slope *= 0.5 / e;
            slope -= n * glm::dot(n, slope);
            cloth.positions_m[i] = glm::vec3((p + n * height(p)) * 1e-3);
            cloth.normals[i] = glm::vec3(glm::normalize(n - slope));
        }
    });
}

} // namespace keystead::sculpt
