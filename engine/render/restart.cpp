#include "engine/render/restart.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

int light_of(const Studio& studio, const std::string& owner) {
    for (std::size_t i = 0; i < studio.emitters.size(); ++i)
        if (studio.emitters[i].light == owner) return static_cast<int>(i);
    return -1;
}

bool same_grid(const std::optional<Grid>& a, const std::optional<Grid>& b) {
    if (a.has_value() != b.has_value()) return false;
    return !a || (a->cell == b->cell && a->cell_width_m == b->cell_width_m &&
                  a->cell_depth_m == b->cell_depth_m && a->open_fraction == b->open_fraction &&
                  a->wall_reflection == b->wall_reflection);
}

/// Would the layer, which is kept for an exitance of 1, come out the same?
bool same_light(const Emitter& a, const Emitter& b) {
    return a.shape == b.shape && a.centre_m == b.centre_m && a.axes == b.axes &&
           a.width_m == b.width_m && a.height_m == b.height_m &&
           a.inner_width_m == b.inner_width_m && a.depth_m == b.depth_m && a.bulges == b.bulges &&
           a.hot_spot == b.hot_spot && a.deflector == b.deflector && a.beam == b.beam &&
           a.front == b.front && same_grid(a.grid, b.grid);
}

Box box_of(const Emitter& emitter) {
    const double reach =
        0.5 * std::hypot(emitter.width_m, emitter.height_m) + std::abs(emitter.depth_m);
    return {glm::vec3(emitter.centre_m - Vec3(reach)), glm::vec3(emitter.centre_m + Vec3(reach))};
}

/// Does a box reach into the hull of two others? Slices of the sweep from one to the other, each a
/// box: never false for one that does, up to the slices' overlap.
bool between(const Box& box, const Box& from, const Box& to) {
    constexpr int slices = 24;
    for (int i = 0; i < slices; ++i) {
        const float a = static_cast<float>(i) / slices, b = static_cast<float>(i + 1) / slices;
        const Box start{glm::mix(from.low_m, to.low_m, a), glm::mix(from.high_m, to.high_m, a)};
        const Box end{glm::mix(from.low_m, to.low_m, b), glm::mix(from.high_m, to.high_m, b)};
        if (touches(box, united(start, end))) return true;
    }
    return false;
}

} // namespace

Restart restarts_after(const Studio& before, const Studio& now,
                       std::span<const SceneChange> changes, const glm::mat4& sight,
                       const Box& visible) {
    Restart restart;
    const std::size_t count = now.emitters.size();
    restart.lights.assign(count, 0);
    restart.picture = before.emitters.size() != count;
    for (std::size_t i = 0; i < count && !restart.picture; ++i) {
        const bool keyed = i < now.light_keys.size() && i < before.light_keys.size();
        const bool moved = keyed && now.light_keys[i] != before.light_keys[i];
        if (moved || before.emitters[i].light != now.emitters[i].light ||
            !same_light(before.emitters[i], now.emitters[i]))
            restart.lights[i] = 1;
    }
    for (const SceneChange& change : changes) {
        const int mover = light_of(now, change.owner);
        if (mover < 0 || may_see(sight, change.box)) restart.picture = true;
        if (restart.picture) break;
        restart.lights[static_cast<std::size_t>(mover)] = 1;
        for (std::size_t i = 0; i < count; ++i)
            if (between(change.box, box_of(now.emitters[i]), visible)) restart.lights[i] = 1;
    }
    if (restart.picture) std::fill(restart.lights.begin(), restart.lights.end(), char{1});
    return restart;
}

} // namespace keystead
