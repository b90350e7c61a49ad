// What each panel sends to the face.
#include "sim/review/keys.h"
#include "sim/review/passes.h"
#include "sim/support/panel_pose.h"

#include <tbb/parallel_for.h>

namespace keystead {

namespace {

/// Flat receptor at the face toward the panel, read as if the sitter held it.
Probe toward_panel(const Bench& bench, const PanelPose& pose) {
    Vec3 middle(0.0);
    for (const PanelLeaf& leaf : pose.leaves)
        middle += leaf.centre_m / static_cast<double>(pose.leaves.size());
    const Vec3 way = middle - bench.marks.face;
    const Vec3 facing = glm::length(way) > 1e-6 ? glm::normalize(way) : Vec3(0, 0, 1);
    return {bench.marks.face, facing, Receptor::flat, ray_mask::gear | ray_mask::panel};
}

} // namespace

void light_panels(Bench& bench, ReviewMemory& memory) {
    const Studio& studio = bench.studio;
    LitPanels& panels = bench.aids.panels;
    panels.assign(studio.emitters.size(), nullptr);
    if (studio.set.panels.empty()) return;
    std::vector<std::size_t> stale;
    std::vector<std::uint64_t> keys(studio.emitters.size(), 0);
    for (std::size_t i = 0; i < studio.emitters.size(); ++i) {
        if (studio.emitters[i].power <= 0.0) continue;
        const ReviewMemory::OnPanels& kept = memory.panels[studio.emitters[i].light];
        keys[i] = panel_light_key(studio, memory.probes.keys(), i);
        if (kept.key == keys[i] && kept.light)
            panels[i] = kept.light;
        else
            stale.push_back(i);
    }
    tbb::parallel_for(std::size_t{0}, stale.size(), [&](std::size_t n) {
        panels[stale[n]] = std::make_shared<const PanelLights>(light_panels_with(studio, stale[n]));
    });
    for (const std::size_t i : stale) {
        memory.panels[studio.emitters[i].light] = {keys[i], panels[i]};
        ++memory.computed;
    }
}

std::vector<PanelReview> review_panels(const Bench& bench) {
    std::vector<PanelReview> panels;
    const Studio& studio = bench.studio;
    for (std::size_t p = 0; p < studio.set.panels.size(); ++p) {
        PanelReview review;
        review.id = studio.set.panels[p].id;
        const Probe probe = toward_panel(bench, pose_panel(studio.set.panels[p]));
        double most = 0.0;
        for (std::size_t i = 0; i < studio.emitters.size(); ++i) {
            const double got = off_panel_lx_s(studio, bench.aids, i, p, probe);
            review.exposure_lx_s += got;
            if (got > most) most = got, review.mostly_from = studio.emitters[i].light;
        }
        review.stops_from_key = stops_from_key(bench, review.exposure_lx_s);
        panels.push_back(std::move(review));
    }
    return panels;
}

} // namespace keystead
