#include "engine/ui/settings.h"

#include "engine/ui/size_slider.h"
#include "sim/base/safe_file.h"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>

namespace keystead::ui {

namespace {

using Json = nlohmann::json;

constexpr std::size_t remembered_files = 8;
constexpr const char* surround_words[] = {"theme", "dark", "middle", "light"};

std::optional<float> fraction(const Json& json, const char* name) {
    if (!json.is_object() || !json.contains(name) || !json[name].is_number()) return std::nullopt;
    const auto value = json[name].get<float>();
    return value > 0.02F && value < 0.98F ? std::optional(value) : std::nullopt;
}

std::string word(const Json& json, const char* name) {
    return json.contains(name) && json[name].is_string() ? json[name].get<std::string>()
                                                         : std::string();
}

std::vector<SeenOfSet> seen_from(const Json& json) {
    std::vector<SeenOfSet> all;
    if (!json.contains("seen") || !json["seen"].is_array()) return all;
    for (const Json& entry : json["seen"]) {
        if (!entry.is_object() || all.size() >= most_seen_sets) continue;
        SeenOfSet set{word(entry, "file"), {}};
        if (entry.contains("notes") && entry["notes"].is_array())
            for (const Json& note : entry["notes"])
                if (note.is_object())
                    set.notes.push_back(
                        {word(note, "code"), word(note, "about"), word(note, "words")});
        if (!set.file.empty() && !set.notes.empty()) all.push_back(std::move(set));
    }
    return all;
}

/// A set without a file is gone with the window.
Json seen_to(const std::vector<SeenOfSet>& all) {
    Json list = Json::array();
    for (const SeenOfSet& set : all) {
        if (set.file.empty()) continue;
        Json notes = Json::array();
        for (const SeenNote& note : set.notes)
            notes.push_back({{"code", note.code}, {"about", note.about}, {"words", note.words}});
        list.push_back({{"file", set.file}, {"notes", std::move(notes)}});
    }
    return list;
}

} // namespace

std::filesystem::path settings_file() {
    if (const char* config = std::getenv("XDG_CONFIG_HOME"); config != nullptr && *config != 0)
        return std::filesystem::path(config) / "keystead" / "window.json";
    if (const char* home = std::getenv("HOME"); home != nullptr && *home != 0)
        return std::filesystem::path(home) / ".config" / "keystead" / "window.json";
    return {};
}

Settings load_settings(const std::filesystem::path& file) {
    Settings settings;
    std::ifstream in(file);
    if (!in) settings.hints_done = 0;
    const Json json = in ? Json::parse(in, nullptr, false) : Json();
    if (!json.is_object()) return settings;
    if (word(json, "theme") == "light") settings.theme = ThemeKind::light;
    for (int i = 0; i < 4; ++i)
        if (word(json, "surround") == surround_words[i])
            settings.surround = static_cast<Surround>(i);
    if (json.contains("arrangement") && json["arrangement"].is_number_integer())
        settings.arrangement = std::clamp(json["arrangement"].get<int>(), 0, 3);
    if (word(json, "units") == "imperial") settings.units = Units::imperial;
    settings.learn = json.contains("learn") && json["learn"] == true;
    if (json.contains("splits") && json["splits"].is_array())
        for (std::size_t i = 0; i < std::min<std::size_t>(3, json["splits"].size()); ++i)
            settings.splits[i] = {fraction(json["splits"][i], "main"),
                                  fraction(json["splits"][i], "cross")};
    if (json.contains("recent") && json["recent"].is_array())
        for (const Json& each : json["recent"])
            if (each.is_string() && settings.recent.size() < remembered_files)
                settings.recent.emplace_back(each.get<std::string>());
    settings.seen = seen_from(json);
    if (json.contains("size_percent") && json["size_percent"].is_number_integer())
        settings.size_percent = std::clamp(json["size_percent"].get<int>(), smallest_size_percent,
                                           largest_size_percent);
    if (json.contains("hints_done") && json["hints_done"].is_number_unsigned())
        settings.hints_done = json["hints_done"].get<unsigned>() & all_hints;
    return settings;
}

void save_settings(const Settings& settings, const std::filesystem::path& file) {
    if (file.empty()) return;
    Json json;
    json["theme"] = settings.theme == ThemeKind::light ? "light" : "dark";
    json["surround"] = surround_words[static_cast<int>(settings.surround)];
    json["arrangement"] = settings.arrangement;
    json["units"] = settings.units == Units::imperial ? "imperial" : "metric";
    json["learn"] = settings.learn;
    for (const Splits& each : settings.splits) {
        Json pair = Json::object();
        if (each.main) pair["main"] = *each.main;
        if (each.cross) pair["cross"] = *each.cross;
        json["splits"].push_back(pair);
    }
    json["recent"] = Json::array();
    for (const auto& each : settings.recent) json["recent"].push_back(each.string());
    json["seen"] = seen_to(settings.seen);
    json["size_percent"] = settings.size_percent;
    json["hints_done"] = settings.hints_done;
    std::error_code error;
    std::filesystem::create_directories(file.parent_path(), error);
    // Names of files need not be UTF-8.
    const std::string text = json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
    (void)write_safely(file, text, Previous::dropped);
}

void remember_file(Settings& settings, const std::filesystem::path& file) {
    std::error_code error;
    const std::filesystem::path whole = std::filesystem::absolute(file, error);
    std::erase(settings.recent, whole);
    settings.recent.insert(settings.recent.begin(), whole);
    if (settings.recent.size() > remembered_files) settings.recent.resize(remembered_files);
}

} // namespace keystead::ui
