// Gathers the solids of one owner into few parts: one for each name and material.
#pragma once

#include "sim/shape/scene.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace keystead {

/// Key of the part that is `place`-th among those built from one content.
std::uint64_t part_key(std::uint64_t content_key, std::size_t place);

class PartList {
public:
    PartList(std::string owner, std::uint32_t mask)
        : owner_(std::move(owner))
        , mask_(mask) {}

    /// Adds a welded solid under that part and material; edges sharper than `crease_deg` stay hard.
    void add(std::string_view part, const Material& material, Mesh welded,
             double crease_deg = 50.0);

    /// Adds a mesh that already has normals as a part of its own, which later `add`s don't join.
    ScenePart& add_alone(std::string_view part, const Material& material, Mesh mesh);

    /// The parts in order of their first mention; keys follow from `content_key` and the order.
    std::vector<ScenePart> take(std::uint64_t content_key);

private:
    struct Piece {
        Mesh mesh; ///< welded, then finished
        double crease_deg = 0.0;
    };
    struct Gathered {
        ScenePart part;
        Mesh mesh;
        std::vector<Piece> pieces; ///< to be finished, then joined to the mesh
        bool alone = false;
    };
    void finish_pieces();

    std::string owner_;
    std::uint32_t mask_;
    std::vector<Gathered> gathered_;
};

} // namespace keystead
