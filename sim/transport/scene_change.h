// Boxes in the way: which paths an edit of a scene can have touched.
#pragma once

#include "sim/base/lanes.h"
#include "sim/base/mesh.h"

#include <limits>
#include <vector>

namespace keystead {

struct Box3 {
    glm::vec3 low_m{std::numeric_limits<float>::max()};
    glm::vec3 high_m{std::numeric_limits<float>::lowest()};

    void add(const glm::vec3& point_m) {
        low_m = glm::min(low_m, point_m);
        high_m = glm::max(high_m, point_m);
    }
    bool operator==(const Box3&) const = default;
};

Box3 box_of(const Mesh& mesh);

/// Where things changed, appeared or went.
class ChangedPlaces {
public:
    void add(const Box3& box);
    bool none() const { return boxes_.empty(); }

    /// Which of sixteen segments come within a millimetre of any of the boxes.
    void meet(const lanes::V16& from_m, const lanes::V16& to_m, lanes::M16& touched) const;

private:
    std::vector<Box3> boxes_;
    Box3 all_; ///< around them
};

} // namespace keystead
