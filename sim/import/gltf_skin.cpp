#include "sim/import/field_check.h"
#include "sim/import/gltf_mesh.h"

#include <glm/gtc/type_ptr.hpp>

namespace keystead::importing::gltf {

Result<std::vector<glm::dmat4>> joint_matrices(const Source& source, const NodeTree& tree,
                                               std::size_t skin) {
    const Skin& from = source.document.skins[skin];
    std::vector<glm::dmat4> matrices;
    for (const std::size_t joint : from.joints) matrices.push_back(tree.global[joint]);
    if (!from.inverse_bind) return matrices;
    const Result<std::vector<float>> inverse = read_reals(source, *from.inverse_bind, 16);
    if (!inverse) return inverse.problem();
    if (inverse.value().size() < 16 * matrices.size())
        return source.blame.damaged(at("skins", skin),
                                    "it has " + std::to_string(matrices.size()) +
                                        " joints but fewer inverse bind matrices");
    for (std::size_t i = 0; i < matrices.size(); ++i)
        matrices[i] *= glm::dmat4(glm::make_mat4(inverse.value().data() + 16 * i));
    return matrices;
}

} // namespace keystead::importing::gltf
