#include "engine/edit/command.h"

#include "engine/edit/document_path.h"
#include "engine/edit/new_light.h"
#include "sim/base/text.h"

#include <algorithm>

namespace keystead {

namespace {

/// Changes the document; it is read and validated as a whole afterwards.
struct Editor {
    Json& document;

    Outcome operator()(const SetValue& command) const {
        const auto steps = parse_path(command.path);
        if (!steps) return steps.problem();
        const Result<Json> value = parse_json(command.value);
        if (!value)
            return Problem{command.path, one_line(command.value, 40), value.problem().allowed};
        return put_value(document, command.path, value.value());
    }

    Outcome operator()(const AddLight& command) const {
        if (Outcome problem = lights_missing()) return problem;
        Result<Light> light = new_light(document, command);
        if (!light) return light.problem();
        document["lights"].push_back(light_to_json(light.value()));
        return {};
    }

    Outcome operator()(const RemoveLight& command) const {
        if (Outcome problem = lights_missing()) return problem;
        Json& lights = document["lights"];
        const auto found = std::find_if(lights.begin(), lights.end(), [&](const Json& light) {
            return light.is_object() && id_of(light) == command.id;
        });
        if (found == lights.end())
            return Problem{"lights[" + one_line(command.id, 64) + "]", "", "is not in the set"};
        lights.erase(found);
        return {};
    }

    Outcome operator()(const Batch& batch) const {
        for (const Command& command : batch.commands)
            if (Outcome problem = std::visit(*this, command)) return problem;
        return {};
    }

    /// An earlier step of a batch may have put anything in their place.
    Outcome lights_missing() const {
        if (document["lights"].is_array()) return {};
        return Problem{"lights", brief_json(document["lights"]), "is not a list"};
    }
};

/// Batches within each other; a journal's line must stay readable.
int depth_of(const Command& command) {
    const auto* batch = std::get_if<Batch>(&command);
    if (batch == nullptr) return 0;
    int deepest = 0;
    for (const Command& inner : batch->commands) deepest = std::max(deepest, depth_of(inner));
    return deepest + 1;
}

} // namespace

Result<Set> apply(const Set& set, const Command& command) {
    // Each is an object and a list of the journal's text, as is a drag around them; a value has its
    // own depth below.
    constexpr int most_batches = 8;
    if (depth_of(command) > most_batches)
        return Problem{"batch", "", "holds more than 8 batches within each other"};
    Json document = set_to_json(set);
    if (Outcome problem = std::visit(Editor{document}, command)) return *problem;
    Result<LoadedSet> changed = set_from_json(document);
    if (changed) return std::move(changed).value().set;
    Problem problem = changed.problem();
    problem.path = with_ids(problem.path, document);
    return problem;
}

} // namespace keystead
