// Values for fields of the document, right and wrong ones, made from the document's own schema.
#pragma once

#include "sim/set/catalogue.h"
#include "sim/set/json_text.h"
#include "sim/set/set_schema.h"

#include <algorithm>
#include <array>
#include <random>
#include <string>

namespace keystead::testing {

/// The same numbers from the same seed with every standard library, unlike its distributions.
class Dice {
public:
    explicit Dice(std::uint64_t seed)
        : engine_(seed) {}
    /// 0 to sides - 1.
    std::size_t roll(std::size_t sides) { return static_cast<std::size_t>(engine_() % sides); }
    bool chance(double share) { return unit() < share; }
    double unit() { return static_cast<double>(engine_() >> 11U) * 0x1p-53; }
    double between(double low, double high) { return low + (high - low) * unit(); }
    template <class List>
    const auto& of(const List& list) {
        return list[roll(std::size(list))];
    }

private:
    std::mt19937_64 engine_;
};

/// What `$ref` stands for.
inline const Json& resolved(const Json& schema, const Json& root) {
    const auto ref = schema.find("$ref");
    if (ref == schema.end()) return schema;
    const std::string name = ref->get<std::string>(); // "#/$defs/NAME"
    return root["$defs"][name.substr(name.rfind('/') + 1)];
}

/// Texts as they come from keyboards, files and clipboards: empty, long, of other scripts, joined
/// from several code points, right to left, with control characters, and some that are no UTF-8.
inline std::string odd_text(Dice& dice) {
    static const std::array<std::string, 26> texts{"",
                                                   " ",
                                                   "key",
                                                   "fill",
                                                   "face",
                                                   "room",
                                                   "camera",
                                                   "a\"b",
                                                   "a\\b",
                                                   "a[0]",
                                                   "a.b",
                                                   "]",
                                                   "[",
                                                   "\xC3\xBC"
                                                   "ber",
                                                   "\xE6\x97\xA5\xE6\x9C\xAC",
                                                   "\xF0\x9F\x91\xA9\xE2\x80\x8D\xF0\x9F\x8E\xA8",
                                                   "e\xCC\x81",
                                                   "\xE2\x80\xAE"
                                                   "abc",
                                                   std::string("a\0b", 3),
                                                   "two\nlines",
                                                   "\t",
                                                   "0",
                                                   "-1",
                                                   "\xFF\xFE",
                                                   "\xC0\x80",
                                                   "\xED\xA0\x80"};
    if (dice.chance(0.15)) return std::string(1 + dice.roll(90), 'n');
    if (dice.chance(0.02)) return std::string(21000, 'n');
    return dice.of(texts);
}

/// JSON text of a text, whatever its bytes.
inline std::string quoted(const std::string& text) {
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') quoted += '\\';
        if (static_cast<unsigned char>(c) < 0x20)
            quoted += "\\u00" + std::string(c < 0x10 ? "0" : "1") + "0123456789abcdef"[c & 15];
        else
            quoted += c;
    }
    return quoted + "\"";
}

/// Texts that are no JSON, or more than a document may hold.
inline std::string broken_json(Dice& dice) {
    static const std::array<std::string, 14> texts{"",
                                                   "{",
                                                   "[1,",
                                                   "nan",
                                                   "1e999",
                                                   "-",
                                                   "\"\\ud800\"",
                                                   "\"\xFF\"",
                                                   "{\"a\":1,\"a\":2}",
                                                   "1 2",
                                                   "tru",
                                                   "\"open",
                                                   "{\"a\":\"\xC0\x80\"}",
                                                   std::string("\0", 1)};
    if (dice.chance(0.2)) {
        const std::size_t deep = 1 + dice.roll(60);
        return std::string(deep, '[') + std::string(deep, ']');
    }
    if (dice.chance(0.05)) { // many fields nobody knows
        std::string object = "{";
        for (std::size_t i = 0, count = 400 + dice.roll(200); i < count; ++i)
            object += (i > 0 ? ",\"f" : "\"f") + std::to_string(i) + "\":0";
        return object + "}";
    }
    return dice.of(texts);
}

/// Any JSON, mostly not what the field wants.
inline Json any_json(Dice& dice) {
    static const std::array<Json, 18> values{Json(nullptr),
                                             Json(true),
                                             Json(false),
                                             Json(0),
                                             Json(-1),
                                             Json(1e308),
                                             Json(-1e-320),
                                             Json(9007199254740993LL),
                                             Json(18446744073709551615ULL),
                                             Json("text"),
                                             Json(""),
                                             Json::array(),
                                             Json::object(),
                                             Json::array({1, 2}),
                                             Json::array({1, 2, 3}),
                                             Json::array({Json::object(), nullptr}),
                                             Json{{"from", "no-such-gear"}},
                                             Json{{"unknown", {{"deep", {1, 2}}}}}};
    return dice.of(values);
}

class Values {
public:
    Values(Dice& dice, const Json& root)
        : dice_(dice)
        , root_(root) {}

    /// Near `now`, anywhere in the range, at its ends or beyond.
    Json of(const Json& given, const Json& now) {
        const Json& schema = resolved(given, root_);
        if (schema.contains("oneOf")) {
            const Json& kinds = schema["oneOf"];
            if (kinds.back().value("type", Json()) == "null" && dice_.chance(0.25)) return nullptr;
            const Json& first = resolved(kinds.front(), root_);
            return of(first.contains("properties") || dice_.chance(0.5) ? first : dice_.of(kinds),
                      now);
        }
        if (schema.contains("enum"))
            return dice_.chance(0.05) ? Json("no-such-word") : dice_.of(schema["enum"]);
        if (schema.contains("const")) return schema["const"];
        const Json type = schema.value("type", Json("string"));
        if (type.is_array()) return dice_.chance(0.3) ? Json(nullptr) : Json(number(schema, now));
        if (type == "number") return number(schema, now);
        if (type == "integer") return std::round(number(schema, now));
        if (type == "boolean") return dice_.chance(0.5);
        if (type == "array") return list(schema, now);
        if (type == "object") return object(schema, now);
        return text_;
    }

    /// What a text becomes; set before `of`, since odd bytes don't fit a Json's text.
    void say(std::string text) { text_ = std::move(text); }

private:
    double number(const Json& schema, const Json& now) {
        const double low = schema.value("minimum", -100.0), high = schema.value("maximum", 100.0);
        const double die = dice_.unit();
        if (die < 0.5 && now.is_number()) {
            const double value = now.get<double>();
            const double moved = value + 0.1 * (dice_.unit() - 0.5) * (std::abs(value) + 0.1);
            return std::clamp(moved, low, high);
        }
        if (die < 0.8) return dice_.between(low, high);
        if (die < 0.86) return low;
        if (die < 0.92) return high;
        if (die < 0.96) return low - dice_.unit() * (1.0 + std::abs(low));
        return high + dice_.unit() * (1.0 + std::abs(high));
    }

    Json list(const Json& schema, const Json& now) {
        Json made = now.is_array() ? now : Json::array();
        if (schema.contains("minItems")) {
            const std::size_t count = schema["minItems"].get<std::size_t>();
            made = Json::array();
            for (std::size_t i = 0; i < count; ++i)
                made.push_back(
                    of(schema["items"], now.is_array() && i < now.size() ? now[i] : Json()));
            return made;
        }
        if (dice_.chance(0.1)) return Json::array();
        if (!made.empty() && dice_.chance(0.4)) made.erase(dice_.roll(made.size()));
        if (dice_.chance(0.5)) made.push_back(of(schema["items"], made.empty() ? Json() : made[0]));
        if (!made.empty() && dice_.chance(0.05)) made.push_back(made[0]);
        return made;
    }

    /// `now` with some fields made anew, or a few fields alone.
    Json object(const Json& schema, const Json& now) {
        Json made = now.is_object() && dice_.chance(0.7) ? now : Json::object();
        const Json& properties = schema["properties"];
        for (const auto& [name, property] : properties.items()) {
            const bool needed = name == "id" || name == "path";
            if (!needed && !dice_.chance(2.0 / static_cast<double>(properties.size()))) continue;
            made[name] = name == "from" ? gear() : of(property, made.value(name, Json()));
        }
        if (dice_.chance(0.05)) made["unknown"] = any_json(dice_);
        return made;
    }

    Json gear() {
        const Catalogue& all = catalogue();
        switch (dice_.roll(6)) {
        case 0:
            return dice_.of(all.supports).id;
        case 1:
            return dice_.of(all.arms).id;
        case 2:
            return dice_.of(all.heads).id;
        case 3:
            return dice_.of(all.modifiers).id;
        case 4:
            return dice_.of(all.grids).id;
        default:
            return "no-such-gear";
        }
    }

    Dice& dice_;
    const Json& root_;
    std::string text_;
};

} // namespace keystead::testing
