#include "engine/render/baked_parts.h"

#include <map>
#include <utility>

namespace keystead {

std::vector<int> baked_parts(const IndirectLight& light, std::span<const BakedName> names,
                             std::span<const BakedWanted> wanted) {
    std::multimap<std::pair<std::string, std::string>, int> places;
    for (std::size_t i = 0; i < names.size(); ++i)
        places.emplace(std::pair(names[i].owner, names[i].part), static_cast<int>(i));
    std::vector<int> found(wanted.size(), -1);
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        const BakedWanted& part = wanted[i];
        if (part.mesh == nullptr) continue;
        const auto place = places.find(std::pair(part.owner, part.part));
        if (place == places.end()) continue;
        const auto& values = light.parts[static_cast<std::size_t>(place->second)];
        if (values.size() == part.mesh->positions_m.size() * light.emitters)
            found[i] = place->second;
        places.erase(place);
    }
    return found;
}

} // namespace keystead
