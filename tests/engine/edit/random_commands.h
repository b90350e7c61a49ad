// Random commands over all a document has: places are walked in its schema and in the set as it is.
#pragma once

#include "engine/edit/command.h"
#include "sim/set/set_json.h"
#include "tests/engine/edit/random_values.h"

#include <string>

namespace keystead::testing {

/// Same seed and sets, same commands.
class RandomCommands {
public:
    explicit RandomCommands(std::uint64_t seed)
        : dice_(seed)
        , schema_(parse_json(set_schema_text()).value()) {}

    Dice& dice() { return dice_; }

    Command next(const Set& set) {
        const Json document = set_to_json(set);
        return command(document, 0);
    }

private:
    struct Place {
        std::string path;
        const Json* schema; ///< null: nothing is known of it
        Json now;
    };

    Command command(const Json& document, int depth) {
        const double die = dice_.unit();
        if (die < 0.82) return set_value(document);
        if (die < 0.86) return add_light();
        if (die < 0.91) return RemoveLight{id_in(document)};
        return batch(document, depth);
    }

    SetValue set_value(const Json& document) {
        Place place = somewhere(document);
        if (dice_.chance(0.03)) spoil(place.path);
        if (dice_.chance(0.04)) return {place.path, broken_json(dice_)};
        if (dice_.chance(0.04)) return {place.path, any_json(dice_).dump()};
        if (dice_.chance(0.04)) return {place.path, "null"};
        if (place.schema == nullptr) return {place.path, any_json(dice_).dump()};
        const Json& schema = resolved(*place.schema, schema_);
        const bool text = schema.value("type", Json()) == "string";
        if (text && place.path.ends_with(".from")) return {place.path, quoted(gear())};
        if (text) return {place.path, quoted(odd_text(dice_))};
        Values values(dice_, schema_);
        values.say("n" + std::to_string(dice_.roll(1000)));
        return {place.path, values.of(schema, place.now).dump()};
    }

    AddLight add_light() {
        const Catalogue& all = catalogue();
        AddLight light;
        if (dice_.chance(0.4)) light.id = odd_text(dice_);
        if (dice_.chance(0.5)) light.role = dice_.chance(0.5) ? "fill" : odd_text(dice_);
        if (dice_.chance(0.6)) light.support = dice_.of(all.supports).id;
        if (dice_.chance(0.6)) light.head = dice_.of(all.heads).id;
        if (dice_.chance(0.6)) light.modifier = dice_.of(all.modifiers).id;
        if (dice_.chance(0.1)) light.modifier = odd_text(dice_);
        return light;
    }

    Batch batch(const Json& document, int depth) {
        Batch made;
        if (dice_.chance(0.5)) made.label = odd_text(dice_);
        const std::size_t count = dice_.roll(4);
        for (std::size_t i = 0; i < count; ++i)
            made.commands.push_back(depth < 3 ? command(document, depth + 1)
                                              : Command(set_value(document)));
        if (dice_.chance(0.02)) // deeper than any journal's text may be
            for (int i = 0; i < 40; ++i) {
                Batch outer;
                outer.commands.push_back(Command(std::move(made)));
                made = std::move(outer);
            }
        return made;
    }

    std::string id_in(const Json& document) {
        const Json& lights = document["lights"];
        if (lights.empty() || dice_.chance(0.3)) return odd_text(dice_);
        return dice_.of(lights)["id"].get<std::string>();
    }

    std::string gear() {
        const Catalogue& all = catalogue();
        if (dice_.chance(0.1)) return odd_text(dice_);
        if (dice_.chance(0.4)) return dice_.of(all.modifiers).id;
        if (dice_.chance(0.4)) return dice_.of(all.heads).id;
        return dice_.of(all.supports).id;
    }

    /// A walk down from the whole set that stops somewhere.
    Place somewhere(const Json& document) {
        Place place{"", &schema_, document};
        for (bool first = true;; first = false) {
            const Json* schema = &resolved(*place.schema, schema_);
            if (schema->contains("oneOf")) schema = &resolved((*schema)["oneOf"][0], schema_);
            const bool object = schema->contains("properties");
            const bool list = schema->contains("items");
            if (!object && !list) return place;
            if (!first && dice_.chance(0.12)) return place;
            if (object)
                down(place, (*schema)["properties"], first);
            else if (!into(place, (*schema)["items"], !schema->contains("minItems")))
                return place;
        }
    }

    void down(Place& place, const Json& properties, bool first) {
        std::string name;
        for (std::size_t skip = dice_.roll(properties.size());
             const auto& [key, unused] : properties.items())
            if (skip-- == 0) {
                name = key;
                break;
            }
        if (first && dice_.chance(0.45)) name = dice_.chance(0.8) ? "lights" : "panels";
        place.path += (place.path.empty() ? "" : ".") + name;
        place.schema = &properties[name];
        place.now = place.now.is_object() ? place.now.value(name, Json()) : Json();
    }

    /// One of a list, by id or number, or one past its end; false where there is no way in.
    bool into(Place& place, const Json& items, bool grows) {
        const std::size_t size = place.now.is_array() ? place.now.size() : 0;
        const bool past = grows && dice_.chance(0.08);
        if (size == 0 && !past) return false;
        const std::size_t index = past ? size : dice_.roll(size);
        const Json entry = past ? Json() : place.now[index];
        const bool by_id = entry.is_object() && entry.contains("id") && dice_.chance(0.8);
        place.path += "[" + (by_id ? entry["id"].get<std::string>() : std::to_string(index)) + "]";
        place.schema = &items;
        place.now = entry;
        return true;
    }

    void spoil(std::string& path) {
        static const std::array<std::string, 16> tails{
            "[0]",   "[]",   "[-1]",     "[99999999999999999999]",
            "[key]", "[",    "]",        ".",
            "..id",  ".id",  ".unknown", "[0][0]",
            " ",     "\xFF", "[\xFF]",   "\n"};
        if (dice_.chance(0.1)) path.clear();
        if (dice_.chance(0.2) && !path.empty()) path.erase(dice_.roll(path.size()), 1);
        if (dice_.chance(0.8)) path += dice_.of(tails);
    }

    Dice dice_;
    Json schema_;
};

} // namespace keystead::testing
