// Things from the user's own files, standing in the set.
#pragma once

#include "sim/shape/scene.h"

#include <cstdint>
#include <vector>

namespace keystead {

/// Hash of what a prop's parts are built from; `mesh_key` names the mesh's content.
std::uint64_t prop_key(const Prop& prop, std::uint64_t mesh_key);

/// `mesh` (metres, Y up) scaled, turned about Y and set down with the middle of its box's
/// underside at the prop's position. It casts shadows and hides what is behind it, as gear does; it
/// weighs nothing and no support counts it.
std::vector<ScenePart> prop_parts(const Prop& prop, const Mesh& mesh, std::uint64_t key);

} // namespace keystead
