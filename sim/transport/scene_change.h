// Boxes in the way: which paths an edit of a scene can have touched.
#pragma once

#include "sim/base/lanes.h"
#include "sim/base/mesh.h"

#include <limits>
#include <vector>

namespace keystead {

/// Around a mesh, along the axes in which it is long and thin: arms and columns stand askew.
struct MeshBox {
    glm::vec3 middle_m{0.0F};
    glm::mat3 axes{1.0F}; ///< columns: unit
    glm::vec3 half_m{0.0F};
    bool operator==(const MeshBox&) const = default;
};

MeshBox box_of(const Mesh& mesh);

/// Where things changed, appeared or went.
class ChangedPlaces {
public:
    void add(const MeshBox& box);
    bool none() const { return boxes_.empty(); }

    /// Which of sixteen segments come within a millimetre of any of the boxes.
    void meet(const lanes::V16& from_m, const lanes::V16& to_m, lanes::M16& touched) const;

private:
    std::vector<MeshBox> boxes_;
    glm::vec3 low_m_{std::numeric_limits<float>::max()}; ///< of a box around them
    glm::vec3 high_m_{std::numeric_limits<float>::lowest()};
};

} // namespace keystead
