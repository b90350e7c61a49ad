#include "engine/ui/quantity_units.h"

#include <array>
#include <utility>

namespace keystead::ui {

namespace {

struct Unit {
    std::string_view name;
    Dimension dimension;
    double factor;
};

constexpr std::array units{
    Unit{"mm", Dimension::length, 0.001},
    Unit{"cm", Dimension::length, 0.01},
    Unit{"m", Dimension::length, 1.0},
    Unit{"ft", Dimension::length, 0.3048},
    Unit{"foot", Dimension::length, 0.3048},
    Unit{"feet", Dimension::length, 0.3048},
    Unit{"'", Dimension::length, 0.3048},
    Unit{"in", Dimension::length, 0.0254},
    Unit{"inch", Dimension::length, 0.0254},
    Unit{"inches", Dimension::length, 0.0254},
    Unit{"\"", Dimension::length, 0.0254},
    Unit{"yd", Dimension::length, 0.9144},
    Unit{"kg", Dimension::mass, 1.0},
    Unit{"g", Dimension::mass, 0.001},
    Unit{"lb", Dimension::mass, 0.45359237},
    Unit{"lbs", Dimension::mass, 0.45359237},
    Unit{"oz", Dimension::mass, 0.45359237 / 16.0},
    Unit{"°", Dimension::angle, 1.0},
    Unit{"deg", Dimension::angle, 1.0},
    Unit{"degrees", Dimension::angle, 1.0},
    Unit{"rad", Dimension::angle, 180.0 / 3.14159265358979323846},
    Unit{"stop", Dimension::stops, 1.0},
    Unit{"stops", Dimension::stops, 1.0},
    Unit{"EV", Dimension::stops, 1.0},
    Unit{"Ws", Dimension::energy, 1.0},
    Unit{"J", Dimension::energy, 1.0},
    Unit{"K", Dimension::temperature, 1.0},
    Unit{"s", Dimension::time, 1.0},
    Unit{"ms", Dimension::time, 0.001},
    Unit{"lm", Dimension::flux, 1.0},
    Unit{"klm", Dimension::flux, 1000.0},
    Unit{"W", Dimension::power, 1.0},
};

/// Other spellings of one character, as keyboards and pasted text have them.
constexpr std::array spellings{
    std::pair{std::string_view("\u2212"), std::string_view("-")},
    std::pair{std::string_view("\u2013"), std::string_view("-")},
    std::pair{std::string_view("×"), std::string_view("*")},
    std::pair{std::string_view("·"), std::string_view("*")},
    std::pair{std::string_view("÷"), std::string_view("/")},
    std::pair{std::string_view("\u2044"), std::string_view("/")},
    std::pair{std::string_view("\u2019"), std::string_view("'")},
    std::pair{std::string_view("\u2032"), std::string_view("'")},
    std::pair{std::string_view("\u201D"), std::string_view("\"")},
    std::pair{std::string_view("\u2033"), std::string_view("\"")},
    std::pair{std::string_view("\u00A0"), std::string_view(" ")},
    std::pair{std::string_view("\u202F"), std::string_view(" ")},
    std::pair{std::string_view("½"), std::string_view(" 1/2")},
    std::pair{std::string_view("¼"), std::string_view(" 1/4")},
    std::pair{std::string_view("¾"), std::string_view(" 3/4")},
    std::pair{std::string_view("⅓"), std::string_view(" 1/3")},
    std::pair{std::string_view("⅔"), std::string_view(" 2/3")},
    std::pair{std::string_view("''"), std::string_view("\"")},
    std::pair{std::string_view("\t"), std::string_view(" ")},
    std::pair{std::string_view(","), std::string_view(".")},
};

void replace_all(std::string& text, std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
}

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

} // namespace

std::string normalised(std::string_view text) {
    std::string plain(text);
    replace_all(plain, "W·s", "Ws");
    for (const auto& [from, to] : spellings) replace_all(plain, from, to);
    const std::size_t first = plain.find_first_not_of(' ');
    if (first == std::string::npos) return {};
    plain = plain.substr(first, plain.find_last_not_of(' ') - first + 1);
    // An f-number is written "f/8": the mark says what it is, the value is 8.
    if (plain.rfind("f/", 0) == 0) plain = plain.substr(2);
    return plain;
}

std::string unit_name_at(const std::string& text, std::size_t at) {
    if (at >= text.size()) return {};
    if (text[at] == '\'' || text[at] == '"') return text.substr(at, 1);
    if (text.compare(at, 2, "°") == 0) return "°";
    std::size_t end = at;
    while (end < text.size() && is_letter(text[end])) ++end;
    return text.substr(at, end - at);
}

double factor_of(std::string_view unit, Dimension dimension) {
    if (unit.empty()) return 1.0;
    for (const Unit& each : units)
        if (each.name == unit && each.dimension == dimension) return each.factor;
    return 0.0;
}

double next_smaller(std::string_view unit) {
    if (unit == "ft" || unit == "'" || unit == "foot" || unit == "feet") return 0.0254;
    if (unit == "m") return 0.01;
    if (unit == "lb" || unit == "lbs") return 0.45359237 / 16.0;
    return 0.0;
}

std::string not_a(Dimension dimension) {
    switch (dimension) {
    case Dimension::plain:
        return "not a number";
    case Dimension::length:
        return "not a length";
    case Dimension::mass:
        return "not a mass";
    case Dimension::angle:
        return "not an angle";
    case Dimension::stops:
        return "not a number of stops";
    case Dimension::energy:
        return "not an energy";
    case Dimension::temperature:
        return "not a colour temperature";
    case Dimension::time:
        return "not a time";
    case Dimension::flux:
        return "not a light flux";
    case Dimension::power:
        return "not a power";
    }
    return "not a number";
}

} // namespace keystead::ui
