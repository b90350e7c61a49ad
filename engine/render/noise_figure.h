// How far a picture that is still being refined is from its limit.
#pragma once

#include "engine/render/filler.h"

#include <optional>

namespace keystead {

/// Compares the picture at each power of two of samples with the one at half as many.
///
/// Errors of the sample points fall about as n^-0.9, so that those of two halves partly cancel: the
/// root of the mean squared difference between the picture of n samples and that of n/2 is then 1.6
/// times the error at n (tests/engine/render/noise_figure_test.cpp holds it against pictures of
/// very many samples).
class NoiseFigure {
public:
    /// Looks at the filler's picture where its number of samples is a new power of two.
    /// `same_light` changes whenever something else than the number of samples has changed the
    /// picture. True if the figure did.
    bool look(Filler& filler, std::uint64_t same_light);

    /// Root of the mean squared error over the mean, in percent; nothing before the second picture.
    std::optional<double> percent() const { return percent_; }

private:
    std::vector<glm::vec3> before_; ///< some of the pixels
    int samples_ = 0;
    std::uint64_t light_ = 0;
    std::optional<double> percent_;
};

} // namespace keystead
