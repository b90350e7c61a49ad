// The face as the camera's picture will have it: diffuse and glossy light of each place of the
// chart that the camera sees.
#pragma once

#include "sim/review/bench.h"
#include "sim/review/memory.h"

#include <vector>

namespace keystead {

/// Every third place of the chart's fine grid, each way, that is skin and that the camera sees.
struct FacePicture {
    std::vector<std::size_t> cells; ///< of the fine grid
    std::vector<double> weight;     ///< area as the camera sees it, mm²
    std::vector<double> matt;       ///< reflectance · total exposure / camera exposure (tone.h)
    std::vector<double> gloss;      ///< added by the mirror-like part, same scale
    /// By light of the set: its share of both, direct light only.
    std::vector<std::vector<double>> by_light;
};

FacePicture picture_face(const Bench& bench, const std::vector<PanelReview>& panels,
                         ReviewMemory& memory);

/// Share of the weight, per cent, that is over full scale when one light gives so many stops less.
double clipped_percent(const FacePicture& picture, std::size_t light = 0, double stops_less = 0.0);

} // namespace keystead
