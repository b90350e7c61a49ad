#include "engine/ui/settings.h"

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
    const Json json = in ? Json::parse(in, nullptr, false) : Json();
    if (!json.is_object()) return settings;
    if (word(json, "theme") == "light") settings.theme = ThemeKind::light;
    for (int i = 0; i < 4; ++i)
        if (word(json, "surround") == surround_words[i])
            settings.surround = static_cast<Surround>(i);
    if (json.contains("arrangement") && json["arrangement"].is_number_integer())
        settings.arrangement = std::clamp(json["arrangement"].get<int>(), 0, 3);
    settings.learn = json.contains("learn") && json["learn"] == true;
    if (json.contains("splits") && json["splits"].is_array())
        for (std::size_t i = 0; i < std::min<std::size_t>(3, json["splits"].size()); ++i)
            settings.splits[i] = {fraction(json["splits"][i], "main"),
                                  fraction(json["splits"][i], "cross")};
    if (json.contains("recent") && json["recent"].is_array())
        for (const Json& each : json["recent"])
            if (each.is_string() && settings.recent.size() < remembered_files)
                settings.recent.emplace_back(each.get<std::string>());
    return settings;
}

void save_settings(const Settings& settings, const std::filesystem::path& file) {
    if (file.empty()) return;
    Json json;
    json["theme"] = settings.theme == ThemeKind::light ? "light" : "dark";
    json["surround"] = surround_words[static_cast<int>(settings.surround)];
    json["arrangement"] = settings.arrangement;
    json["learn"] = settings.learn;
    for (const Splits& each : settings.splits) {
        Json pair = Json::object();
        if (each.main) pair["main"] = *each.main;
        if (each.cross) pair["cross"] = *each.cross;
        json["splits"].push_back(pair);
    }
    json["recent"] = Json::array();
    for (const auto& each : settings.recent) json["recent"].push_back(each.string());
    std::error_code error;
    std::filesystem::create_directories(file.parent_path(), error);
    std::ofstream out(file);
    if (out) out << json.dump(2) << "\n";
}

void remember_file(Settings& settings, const std::filesystem::path& file) {
    std::error_code error;
    const std::filesystem::path whole = std::filesystem::absolute(file, error);
    std::erase(settings.recent, whole);
    settings.recent.insert(settings.recent.begin(), whole);
    if (settings.recent.size() > remembered_files) settings.recent.resize(remembered_files);
}

} // namespace keystead::ui
