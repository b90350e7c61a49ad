// Where a light hangs, as commands: what following a head and going round a face have in common.
#pragma once

#include "engine/edit/command.h"

namespace keystead {

/// Base, column, rise of the arm and aim as `light` has them; lengths to tenths of millimetres,
/// angles to thousandths of degrees.
void put_place(Batch& batch, const Light& light);
void put_angle(Batch& batch, const std::string& path, double angle_deg);

} // namespace keystead
