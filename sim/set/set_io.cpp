#include "sim/set/set_io.h"

#include "sim/set/set_checker.h"
#include "sim/set/set_reader.h"
#include "sim/set/set_rules.h"
#include "sim/set/set_writer.h"

namespace keystead {

Result<LoadedSet> parse_set(std::string_view json_text) {
    const Result<Json> json = parse_json(json_text);
    if (!json) return json.problem();
    if (!json.value().is_object())
        return Problem{"", brief_json(json.value()), "is not a set: an object {...} is needed"};
    LoadedSet loaded;
    ReadState state;
    state.gear = &catalogue();
    if (const Outcome broken = catalogue_problem()) state.notes.push_back(*broken);
    read_struct(json.value(), "", loaded.set, state);
    if (state.problem) return *state.problem;
    if (Outcome problem = validate(loaded.set)) return *problem;
    loaded.notes = std::move(state.notes);
    return loaded;
}

std::string write_set(const Set& set) {
    return print_json(Writer::object_of(set));
}

Outcome validate(const Set& set) {
    // Rules between fields come first: "above this arm's 1.2" says more than the general range.
    if (Outcome problem = Checker::first_problem(set)) {
        const Outcome rule = cross_field_rules(set);
        return rule && rule->path == problem->path ? rule : problem;
    }
    return cross_field_rules(set);
}

} // namespace keystead
