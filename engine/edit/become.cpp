#include "engine/edit/become.h"

#include "sim/set/set_json.h"

namespace keystead {

Batch become(const Set& now, const Set& wanted, std::string label) {
    const Json from = set_to_json(now), to = set_to_json(wanted);
    Batch batch{std::move(label), {}};
    for (const auto& [name, value] : to.items())
        if (!from.contains(name) || from[name] != value)
            batch.commands.emplace_back(SetValue{name, value.dump()});
    for (const auto& [name, value] : from.items())
        if (!to.contains(name)) batch.commands.emplace_back(SetValue{name, "null"});
    return batch;
}

} // namespace keystead
