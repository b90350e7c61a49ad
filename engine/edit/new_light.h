// A light for a set from catalogue entries: a free id and a free place on the floor.
#pragma once

#include "engine/edit/command.h"
#include "sim/set/json_text.h"

namespace keystead {

/// Without any gear ids a usual role begins as `start_of_role` has it; else empty ids stand for a
/// century stand, a 400 W·s monolight and an 18 cm reflector.
Result<Light> new_light(const Json& document, const AddLight& command);

} // namespace keystead
