// Where a light of a usual role begins: gear from the catalogue, hung where a photographer would
// first put it for this sitter, camera and room. A start to move from, not a verdict.
#pragma once

#include "sim/set/set.h"

#include <span>
#include <string>

namespace keystead {

/// Roles that have a start of their own: key, fill, rim light, hair light, background light.
/// Common practice for their gear and places.
std::span<const char* const> starting_roles();

/// The light of that role for `set`: out of the frame, inside the room and clear of the stands
/// there are, as far as one of the usual places is. Id and role are left to the caller. False:
/// the role has no start, `light` is unchanged.
bool start_of_role(const Set& set, const std::string& role, Light& light);

} // namespace keystead
