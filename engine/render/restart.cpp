#include "engine/render/restart.h"

#include "engine/render/box.h"
#include "engine/render/shadow_fit.h"

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

Box face_box(const Emitter& emitter) {
    const double reach =
        0.5 * std::hypot(emitter.width_m, emitter.height_m) + std::abs(emitter.depth_m);
    return {glm::vec3(emitter.centre_m - Vec3(reach)), glm::vec3(emitter.centre_m + Vec3(reach))};
}

/// A boom that rises across a room fills a small part of its box: boxes around what moved are no
/// wider than this and the triangles in them.
constexpr float moved_box_m = 0.25F;
/// Places stand this far apart on what is seen, or more where it is seen at a slant.
constexpr float between_places_m = 0.05F;
constexpr float seen_box_m = 0.3F;

/// Boxes around what is seen, hugging it, and one around all.
struct Visible {
    std::vector<Box> boxes;
    Box all;

    explicit Visible(std::span<const glm::vec3> places_m)
        : all(widened(box_of(places_m), between_places_m)) {
        for (const Box& box : boxes_of(places_m, seen_box_m))
            boxes.push_back(widened(box, between_places_m));
    }

    /// Could something in `box` keep light of `face` off any of it?
    bool may_be_shaded(const Box& box, const Box& face) const {
        return between(box, face, all) &&
               std::any_of(boxes.begin(), boxes.end(),
                           [&](const Box& seen) { return between(box, face, seen); });
    }
};

} // namespace

Restart restarts_after(const Studio& before, const Studio& now,
                       std::span<const SceneChange> changes, const glm::mat4& sight,
                       std::span<const glm::vec3> seen_m) {
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
    const Visible visible(changes.empty() ? std::span<const glm::vec3>() : seen_m);
    for (const SceneChange& change : changes) {
        const int mover = light_of(now, change.owner);
        restart.picture = restart.picture || mover < 0;
        if (restart.picture) break;
        restart.lights[static_cast<std::size_t>(mover)] = 1;
        const std::vector<Box> boxes = boxes_of(*change.mesh, moved_box_m);
        const auto any_box = [&boxes](auto&& test) {
            return std::any_of(boxes.begin(), boxes.end(), test);
        };
        restart.picture = any_box([&](const Box& box) { return may_see(sight, box); });
        for (std::size_t i = 0; i < count; ++i) {
            const Box face = face_box(now.emitters[i]);
            if (restart.lights[i] == 0 &&
                any_box([&](const Box& box) { return visible.may_be_shaded(box, face); }))
                restart.lights[i] = 1;
        }
    }
    if (restart.picture) std::fill(restart.lights.begin(), restart.lights.end(), char{1});
    return restart;
}

} // namespace keystead
