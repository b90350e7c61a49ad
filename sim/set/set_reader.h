// The archive that fills a listed struct from JSON: checks types and words, starts gear from the
// catalogue, keeps unknown fields. Ranges are checked afterwards by the checker.
#pragma once

#include "sim/set/catalogue.h"
#include "sim/set/fields.h"
#include "sim/set/json_text.h"

#include <cmath>
#include <optional>
#include <string>
#include <vector>

namespace keystead {

/// What the readers of one document share. The first problem stops all further reading.
struct ReadState {
    const Catalogue* gear = nullptr; ///< where `from` is looked up; null: nowhere
    std::optional<Problem> problem;
    std::vector<Problem> notes;

    void refuse(std::string path, std::string found, std::string allowed) {
        if (!problem) problem = Problem{std::move(path), std::move(found), std::move(allowed)};
    }
};

/// "a, b or c".
std::string listed(std::span<const char* const> words);
/// The catalogue's ids for that kind of gear, for messages.
template <class T>
const std::vector<CatalogueEntry<T>>& entries_of(const Catalogue& catalogue) {
    if constexpr (std::same_as<T, Support>)
        return catalogue.supports;
    else if constexpr (std::same_as<T, Arm>)
        return catalogue.arms;
    else if constexpr (std::same_as<T, Counterweight>)
        return catalogue.counterweights;
    else if constexpr (std::same_as<T, Bag>)
        return catalogue.bags;
    else if constexpr (std::same_as<T, Head>)
        return catalogue.heads;
    else if constexpr (std::same_as<T, Modifier>)
        return catalogue.modifiers;
    else
        return catalogue.grids;
}

template <Listed T>
void read_struct(const Json& json, const std::string& path, T& value, ReadState& state);

class Reader {
public:
    Reader(const Json& object, std::string path, ReadState& state)
        : object_(object)
        , path_(std::move(path))
        , state_(state) {}

    void header();

    template <class T>
    void field(const char* name, T& value, const Rule& /*rule*/, const char* /*about*/) {
        known_.emplace_back(name);
        if (state_.problem) return;
        const auto found = object_.find(name);
        if (found == object_.end()) {
            if (first_missing_.empty() && needed(value)) first_missing_ = name;
            return;
        }
        read(*found, path_.empty() ? name : path_ + "." + name, value);
    }

    void extras(Extras& extras);

    /// The first field without a default of its own that the file leaves out; empty when none.
    const std::string& first_missing() const { return first_missing_; }

private:
    template <class T>
    static constexpr bool needed(const std::optional<T>& /*value*/) {
        return false;
    }
    static constexpr bool needed(const std::string& /*value*/) { return false; }
    template <class T>
    static constexpr bool needed(const T& /*value*/) {
        return true;
    }

    void read(const Json& json, const std::string& path, double& value);
    void read(const Json& json, const std::string& path, int& value);
    void read(const Json& json, const std::string& path, bool& value);
    void read(const Json& json, const std::string& path, std::string& value);
    void read(const Json& json, const std::string& path, Vec2& value);
    void read(const Json& json, const std::string& path, Vec3& value);
    void read(const Json& json, const std::string& path, Reflectance& value);
    int read_word(const Json& json, const std::string& path, std::span<const char* const> words);
    bool read_numbers(const Json& json, const std::string& path, std::span<double> values);

    template <class E>
    requires std::is_enum_v<E>
    void read(const Json& json, const std::string& path, E& value) {
        const int index = read_word(json, path, EnumWords<E>::words);
        if (index >= 0) value = static_cast<E>(index);
    }

    template <Listed T>
    void read(const Json& json, const std::string& path, T& value) {
        read_struct(json, path, value, state_);
    }

    template <class T>
    void read(const Json& json, const std::string& path, std::optional<T>& value) {
        if (json.is_null()) {
            value.reset();
            return;
        }
        // Present gear is changed in place: `"arm": {"reach_m": 0.9}` keeps the rest of the arm.
        if (!value) value.emplace();
        read(json, path, *value);
    }

    template <class T>
    void read(const Json& json, const std::string& path, std::vector<T>& values) {
        if (!json.is_array()) return state_.refuse(path, brief_json(json), "is not a list");
        if (json.size() > 4096)
            return state_.refuse(path, std::to_string(json.size()) + " entries", "are too many");
        values.assign(json.size(), T{});
        for (std::size_t i = 0; i < values.size(); ++i)
            read(json[i], path + "[" + std::to_string(i) + "]", values[i]);
    }

    const Json& object_;
    std::string path_;
    ReadState& state_;
    std::vector<std::string> known_;
    std::string first_missing_;
};

/// Puts the catalogue's values under the fields the file gives. Returns false for an unknown id.
template <Gear T>
bool start_from_catalogue(const Json& json, T& value, const Catalogue* gear) {
    const auto from = json.find("from");
    if (from == json.end() || !from->is_string() || from->template get<std::string>().empty())
        return true;
    if (gear == nullptr) return false;
    const auto* entry = find_entry(entries_of<T>(*gear), from->template get<std::string>());
    if (entry == nullptr) return false;
    value = entry->value;
    return true;
}

template <Gear T>
void check_unknown_gear(const Json& json, const std::string& path, const std::string& missing,
                        ReadState& state) {
    if (missing.empty()) {
        state.notes.push_back({path + ".from", brief_json(json["from"]),
                               "is not in this catalogue; the file's own values are used"});
        return;
    }
    std::string ids;
    if (state.gear != nullptr)
        for (const auto& entry : entries_of<T>(*state.gear))
            ids += (ids.empty() ? "" : ", ") + entry.id;
    state.refuse(path + ".from", brief_json(json["from"]),
                 "is not in the catalogue (" + ids + "), and " + missing + " is not given");
}

template <Listed T>
void read_struct(const Json& json, const std::string& path, T& value, ReadState& state) {
    if (state.problem) return;
    if (!json.is_object()) return state.refuse(path, brief_json(json), "is not an object {...}");
    bool known = true;
    if constexpr (Gear<T>) known = start_from_catalogue(json, value, state.gear);
    Reader reader(json, path, state);
    FieldList<T>::list(reader, value);
    if constexpr (Gear<T>)
        if (!known && !state.problem)
            check_unknown_gear<T>(json, path, reader.first_missing(), state);
}

} // namespace keystead
