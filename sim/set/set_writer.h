// The archive that turns a listed struct into JSON, fields in list order, unknown fields last.
#pragma once

#include "sim/set/fields.h"
#include "sim/set/json_text.h"

#include <optional>
#include <string>
#include <vector>

namespace keystead {

class Writer {
public:
    template <Listed T>
    static Json object_of(const T& value) {
        Writer writer;
        FieldList<T>::list(writer, value);
        return std::move(writer.json_);
    }

    void header() {
        json_["format"] = "keystead-set";
        json_["version"] = set_version;
    }

    template <class T>
    void field(const char* name, const T& value, const Rule& /*rule*/, const char* /*about*/) {
        json_[name] = json_of(value);
    }
    /// A measure or point that is not given is left out.
    template <class T>
    requires(!Listed<T>) void field(const char* name, const std::optional<T>& value,
                                    const Rule& /*rule*/, const char* /*about*/) {
        if (value) json_[name] = json_of(*value);
    }

    void extras(const Extras& extras) {
        for (const auto& [name, text] : extras) json_[name] = Json::parse(text, nullptr, false);
    }

private:
    static Json json_of(double value) { return value; }
    static Json json_of(int value) { return value; }
    static Json json_of(bool value) { return value; }
    static Json json_of(const std::string& value) { return value; }
    static Json json_of(const Vec2& value) { return Json::array({value.x, value.y}); }
    static Json json_of(const Vec3& value) { return Json::array({value.x, value.y, value.z}); }
    static Json json_of(const Reflectance& value) {
        const Vec3& c = value.rgb;
        return c.r == c.g && c.g == c.b ? Json(c.r) : json_of(c);
    }
    template <class E>
    requires std::is_enum_v<E>
    static Json json_of(E value) { return word_of(value); }
    template <Listed T>
    static Json json_of(const T& value) {
        return object_of(value);
    }
    /// `null` where gear is absent: its catalogue entry may have one, which must not come back.
    template <Listed T>
    static Json json_of(const std::optional<T>& value) {
        return value ? object_of(*value) : Json(nullptr);
    }
    template <class T>
    static Json json_of(const std::vector<T>& values) {
        Json list = Json::array();
        for (const T& value : values) list.push_back(json_of(value));
        return list;
    }

    Json json_ = Json::object();
};

} // namespace keystead
