#include "engine/edit/command.h"

#include "engine/edit/document_path.h"
#include "engine/edit/new_light.h"

#include <algorithm>

namespace keystead {

namespace {

/// Changes the document; it is read and validated as a whole afterwards.
struct Editor {
    Json& document;

    Outcome operator()(const SetValue& command) const {
        const Result<Json> value = parse_json(command.value);
        if (!value)
            return Problem{command.path, command.value.substr(0, 40), value.problem().allowed};
        return put_value(document, command.path, value.value());
    }

    Outcome operator()(const AddLight& command) const {
        Result<Light> light = new_light(document, command);
        if (!light) return light.problem();
        document["lights"].push_back(light_to_json(light.value()));
        return {};
    }

    Outcome operator()(const RemoveLight& command) const {
        Json& lights = document["lights"];
        const auto found = std::find_if(lights.begin(), lights.end(), [&](const Json& light) {
            return light.value("id", "") == command.id;
        });
        if (found == lights.end())
            return Problem{"lights[" + command.id + "]", "", "is not in the set"};
        lights.erase(found);
        return {};
    }

    Outcome operator()(const Batch& batch) const {
        for (const Command& command : batch.commands)
            if (Outcome problem = std::visit(*this, command)) return problem;
        return {};
    }
};

} // namespace

Result<Set> apply(const Set& set, const Command& command) {
    Json document = set_to_json(set);
    if (Outcome problem = std::visit(Editor{document}, command)) return *problem;
    Result<LoadedSet> changed = set_from_json(document);
    if (changed) return std::move(changed).value().set;
    Problem problem = changed.problem();
    problem.path = with_ids(problem.path, document);
    return problem;
}

} // namespace keystead
