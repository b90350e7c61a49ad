#include "sim/set/set_reader.h"

#include "sim/base/text.h"

#include <algorithm>

namespace keystead {

std::string listed(std::span<const char* const> words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) text += i + 1 == words.size() ? " or " : ", ";
        text += words[i];
    }
    return text;
}

void Reader::header() {
    known_.emplace_back("format");
    known_.emplace_back("version");
    const auto format = object_.find("format");
    if (format == object_.end())
        return state_.refuse("format", "",
                             "is missing; a set file says \"format\": \"keystead-set\"");
    if (*format != "keystead-set")
        return state_.refuse("format", brief_json(*format), "is not \"keystead-set\"");
    const auto version = object_.find("version");
    if (version == object_.end())
        return state_.refuse("version", "",
                             "is missing; this Keystead writes version " +
                                 std::to_string(set_version));
    if (!version->is_number_integer() || *version < 1)
        return state_.refuse("version", brief_json(*version), "is not a whole number from 1");
    if (*version > set_version)
        return state_.refuse("version", brief_json(*version),
                             "is newer than " + std::to_string(set_version) +
                                 "; this file needs a newer Keystead");
}

namespace {

/// How many containers stand within each other in `value`.
int depth_of(const Json& value) {
    int deepest = 0;
    if (value.is_structured())
        for (const Json& inner : value) deepest = std::max(deepest, depth_of(inner));
    return deepest + (value.is_structured() ? 1 : 0);
}

/// Containers round the fields of the object at `path`.
int depth_at(const std::string& path) {
    const auto deeper = [](char c) { return c == '.' || c == '['; };
    return 1 + (path.empty() ? 0 : 1) +
           static_cast<int>(std::count_if(path.begin(), path.end(), deeper));
}

} // namespace

void Reader::extras(Extras& extras) {
    if (state_.problem) return;
    // What an edit or a fuller text of the known fields adds must not make the set unreadable.
    if (object_.size() > known_.size() + json_max_unknown)
        return state_.refuse(path_.empty() ? "the set" : path_, "",
                             "has more than " + std::to_string(json_max_unknown) +
                                 " fields that this version does not know");
    for (const auto& item : object_.items()) {
        if (std::find(known_.begin(), known_.end(), item.key()) != known_.end()) continue;
        const std::string name = one_line(item.key(), 60);
        const std::string path = path_.empty() ? name : path_ + "." + name;
        if (depth_at(path_) + depth_of(item.value()) > json_max_depth)
            return state_.refuse(path, "",
                                 "is nested deeper than " + std::to_string(json_max_depth) +
                                     " levels of the set");
        state_.notes.push_back({path, "", "is not a field this version knows; it is kept"});
        extras.emplace_back(item.key(), item.value().dump());
    }
}

void Reader::read(const Json& json, const std::string& path, double& value) {
    if (!json.is_number()) return state_.refuse(path, brief_json(json), "is not a number");
    value = json.get<double>();
}

void Reader::read(const Json& json, const std::string& path, int& value) {
    const bool whole = json.is_number() && std::floor(json.get<double>()) == json.get<double>() &&
                       std::abs(json.get<double>()) < 1e9;
    if (!whole) return state_.refuse(path, brief_json(json), "is not a whole number");
    value = static_cast<int>(json.get<double>());
}

void Reader::read(const Json& json, const std::string& path, bool& value) {
    if (!json.is_boolean()) return state_.refuse(path, brief_json(json), "is not true or false");
    value = json.get<bool>();
}

void Reader::read(const Json& json, const std::string& path, std::string& value) {
    if (!json.is_string()) return state_.refuse(path, brief_json(json), "is not a text");
    value = json.get<std::string>();
}

bool Reader::read_numbers(const Json& json, const std::string& path, std::span<double> values) {
    if (!json.is_array() || json.size() != values.size()) {
        state_.refuse(path, brief_json(json),
                      "is not a list of " + std::to_string(values.size()) + " numbers");
        return false;
    }
    for (std::size_t i = 0; i < values.size(); ++i)
        read(json[i], path + "[" + std::to_string(i) + "]", values[i]);
    return !state_.problem;
}

void Reader::read(const Json& json, const std::string& path, Vec2& value) {
    double numbers[2] = {};
    if (read_numbers(json, path, numbers)) value = {numbers[0], numbers[1]};
}

void Reader::read(const Json& json, const std::string& path, Vec3& value) {
    double numbers[3] = {};
    if (read_numbers(json, path, numbers)) value = {numbers[0], numbers[1], numbers[2]};
}

void Reader::read(const Json& json, const std::string& path, Reflectance& value) {
    if (json.is_number()) {
        value.rgb = Vec3(json.get<double>());
    } else if (json.is_array() && json.size() == 3) {
        read(json, path, value.rgb);
    } else {
        state_.refuse(path, brief_json(json), "is not a reflectance: one number, or [r, g, b]");
    }
}

int Reader::read_word(const Json& json, const std::string& path,
                      std::span<const char* const> words) {
    if (json.is_string())
        for (std::size_t i = 0; i < words.size(); ++i)
            if (json.get<std::string>() == words[i]) return static_cast<int>(i);
    state_.refuse(path, brief_json(json), "is not one of " + listed(words));
    return -1;
}

} // namespace keystead
