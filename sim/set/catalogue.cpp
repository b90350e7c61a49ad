#include "sim/set/catalogue.h"

#include "sim/set/set_checker.h"
#include "sim/set/set_reader.h"
#include "sim/set/set_rules.h"

#include <fstream>
#include <sstream>

namespace keystead {

namespace {

template <class T>
Outcome entry_rules(const T& value, const std::string& path) {
    if (Outcome problem = Checker::first_problem(value, path)) return problem;
    if constexpr (std::same_as<T, Support>) return support_rules(value, path);
    if constexpr (std::same_as<T, Modifier>) return modifier_rules(value, path);
    if constexpr (std::same_as<T, Head>) return head_rules(value, path);
    return {};
}

std::string text_of(const Json& entry, const char* name, const std::string& path,
                    ReadState& state) {
    const auto found = entry.find(name);
    if (found == entry.end() || !found->is_string() || found->get<std::string>().empty()) {
        state.refuse(path + "." + name, "", "is missing");
        return {};
    }
    return found->get<std::string>();
}

template <class T>
void read_entry(const Json& json, const std::string& path, std::vector<CatalogueEntry<T>>& entries,
                ReadState& state) {
    if (!json.is_object()) return state.refuse(path, brief_json(json), "is not an object {...}");
    CatalogueEntry<T> entry;
    entry.id = text_of(json, "id", path, state);
    entry.name = text_of(json, "name", path, state);
    entry.source = text_of(json, "source", path, state);
    if (!json.contains("value")) state.refuse(path + ".value", "", "is missing");
    if (state.problem) return;
    if (find_entry(entries, entry.id) != nullptr)
        return state.refuse(path + ".id", brief_json(entry.id), "is already taken");
    read_struct(json["value"], path + ".value", entry.value, state);
    if (!state.problem && !state.notes.empty()) state.problem = state.notes.front();
    if (!state.problem) state.problem = entry_rules(entry.value, path + ".value");
    entry.value.from = entry.id;
    entries.push_back(std::move(entry));
}

template <class T>
void read_section(const Json& root, const char* name, std::vector<CatalogueEntry<T>>& entries,
                  ReadState& state) {
    const auto section = root.find(name);
    if (section == root.end() || !section->is_array())
        return state.refuse(name, "", "is missing or not a list");
    for (std::size_t i = 0; i < section->size() && !state.problem; ++i)
        read_entry((*section)[i], std::string(name) + "[" + std::to_string(i) + "]", entries,
                   state);
}

struct OwnCatalogue {
    Catalogue catalogue;
    Outcome problem;
};

const OwnCatalogue& own_catalogue() {
    static const OwnCatalogue own = [] {
        OwnCatalogue read;
        Result<Catalogue> loaded = load_catalogue(assets_folder() / "catalogue.json");
        if (loaded)
            read.catalogue = std::move(loaded).value();
        else
            read.problem = loaded.problem();
        return read;
    }();
    return own;
}

} // namespace

Result<Catalogue> load_catalogue(const std::filesystem::path& file) {
    std::ifstream stream(file, std::ios::binary);
    if (!stream) return Problem{file.string(), "", "cannot be read"};
    std::ostringstream text;
    text << stream.rdbuf();
    const Result<Json> json = parse_json(text.str());
    ReadState state;
    Catalogue read;
    if (!json) {
        state.problem = json.problem();
    } else {
        // Small parts first: supports and modifiers may name arms and grids from this same file.
        state.gear = &read;
        read_section(json.value(), "counterweights", read.counterweights, state);
        read_section(json.value(), "bags", read.bags, state);
        read_section(json.value(), "grids", read.grids, state);
        read_section(json.value(), "arms", read.arms, state);
        read_section(json.value(), "heads", read.heads, state);
        read_section(json.value(), "modifiers", read.modifiers, state);
        read_section(json.value(), "supports", read.supports, state);
    }
    if (!state.problem) return read;
    state.problem->path = file.string() + ": " + state.problem->path;
    return *state.problem;
}

const Catalogue& catalogue() {
    return own_catalogue().catalogue;
}

Outcome catalogue_problem() {
    return own_catalogue().problem;
}

} // namespace keystead
