#include "engine/render/coarse_caster.h"

#include "sim/subject/subject.h"

#include <cmath>
#include <map>
#include <tuple>

namespace keystead {

namespace {

double cube_m(Region region) {
    switch (region) {
    case Region::nose:
    case Region::brow:
    case Region::lid:
    case Region::lip:
    case Region::cheek:
    case Region::chin:
    case Region::eye:
        return 0.003;
    case Region::clothing:
    case Region::body:
        return 0.014;
    default:
        return 0.006;
    }
}

using Cube = std::tuple<int, int, int, int>;

Cube cube_of(const glm::vec3& p, double size_m) {
    const auto index = [&](float x) {
        return static_cast<int>(std::floor(static_cast<double>(x) / size_m));
    };
    return {static_cast<int>(1e4 * size_m), index(p.x), index(p.y), index(p.z)};
}

} // namespace

Mesh coarse_caster(const Mesh& sitter) {
    std::map<Cube, glm::uint> places;
    std::vector<glm::uint> place_of(sitter.positions_m.size());
    std::vector<glm::dvec3> sums;
    std::vector<int> counts;
    for (std::size_t v = 0; v < sitter.positions_m.size(); ++v) {
        const Region region =
            sitter.regions.empty() ? Region::other : static_cast<Region>(sitter.regions[v]);
        const Cube cube = cube_of(sitter.positions_m[v], cube_m(region));
        const auto [place, added] = places.emplace(cube, static_cast<glm::uint>(sums.size()));
        if (added) {
            sums.emplace_back(0.0);
            counts.push_back(0);
        }
        place_of[v] = place->second;
        sums[place->second] += glm::dvec3(sitter.positions_m[v]);
        ++counts[place->second];
    }
    Mesh coarse;
    for (std::size_t i = 0; i < sums.size(); ++i)
        coarse.positions_m.emplace_back(sums[i] / static_cast<double>(counts[i]));
    for (const glm::uvec3& t : sitter.triangles) {
        const glm::uvec3 kept(place_of[t.x], place_of[t.y], place_of[t.z]);
        if (kept.x != kept.y && kept.y != kept.z && kept.z != kept.x)
            coarse.triangles.push_back(kept);
    }
    return coarse;
}

} // namespace keystead
