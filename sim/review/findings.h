// Collecting what wants attention, subject by subject.
#pragma once

#include "sim/review/passes.h"

namespace keystead {

void find_in_supports(const Studio& studio, const Review& review, std::vector<Finding>& found);
void find_in_fit(const Studio& studio, const Review& review, std::vector<Finding>& found);
void find_in_light(const Studio& studio, const Review& review, std::vector<Finding>& found);

} // namespace keystead
