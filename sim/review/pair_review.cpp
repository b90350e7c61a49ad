// Names key and second light together.
#include "sim/portrait/pair.h"
#include "sim/review/passes.h"
#include "sim/support/panel_pose.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace keystead {

namespace {

struct Candidate {
    std::string id;
    PairLight light;
};

PairLight placed(const Bench& bench, const Vec3& centre_m, double stops) {
    const Vec3 way = centre_m - bench.marks.face;
    const Vec3 to_lens = bench.sight.frame.eye_m - bench.marks.face;
    const double cosine = glm::dot(glm::normalize(way), glm::normalize(to_lens));
    return {face_angles(way, bench.studio.subject->head_axes),
            degrees(std::acos(std::clamp(cosine, -1.0, 1.0))), stops};
}

std::vector<Candidate> others(const Bench& bench, const Review& review) {
    std::vector<Candidate> list;
    for (std::size_t i = 0; i < review.lights.size(); ++i)
        if (static_cast<int>(i) != bench.key && review.lights[i].stops_from_key)
            list.push_back({review.lights[i].id, placed(bench, review.lights[i].position_m,
                                                        *review.lights[i].stops_from_key)});
    for (std::size_t p = 0; p < review.panels.size(); ++p) {
        if (!review.panels[p].stops_from_key) continue;
        const PanelPose pose = pose_panel(bench.studio.set.panels[p]);
        Vec3 middle(0.0);
        for (const PanelLeaf& leaf : pose.leaves)
            middle += leaf.centre_m / static_cast<double>(pose.leaves.size());
        list.push_back(
            {review.panels[p].id, placed(bench, middle, *review.panels[p].stops_from_key)});
    }
    std::stable_sort(list.begin(), list.end(), [](const Candidate& a, const Candidate& b) {
        return a.light.stops_from_key > b.light.stops_from_key;
    });
    return list;
}

} // namespace

void review_pair(const Bench& bench, Review& review) {
    if (bench.key < 0) return;
    const Angles& key = review.portrait.face_angles;
    // What shapes the face comes before what edges it.
    for (const bool shapes : {true, false})
        for (const Candidate& other : others(bench, review)) {
            const Pair pair = pair_of(key, other.light);
            const bool front = pair == Pair::clamshell || pair == Pair::fill_on_axis;
            if (pair == Pair::none || front != shapes) continue;
            review.portrait.pair = name_of(pair);
            review.portrait.pair_light = other.id;
            return;
        }
}

} // namespace keystead
