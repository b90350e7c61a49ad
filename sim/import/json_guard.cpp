#include "sim/import/json_guard.h"

#include <algorithm>

namespace keystead::importing {

JsonExtent scan_json(std::string_view text) {
    JsonExtent extent{0, 1};
    std::uint64_t depth = 0;
    bool in_string = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (in_string) {
            if (c == '\\')
                ++i;
            else if (c == '"')
                in_string = false;
            continue;
        }
        if (c == '"') in_string = true;
        if (c == '{' || c == '[') extent.depth = std::max(extent.depth, ++depth);
        if ((c == '}' || c == ']') && depth > 0) --depth;
        if (c == ',' || c == '{' || c == '[') ++extent.values;
    }
    return extent;
}

Result<nlohmann::json> parse_guarded(std::string_view text, const ImportLimits& limits,
                                     const Blame& blame) {
    const JsonExtent extent = scan_json(text);
    if (extent.depth > limits.max_json_depth)
        return blame.problem("JSON",
                             "it nests " + std::to_string(extent.depth) + " levels, the limit is " +
                                 std::to_string(limits.max_json_depth),
                             "export without extras and extensions");
    if (extent.values > limits.max_json_values)
        return blame.problem(
            "JSON", "it holds more than " + std::to_string(limits.max_json_values) + " values",
            "export with binary buffers, without extras");
    try {
        nlohmann::json document = nlohmann::json::parse(text);
        if (!document.is_object()) return blame.damaged("JSON", "its root is not an object");
        return document;
    } catch (const nlohmann::json::parse_error& error) {
        return blame.damaged("JSON byte " + std::to_string(error.byte), "this is not valid JSON");
    } catch (const nlohmann::json::exception&) {
        return blame.damaged("JSON", "a number in it is out of range");
    }
}

} // namespace keystead::importing
