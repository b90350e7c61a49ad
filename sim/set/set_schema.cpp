#include "sim/set/set_schema.h"

#include "sim/set/set_writer.h"

#include <cmath>

namespace keystead {

namespace {

Json number_json(double value) {
    return std::floor(value) == value && std::abs(value) < 1e9 ? Json(static_cast<int>(value))
                                                               : Json(value);
}

/// The archive that describes a listed struct. Structs go to `$defs` once each.
class SchemaMaker {
public:
    template <Listed T>
    static Json object_schema(Json& definitions) {
        SchemaMaker maker(definitions);
        const T defaults{};
        FieldList<T>::list(maker, defaults);
        Json schema{{"type", "object"}, {"properties", std::move(maker.properties_)}};
        if (!maker.required_.empty()) schema["required"] = std::move(maker.required_);
        return schema;
    }

    void header() {
        properties_["format"] = Json{{"const", "keystead-set"}};
        properties_["version"] =
            Json{{"type", "integer"}, {"minimum", 1}, {"maximum", set_version}};
        required_ = Json::array({"format", "version"});
    }

    template <class T>
    void field(const char* name, const T& value, const Rule& rule, const char* about) {
        Json schema = schema_of(value, rule);
        const std::string unit(unit_of(name));
        std::string text = about;
        if (!unit.empty()) text += (text.empty() ? "" : "; ") + unit;
        if (!text.empty()) schema["description"] = text;
        properties_[name] = std::move(schema);
        // The only fields without a usable default: what a light or a panel is called.
        if (std::string_view(name) == "id") required_.push_back(name);
    }

    void extras(const Extras& /*extras*/) {}

private:
    explicit SchemaMaker(Json& definitions)
        : definitions_(definitions) {}

    static Json ranged(Json schema, const Rule& rule) {
        if (rule.bounded()) {
            schema["minimum"] = number_json(rule.min);
            schema["maximum"] = number_json(rule.max);
        }
        return schema;
    }
    static Json point(int count, const Rule& rule) {
        return {{"type", "array"},
                {"items", ranged({{"type", "number"}}, rule)},
                {"minItems", count},
                {"maxItems", count}};
    }
    static Json words(std::span<const char* const> allowed) {
        Json list = Json::array();
        for (const char* word : allowed) list.push_back(word);
        return {{"enum", std::move(list)}};
    }

    Json schema_of(double value, const Rule& rule) {
        Json schema = ranged({{"type", "number"}}, rule);
        schema["default"] = number_json(value);
        return schema;
    }
    Json schema_of(int value, const Rule& rule) {
        Json schema = ranged({{"type", "integer"}}, rule);
        schema["default"] = value;
        return schema;
    }
    Json schema_of(bool value, const Rule&) { return {{"type", "boolean"}, {"default", value}}; }
    Json schema_of(const std::string& value, const Rule& rule) {
        if (!rule.words.empty()) {
            Json schema = words(rule.words);
            schema["default"] = value;
            return schema;
        }
        return {{"type", "string"}, {"maxLength", rule.count}};
    }
    Json schema_of(const Vec2&, const Rule& rule) { return point(2, rule); }
    Json schema_of(const Vec3&, const Rule& rule) { return point(3, rule); }
    Json schema_of(const Reflectance&, const Rule&) {
        return {{"oneOf", Json::array({ranged({{"type", "number"}}, between(0, 1)),
                                       point(3, between(0, 1))})}};
    }
    template <class E>
    requires std::is_enum_v<E> Json schema_of(E value, const Rule&) {
        Json schema = words(EnumWords<E>::words);
        schema["default"] = word_of(value);
        return schema;
    }
    template <Listed T>
    Json schema_of(const T&, const Rule&) {
        const std::string name = FieldList<T>::name;
        if (!definitions_.contains(name)) {
            Json schema = object_schema<T>(definitions_);
            definitions_[name] = std::move(schema);
        }
        return {{"$ref", "#/$defs/" + name}};
    }
    Json schema_of(const std::optional<double>&, const Rule& rule) {
        return ranged({{"type", Json::array({"number", "null"})}}, rule);
    }
    template <class T>
    requires(!Listed<T>) Json schema_of(const std::optional<T>&, const Rule& rule) {
        return {{"oneOf", Json::array({schema_of(T{}, rule), Json{{"type", "null"}}})}};
    }
    template <Listed T>
    Json schema_of(const std::optional<T>&, const Rule& rule) {
        return {{"oneOf", Json::array({schema_of(T{}, rule), Json{{"type", "null"}}})}};
    }
    template <class T>
    Json schema_of(const std::vector<T>&, const Rule& rule) {
        return {{"type", "array"}, {"items", schema_of(T{}, {})}, {"maxItems", rule.count}};
    }

    Json& definitions_;
    Json properties_ = Json::object();
    Json required_ = Json::array();
};

} // namespace

std::string set_schema_text() {
    Json definitions = Json::object();
    Json body = SchemaMaker::object_schema<Set>(definitions);
    Json schema;
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema";
    schema["title"] = "Keystead set";
    schema["description"] =
        "A portrait set. Metres, kilograms, degrees; +Z from the subject to the camera, +X to "
        "camera right, Y up. Gear with \"from\" starts from that catalogue entry. Unknown fields "
        "are kept. Rules between fields (a reach within its arm) are checked by the program.";
    schema.update(body);
    schema["$defs"] = std::move(definitions);
    return print_json(schema);
}

} // namespace keystead
