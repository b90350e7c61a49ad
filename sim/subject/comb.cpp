// Strands on the hair's surface: relief, tilted normals, directions and colours.
#include "sim/subject/head.h"
#include "sim/subject/paint.h"

#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>

namespace keystead::sculpt {

namespace {

// Canonical point on its own side: hair is the one part whose halves differ.
Vec3 signed_canonical(const Shape& shape, const Vec3& p) {
    Vec3 q = shape.canonical(p);
    if (p.x < 0.0) q.x = -q.x;
    return q;
}

double relief_height(const Shape& shape, HairStyle style, const Vec3& signed_q) {
    const Vec3 q(std::abs(signed_q.x), signed_q.y, signed_q.z);
    // Curls and long strands go on where no hair grows; at the skin they end.
    if (style == HairStyle::curly)
        return smooth_step(2.0, 20.0, skull(shape, q)) * smooth_step(-62.0, -28.0, q.y);
    if (style == HairStyle::long_hair)
        return 0.8 * smooth_step(0.0, 14.0, std::max(above_hairline(q), -q.y - 20.0));
    const double top = smooth_step(40.0, 115.0, q.y);
    const double loose = style == HairStyle::tied  ? 0.45
                         : style == HairStyle::bob ? 0.8
                                                   : mix(0.6, 1.7, top);
    return loose * smooth_step(0.0, 14.0, above_hairline(q));
}

} // namespace

void comb_hair(Mesh& hair, const Shape& shape, HairStyle style) {
    const std::size_t count = hair.positions_m.size();
    hair.tangents.resize(count);
    tbb::parallel_for(tbb::blocked_range<std::size_t>(0, count, 512), [&](const auto& range) {
        for (std::size_t i = range.begin(); i != range.end(); ++i) {
            const Vec3 q = signed_canonical(shape, Vec3(hair.positions_m[i]) * 1000.0);
            const Vec3 normal(hair.normals[i]);
            const Vec3 along = hair_flow(style, q, normal);
            const Vec3 across = glm::cross(normal, along);
            const double height = relief_height(shape, style, q);
            const auto relief = [&](const Vec3& x) { return height * strand_relief(style, x); };
            const double slope = (relief(q + across * 0.8) - relief(q - across * 0.8)) / 1.6;
            hair.positions_m[i] += glm::vec3(normal * (relief(q) * 1e-3));
            Vec3 tilted = normal - across * std::clamp(slope, -0.7, 0.7);
            // Strands have no relief along themselves, lumps of curls have.
            if (style == HairStyle::curly)
                tilted -=
                    along * std::clamp((relief(q + along) - relief(q - along)) / 2.0, -0.7, 0.7);
            hair.normals[i] = glm::vec3(glm::normalize(tilted));
            hair.tangents[i] = glm::vec3(along);
        }
    });
}

void paint_hair(Mesh& hair, const Shape& shape, HairStyle style) {
    const std::size_t count = hair.positions_m.size();
    hair.colours.resize(count);
    hair.roughness.assign(count, 0.34F);
    hair.regions.assign(count, static_cast<std::uint8_t>(Region::hair));
    for (std::size_t i = 0; i < count; ++i) {
        const Vec3 q = signed_canonical(shape, Vec3(hair.positions_m[i]) * 1000.0);
        // Strands in a hollow are darker.
        const double share = style == HairStyle::curly ? 0.10 : 0.30;
        hair.colours[i] =
            glm::vec3(base_hair * std::max(1.0 + share * strand_relief(style, q), 0.2));
    }
}

} // namespace keystead::sculpt
