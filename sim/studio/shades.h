// What may stand between two places of a studio, by whose it is: says which edits leave what a
// place gets alone.
#pragma once

#include "sim/studio/studio.h"

#include <cstdint>
#include <vector>

namespace keystead {

/// A box about its middle.
struct Extent {
    Vec3 centre_m{0.0};
    Vec3 half_m{0.0};
};

class Shades {
public:
    Shades() = default;
    explicit Shades(const Studio& studio);

    /// A key of all that may come between any point of one box and any of the other: never the same
    /// where something did, though it may change where nothing that matters has.
    std::uint64_t between(const Extent& a, const Extent& b) const;

private:
    struct Shade {
        Extent extent;
        std::uint64_t key = 0;
    };
    struct Owner {
        Extent extent;             ///< around all of its parts
        std::vector<Shade> shades; ///< its parts that can shade
    };
    std::vector<Owner> owners_;
};

/// Around a light's face.
Extent extent_of(const Emitter& emitter);

} // namespace keystead
