// How the weight is shared by the feet.
#pragma once

#include "sim/base/vec.h"

#include <vector>

namespace keystead {

/// Force on each foot, in the order given, for a weight acting above `com_m` (plan).
///
/// Three feet: the only rigid solution. More feet are statically indeterminate; of the loads in
/// balance that pull on no foot, the one with the least sum of squares is given, as equal springs
/// under a rigid base would share it, feet that lift included. Where no such solution exists
/// (the weight is outside the feet) the balance without that condition is given: a negative load
/// is a foot that would have to be held down. Empty with fewer than three feet or all in a line.
std::vector<double> foot_loads_n(double weight_n, const Vec2& com_m,
                                 const std::vector<Vec2>& feet_m);

} // namespace keystead
