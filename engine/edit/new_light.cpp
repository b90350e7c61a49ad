#include "engine/edit/new_light.h"

#include "engine/edit/document_path.h"
#include "engine/edit/role_start.h"
#include "sim/base/frames.h"
#include "sim/set/catalogue.h"
#include "sim/set/set_json.h"
#include "sim/set/set_rules.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>
#include <set>

namespace keystead {

namespace {

template <class T>
Outcome take(T& target, const std::vector<CatalogueEntry<T>>& entries, const std::string& asked,
             const char* usual, const char* what) {
    const std::string id = asked.empty() ? usual : asked;
    const CatalogueEntry<T>* entry = find_entry(entries, id);
    if (entry == nullptr) {
        std::string ids;
        for (const auto& known : entries) ids += (ids.empty() ? "" : ", ") + known.id;
        return Problem{what, brief_json(id), "is not in the catalogue (" + ids + ")"};
    }
    target = entry->value;
    return {};
}

std::string free_id(const Json& document, const AddLight& command) {
    std::set<std::string> taken(reserved_ids.begin(), reserved_ids.end());
    for (const char* list : {"lights", "panels", "props", "meter_points"})
        for (const Json& entry : document[list]) taken.insert(id_of(entry));
    if (!command.id.empty()) return command.id; // a clash is the validation's to report
    std::string stem;
    for (const char c : command.role) {
        const bool plain = std::isalnum(static_cast<unsigned char>(c)) != 0;
        if (plain)
            stem += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
        else if (!stem.empty() && stem.back() != '-')
            stem += '-';
    }
    stem = stem.substr(0, 60); // a number may follow, 64 is the most
    while (!stem.empty() && stem.back() == '-') stem.pop_back();
    if (stem.empty()) stem = "light";
    std::string id = stem;
    for (int n = 2; taken.contains(id); ++n) id = stem + "-" + std::to_string(n);
    return id;
}

/// Where a light stands; nothing where an earlier step of a batch left no such thing.
std::optional<Vec2> stand_of(const Json& light) {
    static const Json::json_pointer where("/support/base/position_m");
    if (!light.is_object() || !light.contains(where)) return std::nullopt;
    const Json& at = light[where];
    if (!at.is_array() || at.size() != 2 || !at[0].is_number() || !at[1].is_number())
        return std::nullopt;
    return Vec2(at[0].get<double>(), at[1].get<double>());
}

/// The first of some usual places that no other stand is near to.
Vec2 free_place(const Json& document) {
    static constexpr std::array<double, 10> azimuths_deg{45,  -45, 140,  -140, 75,
                                                         -75, 110, -110, 20,   -20};
    for (const double distance_m : {1.6, 2.2})
        for (const double azimuth_deg : azimuths_deg) {
            const Vec3 way = direction_from({azimuth_deg, 0});
            const Vec2 place(way.x * distance_m, way.z * distance_m);
            const Json& lights = document["lights"];
            const bool free = std::none_of(lights.begin(), lights.end(), [&](const Json& light) {
                const std::optional<Vec2> stand = stand_of(light);
                return stand && glm::length(*stand - place) < 0.9;
            });
            if (free) return place;
        }
    return {0.0, -1.6};
}

} // namespace

Result<Light> new_light(const Json& document, const AddLight& command) {
    Light light;
    const Catalogue& gear = catalogue();
    if (Outcome p = take(light.support, gear.supports, command.support, "century-40", "support"))
        return *p;
    if (Outcome p = take(light.head, gear.heads, command.head, "monolight-400", "head")) return *p;
    if (Outcome p =
            take(light.modifier, gear.modifiers, command.modifier, "reflector-18", "modifier"))
        return *p;
    light.id = free_id(document, command);
    light.role = command.role;
    const bool any_gear =
        !command.support.empty() || !command.head.empty() || !command.modifier.empty();
    if (!any_gear) {
        const Result<LoadedSet> set = set_from_json(document);
        if (set && start_of_role(set.value().set, command.role, light)) return light;
    }
    const Vec2 place = free_place(document);
    light.support.base.position_m = place;
    // Leg 0, and with it an arm, points at the subject: the load stands over a leg.
    light.support.base.turn_deg = angles_of(Vec3(-place.x, 0.0, -place.y)).azimuth_deg;
    return light;
}

} // namespace keystead
