#include "sim/photometry/number_stream.h"
#include "sim/photometry/photometric_file.h"
#include "sim/photometry/planes.h"

#include <algorithm>
#include <cctype>
#include <cmath>

namespace keystead {

namespace {

using namespace photometry;

constexpr int most_angles = 4000;
constexpr double metres_in_foot = 0.3048;

std::string squeezed(std::string_view line) {
    std::string text;
    for (const char c : line)
        if (c != ' ' && c != '\t')
            text += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return text;
}

/// The year of the edition a header line names; 1986 had none.
int edition_of(std::string_view first_line) {
    const std::string tag = squeezed(first_line);
    if (tag.starts_with("IESNA91")) return 1991;
    for (const int year : {1995, 2002, 2019})
        if (tag.starts_with("IES") &&
            tag.find("LM-63-" + std::to_string(year)) != std::string::npos)
            return year;
    return tag.starts_with("IES") ? 1995 : 1986;
}

/// Labels: `[LUMINAIRE] text`, `[LUMCAT] text`; a label may come more than once, [MORE] continues.
std::string name_in(const std::vector<std::string_view>& lines, std::size_t end) {
    std::string name;
    bool continues = false;
    for (std::size_t i = 0; i < end; ++i) {
        const std::string label = squeezed(lines[i].substr(0, 14));
        const std::size_t close = lines[i].find(']');
        const bool more = label.starts_with("[MORE]");
        continues = label.starts_with("[LUMINAIRE]") || (continues && more);
        if (!continues || close == std::string_view::npos) continue;
        if (!name.empty()) name += ' ';
        name += trimmed(lines[i].substr(close + 1));
    }
    return name;
}

/// Lamp geometry, count, angles, factors. Only the factor at no tilt counts here.
double tilt_factor(NumberStream& numbers) {
    numbers.whole("the tilt table's lamp geometry", 1, 3);
    const int count = numbers.whole("the tilt table's number of angles", 1, most_angles);
    const auto angles = numbers.reals("tilt angle", static_cast<std::size_t>(count));
    const auto factors = numbers.reals("tilt factor", static_cast<std::size_t>(count));
    for (std::size_t i = 0; i < std::min(angles.size(), factors.size()); ++i)
        if (std::abs(angles[i]) < 1e-6) return factors[i];
    return 1.0;
}

struct Scale {
    int lamps = 1;
    double lumens = 0.0, multiplier = 1.0;
};

void read_opening(NumberStream& numbers, Distribution& d) {
    const int units = numbers.whole("the unit of its sizes, 1 for feet or 2 for metres,", 1, 2);
    const double unit_m = units == 1 ? metres_in_foot : 1.0;
    const double width = numbers.real("the opening's width") * unit_m;
    const double length = numbers.real("the opening's length") * unit_m;
    const double height = numbers.real("the opening's height") * unit_m;
    // A negative size is the diameter of a round opening (2002 edition, from memory).
    d.round = width < 0.0 || length < 0.0;
    d.width_m = std::abs(width);
    d.length_m = std::abs(length);
    d.height_m = std::abs(height);
    if (d.round && d.width_m <= 0.0) d.width_m = d.length_m;
    if (d.round && d.length_m <= 0.0) d.length_m = d.width_m;
}

Goniometer goniometer(int type) {
    return type == 1 ? Goniometer::type_c : type == 2 ? Goniometer::type_b : Goniometer::type_a;
}

Outcome check_vertical(const Distribution& d, const std::string& file) {
    const double first = d.vertical_deg.front(), last = d.vertical_deg.back();
    const bool c = d.type == Goniometer::type_c;
    if (first < (c ? 0.0 : -90.0) - 1e-6 || last > (c ? 180.0 : 90.0) + 1e-6)
        return Problem{file, "vertical angles",
                       c ? "leave 0 to 180 (type C)" : "leave -90 to 90 (type A or B)"};
    return {};
}

Outcome read_table(NumberStream& numbers, Distribution& d, int vertical, int horizontal,
                   double factor, int edition, const std::string& file) {
    d.vertical_deg = numbers.reals("vertical angle", static_cast<std::size_t>(vertical));
    d.horizontal_deg = numbers.reals("horizontal angle", static_cast<std::size_t>(horizontal));
    if (numbers.problem()) return numbers.problem();
    // The 1986 edition has one number for both types A and C.
    if (edition == 1986 && d.type == Goniometer::type_c && d.vertical_deg.front() < 0.0) {
        d.type = Goniometer::type_a;
        d.notes.emplace_back("Angles below zero in a 1986 file: taken as type A.");
    }
    if (auto bad = rising(d.vertical_deg, "vertical angle", file)) return bad;
    if (auto bad = rising(d.horizontal_deg, "horizontal angle", file)) return bad;
    if (auto bad = check_vertical(d, file)) return bad;
    d.candela = numbers.reals("candela value", static_cast<std::size_t>(vertical) *
                                                   static_cast<std::size_t>(horizontal));
    for (double& value : d.candela) {
        if (value < 0.0) numbers.refuse("a negative candela value", "must be zero or more");
        value *= factor;
    }
    if (numbers.problem()) return numbers.problem();
    if (const std::size_t rest = numbers.rest())
        d.notes.push_back(std::to_string(rest) +
                          " words after the last candela value are left out.");
    if (d.type == Goniometer::type_c) return complete_turn(d, file);
    complete_halves(d);
    return {};
}

Result<Distribution> read_body(NumberStream& numbers, Distribution d, int edition, double tilt,
                               const std::string& file) {
    Scale scale;
    scale.lamps = numbers.whole("the number of lamps", 0, 100000);
    scale.lumens = numbers.real("the lumens of a lamp (-1: absolute photometry)");
    scale.multiplier = numbers.real("the candela multiplier");
    const int vertical = numbers.whole("the number of vertical angles", 1, most_angles);
    const int horizontal = numbers.whole("the number of horizontal angles", 1, most_angles);
    const int type = numbers.whole("the photometric type", 1, 3);
    d.type = goniometer(type);
    read_opening(numbers, d);
    const double ballast = numbers.real("the ballast factor");
    const double third = numbers.real("the factor after the ballast factor");
    d.watts = numbers.real("the input watts");
    // A ballast-lamp factor up to 1995; reserved in 2002, a code of the file's origin in 2019.
    const double last = edition <= 1995 ? third : 1.0;
    const double factor = scale.multiplier * ballast * last * tilt;
    if (!numbers.problem() && !(factor > 0.0))
        numbers.refuse("factors of " + std::to_string(factor),
                       "leave no light: multiplier, ballast and tilt factors must be above zero");
    if (numbers.problem()) return *numbers.problem();
    if (scale.lumens > 0.0) d.stated_lumens = scale.lamps * scale.lumens;
    if (scale.lumens < 0.0) d.notes.emplace_back("Absolute photometry: candela as they stand.");
    if (auto bad = read_table(numbers, d, vertical, horizontal, factor, edition, file)) return *bad;
    return d;
}

} // namespace

Result<Distribution> parse_lm63(std::string_view text, const std::string& name,
                                const SiblingText& sibling) {
    const auto lines = lines_of(text);
    const auto is_tilt = [](std::string_view line) { return squeezed(line).starts_with("TILT="); };
    const auto tilt_line = std::find_if(lines.begin(), lines.end(), is_tilt);
    if (tilt_line == lines.end())
        return Problem{name,
                       "no line TILT=", "was found; an IES LM-63 file has one after its labels"};
    const auto tilt_at = static_cast<std::size_t>(tilt_line - lines.begin());

    Distribution d;
    const int edition = edition_of(lines.front());
    d.format = "IES LM-63-" + std::to_string(edition);
    d.name = name_in(lines, tilt_at);
    const std::string_view value = trimmed(tilt_line->substr(tilt_line->find('=') + 1));
    const std::string word = squeezed(value);

    NumberStream numbers(lines, tilt_at + 1, name);
    double tilt = 1.0;
    if (word == "INCLUDE") {
        tilt = tilt_factor(numbers);
        d.notes.emplace_back("Its tilt table is used at no tilt.");
    } else if (word != "NONE") {
        const std::string where = name + " line " + std::to_string(tilt_at + 1);
        if (word.empty() || !sibling)
            return Problem{where, "TILT=" + shown(value),
                           "is not NONE, INCLUDE or a file beside it"};
        const auto table = sibling(std::string(value));
        if (!table) return Problem{where, "its tilt table", table.problem().message()};
        NumberStream tilt_numbers(lines_of(table.value()), 0, std::string(value));
        tilt = tilt_factor(tilt_numbers);
        if (tilt_numbers.problem()) return *tilt_numbers.problem();
    }
    return read_body(numbers, std::move(d), edition, tilt, name);
}

} // namespace keystead
