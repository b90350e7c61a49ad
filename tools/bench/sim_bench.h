// What the simulation costs: review, bake, reference, growth.
#pragma once

#include "sim/set/set.h"
#include "tools/bench/timing.h"

namespace keystead::bench {

/// The whole review after one light was dragged, with what the review before left, and from
/// nothing.
Json review(const Set& set, int runs, double aim_ms);

/// Light by way of other surfaces: everything, and again after one light was dragged.
Json bake(const Set& set, int paths, int bounces, double aim_ms);

/// The path tracer at 640 x 360.
Json reference(const Set& set, int samples, int bounces, double aim_ms);

/// Copies of the set's lights, and subjects of more triangles: studio, review and shadow rays.
Json growth(const Set& set, bool quick);

} // namespace keystead::bench
