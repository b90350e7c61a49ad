// What an edit costs until its picture is there.
#pragma once

#include "engine/render/choose_filler.h"
#include "tools/bench/timing.h"

namespace keystead::bench {

struct PictureBench {
    Set set;
    FillerKind filler = FillerKind::processor; ///< resolved
    int runs = 15;
};

/// Edits at one size: one light dragged, all of them (the head turned), power, gel, mute, exposure.
Json edits(const PictureBench& bench, int width_px, int height_px, double one_aim_ms,
           double all_aim_ms, double remix_aim_ms);

/// Time until the picture of all lights is within 1 % and 0.5 % (root of the mean squared error of
/// the linear sum over its mean, cut where the sensor is full) of one of very many samples.
Json convergence(const PictureBench& bench, int width_px, int height_px, double aim_1_percent_ms,
                 double aim_half_percent_ms);

/// From the set's text to the first picture of it, lit.
Json first_picture(const PictureBench& bench, int width_px, int height_px, double aim_ms);

} // namespace keystead::bench
