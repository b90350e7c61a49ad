#include "engine/edit/journal.h"

#include "sim/set/json_text.h"

namespace keystead {

namespace {

Json json_of(const Command& command);

struct ToJson {
    Json operator()(const SetValue& c) const {
        const Result<Json> value = parse_json(c.value);
        return {{"set", c.path}, {"value", value ? value.value() : Json(nullptr)}};
    }
    Json operator()(const AddLight& c) const {
        return {{"add_light", c.id},
                {"role", c.role},
                {"support", c.support},
                {"head", c.head},
                {"modifier", c.modifier}};
    }
    Json operator()(const RemoveLight& c) const { return Json{{"remove_light", c.id}}; }
    Json operator()(const Batch& c) const {
        Json commands = Json::array();
        for (const Command& command : c.commands) commands.push_back(json_of(command));
        return {{"batch", c.label}, {"commands", std::move(commands)}};
    }
};

Json json_of(const Command& command) {
    return std::visit(ToJson{}, command);
}

std::string text_in(const Json& json, const char* name) {
    const auto found = json.find(name);
    return found != json.end() && found->is_string() ? found->get<std::string>() : std::string();
}

Result<Command> command_of(const Json& json) {
    const Problem wrong{"journal", brief_json(json), "is not a command"};
    if (!json.is_object()) return wrong;
    if (json.contains("set") && json.contains("value"))
        return Command(SetValue{text_in(json, "set"), json["value"].dump()});
    if (json.contains("add_light"))
        return Command(AddLight{text_in(json, "add_light"), text_in(json, "role"),
                                text_in(json, "support"), text_in(json, "head"),
                                text_in(json, "modifier")});
    if (json.contains("remove_light")) return Command(RemoveLight{text_in(json, "remove_light")});
    if (!json.contains("batch") || !json.contains("commands") || !json["commands"].is_array())
        return wrong;
    Batch batch{text_in(json, "batch"), {}};
    for (const Json& entry : json["commands"]) {
        Result<Command> command = command_of(entry);
        if (!command) return command.problem();
        batch.commands.push_back(std::move(command).value());
    }
    return Command(std::move(batch));
}

} // namespace

std::string journal_line(const Command& command) {
    // A batch's label alone may hold bytes that are no UTF-8: nothing else of a command that fits.
    return json_line(json_of(command));
}

Result<Command> read_journal_line(std::string_view line) {
    const Result<Json> json = parse_json(line);
    if (!json) return json.problem();
    return command_of(json.value());
}

} // namespace keystead
