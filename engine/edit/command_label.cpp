// What the undo list calls a command.
#include "engine/edit/command.h"
#include "engine/edit/document_path.h"
#include "sim/base/text.h"
#include "sim/set/field_rules.h"

#include <array>
#include <string_view>

namespace keystead {

namespace {

/// Fields whose name without its unit is not what a person would say.
struct Said {
    std::string_view field, words;
};
constexpr std::array<Said, 12> said{{{"power_stops_below", "power"},
                                     {"position_m", "place"},
                                     {"on", "switch"},
                                     {"from", "gear"},
                                     {"head_turn_deg", "head turn"},
                                     {"head_nod_deg", "head nod"},
                                     {"head_roll_deg", "head roll"},
                                     {"body_turn_deg", "body turn"},
                                     {"com_ahead_m", "centre of mass"},
                                     {"at_m", "place"},
                                     {"place_m", "place"},
                                     {"id", "name"}}};

std::string words_of(const std::string& field) {
    for (const Said& entry : said)
        if (field == entry.field) return std::string(entry.words);
    std::string words = field;
    const std::string_view unit = unit_of(field);
    if (!unit.empty()) words.resize(words.rfind('_'));
    for (char& c : words)
        if (c == '_') c = ' ';
    return words;
}

/// "bags" with its number is "bag 1"; other parents are said as they are.
std::string parent_words(const PathStep& step) {
    if (step.brackets.empty()) return words_of(step.field);
    std::string word = words_of(step.field);
    if (word.ends_with('s')) word.pop_back();
    const std::string& key = step.brackets.back();
    const bool number = key.find_first_not_of("0123456789") == std::string::npos && !key.empty();
    return word + " " + (number ? std::to_string(std::stoul(key.substr(0, 6)) + 1) : key);
}

bool names_itself(const std::string& field) {
    return field.rfind("head_", 0) == 0 || field.rfind("body_", 0) == 0 ||
           field == "power_stops_below" || field == "on";
}

std::string label_of_path(const std::string& path) {
    const auto parsed = parse_path(path);
    if (!parsed) return path;
    const std::vector<PathStep>& steps = parsed.value();
    const std::string& list = steps[0].field;
    const bool owned =
        (list == "lights" || list == "panels" || list == "props") && !steps[0].brackets.empty();
    const std::string owner = owned ? " of " + steps[0].brackets[0] : "";
    const PathStep& last = steps.back();
    if (!last.brackets.empty() && last.brackets.back().empty())
        return "add to " + words_of(last.field);
    if (owned && steps.size() == 1) return "one of " + steps[0].field + owner;
    std::string words = last.brackets.empty() ? words_of(last.field) : parent_words(last);
    const std::size_t first = owned ? 1 : 0;
    if (steps.size() >= first + 2 && !names_itself(last.field))
        words = parent_words(steps[steps.size() - 2]) + " " + words;
    return words + owner;
}

struct Label {
    std::string operator()(const SetValue& command) const { return label_of_path(command.path); }
    std::string operator()(const AddLight& command) const {
        return "add " + (!command.role.empty() ? command.role
                                               : (command.id.empty() ? "a light" : command.id));
    }
    std::string operator()(const RemoveLight& command) const { return "remove " + command.id; }
    std::string operator()(const Batch& batch) const {
        if (!batch.label.empty()) return batch.label;
        return batch.commands.empty() ? "nothing" : std::visit(*this, batch.commands.back());
    }
};

} // namespace

std::string label_of(const Command& command) {
    return one_line(std::visit(Label{}, command), 200);
}

} // namespace keystead
