// Whether the set fits: what stands in the picture, and what comes near ceiling and walls.
#include "sim/review/passes.h"

#include "sim/light/meter.h"
#include "sim/review/sight.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace keystead {

namespace {

bool is_planned_gear(const Set& set, const std::string& owner) {
    const auto has_id = [&](const auto& item) { return item.id == owner; };
    return std::any_of(set.lights.begin(), set.lights.end(), has_id) ||
           std::any_of(set.panels.begin(), set.panels.end(), has_id);
}

struct Nearest {
    double clearance_m = 1e9;
    const char* what = "";
};

void keep_nearer(Nearest& nearest, double clearance_m, const char* what) {
    if (clearance_m < nearest.clearance_m) nearest = {clearance_m, what};
}

Nearest clearance_of(const Mesh& mesh, const Room& room) {
    const double left = -room.left_of_subject_m, right = left + room.width_m;
    const double back = -room.behind_subject_m, front = back + room.depth_m;
    Nearest nearest;
    for (const glm::vec3& p : mesh.positions_m) {
        keep_nearer(nearest, room.ceiling_m - static_cast<double>(p.y), "ceiling");
        keep_nearer(nearest, static_cast<double>(p.x) - left, "camera-left wall");
        keep_nearer(nearest, right - static_cast<double>(p.x), "camera-right wall");
        keep_nearer(nearest, static_cast<double>(p.z) - back, "back wall");
        keep_nearer(nearest, front - static_cast<double>(p.z), "wall behind the camera");
    }
    return nearest;
}

} // namespace

std::vector<FrameReview> review_frame(const Studio& studio) {
    // A grid fine enough to find a 16 mm arm at portrait distances.
    constexpr int columns = 192, rows = 128;
    const Sight sight = sight_of(studio.set.camera);
    std::map<std::pair<std::string, std::string>, int> counts;
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column) {
            const Vec3 ray = ray_through(sight, (column + 0.5) / columns * 2.0 - 1.0,
                                         (row + 0.5) / rows * 2.0 - 1.0);
            const auto seen = see(studio, sight, ray);
            if (seen && is_planned_gear(studio.set, seen->part->owner))
                ++counts[{seen->part->owner, seen->part->part}];
        }
    std::vector<FrameReview> reviews;
    reviews.reserve(counts.size());
    for (const auto& [what, count] : counts)
        reviews.push_back({what.first, what.second, 100.0 * count / (columns * rows)});
    std::stable_sort(reviews.begin(), reviews.end(), [](const auto& a, const auto& b) {
        return a.in_frame_percent > b.in_frame_percent;
    });
    return reviews;
}

std::vector<RoomReview> review_room(const Studio& studio) {
    std::map<std::string, RoomReview> worst;
    for (const ScenePart& part : studio.scene.parts) {
        // Cables lie along walls by design.
        if (!is_planned_gear(studio.set, part.owner) || part.part == "cable") continue;
        const Nearest nearest = clearance_of(*part.mesh, studio.set.room);
        const auto found = worst.find(part.owner);
        if (found == worst.end() || nearest.clearance_m < found->second.clearance_m)
            worst[part.owner] = {part.owner, part.part, nearest.clearance_m, nearest.what};
    }
    std::vector<RoomReview> reviews;
    reviews.reserve(worst.size());
    for (const auto& [owner, review] : worst) reviews.push_back(review);
    return reviews;
}

std::vector<SpillReview> review_spill(const Studio& studio, const std::vector<LightReview>& lights,
                                      int key) {
    std::vector<SpillReview> reviews;
    if (key < 0) return reviews;
    const Sight sight = sight_of(studio.set.camera);
    const auto behind = see(studio, sight, ray_through(sight, 0.85, 0.5));
    if (!behind) return reviews;
    const double key_reading = *lights[static_cast<std::size_t>(key)].f_number;
    for (std::size_t i = 0; i < lights.size(); ++i) {
        const Emitter& emitter = studio.emitters[i];
        if (emitter.power <= 0.0) continue;
        const Probe probe{behind->point_m + 0.002 * behind->normal, behind->normal, Receptor::flat,
                          ray_mask::casters};
        double exposure = exposure_at(emitter, probe, studio.rays.get(), 64);
        if (!emitter.flash) exposure *= studio.set.camera.shutter_s;
        if (exposure <= 0.0) continue;
        const double reading =
            f_number_of_exposure(exposure, studio.set.camera.iso, studio.set.meter.flat_c_lx_s);
        reviews.push_back(
            {lights[i].id, behind->part->owner, 2.0 * std::log2(reading / key_reading)});
    }
    return reviews;
}

} // namespace keystead
