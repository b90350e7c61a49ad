// From fields to the subject's painted meshes, part by part.
#pragma once

#include "sim/subject/body.h"
#include "sim/subject/collapse.h"
#include "sim/subject/surface.h"

#include <functional>
#include <tbb/parallel_for.h>

namespace keystead::sculpt {

struct Built {
    Mesh fine, coarse; ///< for the eye; for shadow maps
};

/// How a finished surface becomes the subject's mesh: both sides at once unless told otherwise.
struct ToMesh {
    std::function<Mesh(const Surface&)> mesh = whole_mesh;
    bool keep_middle = false; ///< the middle line must fit another side's: none of it is merged
};

/// Head and body against a mean man's; at least 1, since small ones can do with his edges.
double head_size(const Measures& measures);
double body_size(const Measures& measures);

/// Normals, fewer triangles, and again for the coarse mesh, whose chord is `coarser` times as long.
Built finish(Surface& surface, const Field& field, const CollapseLimits& limits, double coarser,
             const ToMesh& to_mesh = {});

/// Drops the triangles whose three corners are all unwanted.
template <class F>
void drop_triangles(Surface& surface, F&& unwanted) {
    std::vector<char> drop(surface.points.size());
    tbb::parallel_for(std::size_t{0}, drop.size(),
                      [&](std::size_t i) { drop[i] = unwanted(surface.points[i]) ? 1 : 0; });
    std::erase_if(surface.triangles,
                  [&](const glm::uvec3& t) { return drop[t.x] && drop[t.y] && drop[t.z]; });
    drop_unused_points(surface);
}

/// Head, neck and bare shoulders. `arms` other than hanging leave out what would show.
Built build_skin(const Shape& shape, HairStyle style, const ArmBends& arms);
Built build_hair(const Shape& shape, HairStyle style);
Built build_hands(const Shape& shape, const ArmBends& arms);
Built build_cloth(const Shape& shape, const ArmBends& arms);

} // namespace keystead::sculpt
