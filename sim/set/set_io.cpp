#include "sim/set/set_io.h"

#include "sim/set/set_checker.h"
#include "sim/set/set_json.h"
#include "sim/set/set_reader.h"
#include "sim/set/set_rules.h"
#include "sim/set/set_writer.h"

#include <set>

namespace keystead {

namespace {

/// The archive that finds the fields the writer leaves out: a struct's name before each.
class LeftOut {
public:
    template <Listed T>
    static void find(std::set<std::string>& names, const T& value) {
        LeftOut archive(names, FieldList<T>::name);
        FieldList<T>::list(archive, value);
    }

    void header() {}
    void extras(const Extras& /*extras*/) {}
    template <class T>
    void field(const char* name, const T& value, const Rule& /*rule*/, const char* /*about*/) {
        look(name, value);
    }

private:
    LeftOut(std::set<std::string>& names, std::string owner)
        : names_(names)
        , owner_(std::move(owner)) {}

    template <class T>
    void look(const char* name, const std::optional<T>&) {
        if constexpr (Listed<T>)
            find(names_, T{});
        else
            names_.insert(owner_ + "." + name);
    }
    template <class T>
    void look(const char*, const std::vector<T>&) {
        find(names_, T{});
    }
    template <class T>
    void look(const char*, const T& value) {
        if constexpr (Listed<T>) find(names_, value);
    }

    std::set<std::string>& names_;
    std::string owner_;
};

/// What unknown fields make of the text could be more than is read again.
Outcome too_long_to_read(const LoadedSet& loaded) {
    if (loaded.notes.empty() || write_set(loaded.set).size() <= json_max_bytes) return {};
    return Problem{loaded.notes.front().path, "", "makes the set's text longer than 16 MiB"};
}

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
    if (Outcome problem = too_long_to_read(loaded)) return *problem;
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

bool may_be_left_out(std::string_view owner, std::string_view field) {
    static const std::set<std::string> names = [] {
        std::set<std::string> found;
        LeftOut::find(found, Set{});
        return found;
    }();
    return names.contains(std::string(owner) + "." + std::string(field));
}

Outcome validate(const Set& set) {
    // A rule between fields says more than the general range of the same field.
    const Outcome rule = cross_field_rules(set);
    const Outcome range = Checker::first_problem(set);
    return range && !(rule && rule->path == range->path) ? range : rule;
}

} // namespace keystead
