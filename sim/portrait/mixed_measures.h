// Measures between those of nearby directions.
#pragma once

#include "sim/portrait/measure.h"

namespace keystead {

/// Adds measures by their weights, which sum to 1. Levels of the ring are mixed in stops.
class MixedMeasures {
public:
    void add(const FaceMeasures& face, double weight);
    FaceMeasures mean() const;

private:
    FaceMeasures sum_;
    LitPatch patch_;
    double stops_ = 0.0, lip_ = 0.0;
};

} // namespace keystead
