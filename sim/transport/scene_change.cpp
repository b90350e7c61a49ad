#include "sim/transport/scene_change.h"

namespace keystead {

namespace {

using lanes::F16;
using lanes::M16;
using lanes::V16;

/// Narrows the shares of the segments within the box's slab along one axis.
KEYSTEAD_INLINE void within_slab(float low, float high, const F16& from, const F16& to, F16& enter,
                                 F16& leave) {
    constexpr float margin_m = 1e-3F;
    const F16 way = to - from;
    const M16 across = abs(way) < F16(1e-9F);
    const F16 over = F16(1.0F) / choose(across, F16(1.0F), way);
    const F16 a = (F16(low - margin_m) - from) * over, b = (F16(high + margin_m) - from) * over;
    const M16 outside = from < F16(low - margin_m) || from > F16(high + margin_m);
    enter = max(enter, choose(across, choose(outside, F16(2.0F), F16(0.0F)), min(a, b)));
    leave = min(leave, choose(across, choose(outside, F16(-1.0F), F16(1.0F)), max(a, b)));
}

KEYSTEAD_INLINE M16 meets(const Box3& box, const V16& from_m, const V16& to_m) {
    F16 enter(0.0F), leave(1.0F);
    within_slab(box.low_m.x, box.high_m.x, from_m.x, to_m.x, enter, leave);
    within_slab(box.low_m.y, box.high_m.y, from_m.y, to_m.y, enter, leave);
    within_slab(box.low_m.z, box.high_m.z, from_m.z, to_m.z, enter, leave);
    return enter <= leave * 1.00001F + 1e-6F;
}

} // namespace

Box3 box_of(const Mesh& mesh) {
    Box3 box;
    for (const glm::vec3& p : mesh.positions_m) box.add(p);
    return box;
}

void ChangedPlaces::add(const Box3& box) {
    boxes_.push_back(box);
    all_.add(box.low_m);
    all_.add(box.high_m);
}

KEYSTEAD_SIMD void ChangedPlaces::meet(const V16& from_m, const V16& to_m, M16& touched) const {
    touched = M16(false);
    if (boxes_.empty()) return;
    const M16 near = meets(all_, from_m, to_m);
    if (!any(near)) return;
    for (const Box3& box : boxes_) {
        touched = touched || meets(box, from_m, to_m);
        if (all(touched)) return;
    }
}

} // namespace keystead
