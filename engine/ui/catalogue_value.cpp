#include "engine/ui/catalogue_value.h"

#include "engine/edit/document_path.h"
#include "sim/meter/meter_point.h" // light_index
#include "sim/set/catalogue.h"

namespace keystead::ui {

namespace {

template <class T>
bool put_entry(T& part, const std::vector<CatalogueEntry<T>>& entries) {
    const CatalogueEntry<T>* entry = find_entry(entries, part.from);
    if (entry == nullptr) return false;
    part = entry->value;
    return true;
}

/// The light with the part that `field` belongs to as the catalogue has it.
bool as_in_catalogue(Light& light, const std::string& part, const std::string& field) {
    const Catalogue& gear = catalogue();
    if (part == "head") return field != "power_stops_below" && put_entry(light.head, gear.heads);
    if (part == "modifier") return put_entry(light.modifier, gear.modifiers);
    return part == "support" && field != "base" && field != "bags" &&
           put_entry(light.support, gear.supports);
}

} // namespace

std::optional<double> catalogue_number(const Set& set, std::string_view path) {
    if (!path.starts_with("lights[")) return std::nullopt;
    const auto steps = parse_path(path);
    if (!steps || steps.value().size() < 3 || steps.value()[0].brackets.size() != 1)
        return std::nullopt;
    const auto index = light_index(set, steps.value()[0].brackets[0]);
    if (!index) return std::nullopt;
    Light light = set.lights[*index];
    if (!as_in_catalogue(light, steps.value()[1].field, steps.value()[2].field))
        return std::nullopt;
    const Json document = light_to_json(light);
    const Json* at = &document;
    for (std::size_t i = 1; i < steps.value().size(); ++i) {
        const PathStep& step = steps.value()[i];
        if (!step.brackets.empty() || !at->is_object() || !at->contains(step.field))
            return std::nullopt;
        at = &(*at)[step.field];
    }
    return at->is_number() ? std::optional(at->get<double>()) : std::nullopt;
}

} // namespace keystead::ui
