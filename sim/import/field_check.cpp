#include "sim/import/field_check.h"

#include <cmath>
#include <limits>

namespace keystead::importing {

using nlohmann::json;

namespace {

/// Doubles hold whole numbers exactly up to here; glTF 2.0 §2.7 bounds integers by it.
constexpr double largest_exact = 9007199254740992.0;

std::optional<std::size_t> whole_number(const json& value) {
    if (value.is_number_unsigned()) return value.get<std::size_t>();
    // `3.0` is a legal way to write 3 (§2.7).
    if (!value.is_number_float()) return std::nullopt;
    const double real = value.get<double>();
    if (!(real >= 0.0 && real <= largest_exact) || real != std::floor(real)) return std::nullopt;
    return static_cast<std::size_t>(real);
}

std::string written(const json& value) {
    return in_quotes(value.dump(-1, ' ', false, json::error_handler_t::replace));
}

} // namespace

std::optional<std::size_t> FieldCheck::whole(const json& object, const char* key,
                                             const std::string& place, std::size_t most,
                                             bool required) {
    const auto found = object.find(key);
    if (found == object.end()) {
        if (required) damaged(place, std::string(key) + " is missing");
        return std::nullopt;
    }
    const std::optional<std::size_t> number = whole_number(*found);
    if (number && *number <= most) return number;
    damaged(place + "." + key, number
                                   ? std::to_string(*number) + " is above " + std::to_string(most)
                                   : written(*found) + " is not a whole number");
    return std::nullopt;
}

std::optional<std::size_t> FieldCheck::index(const json& object, const char* key,
                                             const std::string& place, std::size_t count,
                                             bool required) {
    const std::optional<std::size_t> number =
        whole(object, key, place, std::numeric_limits<std::size_t>::max(), required);
    if (!number || *number < count) return number;
    damaged(place + "." + key,
            std::to_string(*number) + " points beyond a list of " + std::to_string(count));
    return std::nullopt;
}

std::vector<std::size_t> FieldCheck::indices(const json& object, const char* key,
                                             const std::string& place, std::size_t count) {
    const auto found = object.find(key);
    if (found == object.end()) return {};
    if (!found->is_array()) {
        damaged(place + "." + key, "it is not a list");
        return {};
    }
    std::vector<std::size_t> list;
    for (const json& item : *found) {
        const std::optional<std::size_t> number = whole_number(item);
        if (!number || *number >= count) {
            damaged(place + "." + key,
                    written(item) + " points beyond a list of " + std::to_string(count));
            return {};
        }
        list.push_back(*number);
    }
    return list;
}

std::vector<double> FieldCheck::numbers(const json& object, const char* key,
                                        const std::string& place, std::size_t count) {
    const auto found = object.find(key);
    if (found == object.end()) return {};
    if (!found->is_array() || found->size() != count) {
        damaged(place + "." + key, "it is not a list of " + std::to_string(count) + " numbers");
        return {};
    }
    std::vector<double> list;
    for (const json& item : *found) {
        const double number = item.is_number() ? item.get<double>() : std::nan("");
        if (!(std::abs(number) <= static_cast<double>(std::numeric_limits<float>::max()))) {
            damaged(place + "." + key, written(item) + " is not a usable number");
            return {};
        }
        list.push_back(number);
    }
    return list;
}

const json& FieldCheck::objects(const json& root, const char* key) {
    static const json none = json::array();
    const auto found = root.find(key);
    if (found == root.end()) return none;
    if (!found->is_array()) {
        damaged(key, "it is not a list");
        return none;
    }
    for (std::size_t i = 0; i < found->size(); ++i)
        if (!(*found)[i].is_object()) {
            damaged(at(key, i), "it is not an object");
            return none;
        }
    return *found;
}

} // namespace keystead::importing
