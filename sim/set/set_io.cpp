#include "sim/set/set_io.h"

#include "sim/set/set_checker.h"
#include "sim/set/set_json.h"
#include "sim/set/set_reader.h"
#include "sim/set/set_rules.h"
#include "sim/set/set_writer.h"

namespace keystead {

namespace {

/// The archive that only takes the names down.
struct NameList {
    std::vector<std::string> names;
    void header() {}
    void extras(const Extras& /*extras*/) {}
    void field(const char* name, const auto& /*value*/, const Rule&, const char* /*about*/) {
        names.emplace_back(name);
    }
};

} // namespace

Result<LoadedSet> parse_set(std::string_view json_text) {
    const Result<Json> json = parse_json(json_text);
    if (!json) return json.problem();
    return set_from_json(json.value());
}

Result<LoadedSet> set_from_json(const Json& json) {
    if (!json.is_object())
        return Problem{"", brief_json(json), "is not a set: an object {...} is needed"};
    LoadedSet loaded;
    ReadState state;
    state.gear = &catalogue();
    if (const Outcome broken = catalogue_problem()) state.notes.push_back(*broken);
    read_struct(json, "", loaded.set, state);
    if (state.problem) return *state.problem;
    if (Outcome problem = validate(loaded.set)) return *problem;
    loaded.notes = std::move(state.notes);
    return loaded;
}

std::string write_set(const Set& set) {
    return print_json(Writer::object_of(set));
}

Json set_to_json(const Set& set) {
    return Writer::object_of(set);
}

Json light_to_json(const Light& light) {
    return Writer::object_of(light);
}

std::vector<std::string> proportion_names() {
    NameList list;
    const Proportions plain;
    FieldList<Proportions>::list(list, plain);
    return list.names;
}

Outcome validate(const Set& set) {
    // A rule between fields says more than the general range of the same field.
    const Outcome rule = cross_field_rules(set);
    const Outcome range = Checker::first_problem(set);
    return range && !(rule && rule->path == range->path) ? range : rule;
}

} // namespace keystead
