// Which part of a bake belongs to which part of a scene that has been edited since.
#pragma once

#include "sim/transport/bake.h"

#include <span>
#include <string>
#include <vector>

namespace keystead {

struct BakedName {
    std::string owner, part;
};
struct BakedWanted {
    std::string owner, part;
    const Mesh* mesh = nullptr; ///< null: nothing is wanted
};

/// One a wanted part: the bake's part of that name with as many vertices, or -1. Parts of one name
/// come in the scene's order in both.
std::vector<int> baked_parts(const IndirectLight& light, std::span<const BakedName> names,
                             std::span<const BakedWanted> wanted);

} // namespace keystead
