#include "engine/ui/gels.h"

#include "engine/ui/quantity.h"
#include "engine/ui/set_commands.h"

#include <nlohmann/json.hpp>

namespace keystead::ui {

namespace {

/// Gels as they are sold. Mired shifts and luminous transmissions of the usual correction gels, and
/// the colours of saturated ones: common practice.
struct GelChoice {
    const char* name;
    double mired_shift, transmission;
    Vec3 colour{0.0}; ///< zero: no colour of its own
};
const std::vector<GelChoice>& gel_choices() {
    static const std::vector<GelChoice> choices{{"half warming", 81.0, 0.73},
                                                {"full warming", 159.0, 0.58},
                                                {"half cooling", -68.0, 0.52},
                                                {"full cooling", -131.0, 0.34},
                                                {"red", 0.0, 0.10, {1.0, 0.03, 0.02}},
                                                {"amber", 0.0, 0.45, {1.0, 0.42, 0.03}},
                                                {"green", 0.0, 0.25, {0.10, 1.0, 0.12}},
                                                {"deep blue", 0.0, 0.06, {0.05, 0.10, 1.0}},
                                                {"magenta", 0.0, 0.12, {1.0, 0.05, 0.60}}};
    return choices;
}

} // namespace

const std::vector<std::string>& gel_names() {
    static const std::vector<std::string> names = [] {
        std::vector<std::string> all{"none"};
        for (const GelChoice& choice : gel_choices()) all.emplace_back(choice.name);
        return all;
    }();
    return names;
}

std::string gel_words(const std::optional<Gel>& gel) {
    if (!gel) return "none";
    for (const GelChoice& choice : gel_choices())
        if (gel->colour && gel->colour->rgb == choice.colour) return choice.name;
    for (const GelChoice& choice : gel_choices())
        if (!gel->colour && gel->mired_shift == choice.mired_shift) return choice.name;
    return gel->colour ? "own colour" : number_text(gel->mired_shift, 0) + " mired";
}

std::optional<Command> gel_command(const std::string& id, const Modifier& modifier, int picked) {
    if (picked < 0 || (picked == 0 && !modifier.gel)) return std::nullopt;
    const std::string path = light_path(id, "modifier.gel");
    if (picked == 0) return set_nothing(path);
    const GelChoice& choice = gel_choices()[static_cast<std::size_t>(picked) - 1];
    nlohmann::json gel{{"mired_shift", choice.mired_shift}, {"transmission", choice.transmission}};
    if (choice.colour != Vec3(0.0))
        gel["colour"] = {choice.colour.r, choice.colour.g, choice.colour.b};
    return SetValue{path, gel.dump()};
}

} // namespace keystead::ui
