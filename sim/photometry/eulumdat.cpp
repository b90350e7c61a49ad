#include "sim/photometry/number_stream.h"
#include "sim/photometry/photometric_file.h"
#include "sim/photometry/planes.h"
#include "sim/set/json_text.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

using namespace photometry;

/// One value a line, each with a place of its own.
class ValueLines {
public:
    ValueLines(std::string_view text, std::string file)
        : lines_(lines_of(text))
        , file_(std::move(file)) {}

    std::string text() {
        return next_ < lines_.size() ? std::string(trimmed(lines_[next_++])) : "";
    }
    void skip(std::size_t count) { next_ += count; }
    std::size_t place() const { return next_; }
    void go_to(std::size_t line) { next_ = line; }

    /// A number, with a point or a comma; words after it (units) are left out.
    double real(const std::string& what) {
        if (problem_) return 0.0;
        if (next_ >= lines_.size()) {
            refuse("the file ends", "where " + what + " is expected");
            return 0.0;
        }
        std::string word(trimmed(lines_[next_]));
        word = word.substr(0, word.find_first_of(" \t;"));
        std::replace(word.begin(), word.end(), ',', '.');
        const auto value = number_in(word);
        if (!value) refuse(shown(lines_[next_]), "is not a number; expected " + what);
        ++next_;
        return value.value_or(0.0);
    }
    int whole(const std::string& what, int low, int high) {
        const double value = real(what);
        if (problem_) return 0;
        if (value != std::floor(value) || value < low || value > high) {
            --next_;
            refuse(number_text(value), "is not " + what + " from " + std::to_string(low) + " to " +
                                           std::to_string(high));
            return 0;
        }
        return static_cast<int>(value);
    }
    std::vector<double> reals(const std::string& what, std::size_t count) {
        std::vector<double> values;
        for (std::size_t i = 0; i < count && !problem_; ++i)
            values.push_back(
                real(what + " " + std::to_string(i + 1) + " of " + std::to_string(count)));
        return values;
    }

    void refuse(const std::string& found, const std::string& allowed) {
        const std::size_t line = std::min(next_ + 1, lines_.size());
        if (!problem_) problem_ = Problem{file_ + " line " + std::to_string(line), found, allowed};
    }
    const Outcome& problem() const { return problem_; }
    void forgive() { problem_.reset(); }

private:
    std::vector<std::string_view> lines_;
    std::size_t next_ = 0;
    std::string file_;
    Outcome problem_;
};

struct Lamps {
    double lumens = 0.0, watts = 0.0;
    bool absolute = false;
};

void add_set(Lamps& lamps, double count, double lumens, double watts) {
    lamps.absolute = lamps.absolute || count < 0.0;
    lamps.lumens += lumens;
    lamps.watts += watts;
}

/// Six lines a lamp set: number, type, flux, colour, colour rendering, watts.
Lamps lamps_set_by_set(ValueLines& lines, int sets) {
    Lamps lamps;
    for (int i = 0; i < sets; ++i) {
        const double count = lines.real("the number of lamps");
        lines.skip(1);
        const double lumens = lines.real("the lamps' flux in lumens");
        lines.skip(2);
        add_set(lamps, count, lumens, lines.real("the lamps' watts"));
    }
    return lamps;
}

/// Some programs write all numbers, then all types, and so on.
Lamps lamps_field_by_field(ValueLines& lines, int sets) {
    const auto count = static_cast<std::size_t>(sets);
    const auto numbers = lines.reals("number of lamps", count);
    lines.skip(count);
    const auto lumens = lines.reals("flux of lamp set", count);
    lines.skip(2 * count);
    const auto watts = lines.reals("watts of lamp set", count);
    Lamps lamps;
    if (lines.problem()) return lamps;
    for (std::size_t i = 0; i < count; ++i) add_set(lamps, numbers[i], lumens[i], watts[i]);
    return lamps;
}

Lamps read_lamps(ValueLines& lines, int sets, std::vector<std::string>& notes) {
    const std::size_t start = lines.place();
    Lamps lamps = lamps_set_by_set(lines, sets);
    if (!lines.problem() || sets < 2) return lamps;
    lines.forgive();
    lines.go_to(start);
    lamps = lamps_field_by_field(lines, sets);
    if (!lines.problem()) notes.emplace_back("Its lamp sets are written field by field.");
    return lamps;
}

/// The C angles of the stored planes; those before 0 stand for the ones a turn later.
std::vector<double> stored_angles(const std::vector<double>& all, int symmetry, int stored) {
    const auto count = static_cast<std::size_t>(stored);
    if (symmetry != 3)
        return {all.begin(),
                all.begin() + static_cast<std::ptrdiff_t>(std::min(count, all.size()))};
    std::vector<double> angles;
    const std::size_t first = 3 * all.size() / 4;
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t at = (first + i) % all.size();
        angles.push_back(all[at] - (first + i < all.size() ? 360.0 : 0.0));
    }
    return angles;
}

/// C270 over C0 to C90, the same on either side of that plane: C90 to C270 by mirroring.
void complete_from_270(Distribution& d) {
    const std::size_t vertical = d.vertical_deg.size(), planes = d.horizontal_deg.size();
    Distribution turned = d;
    turned.horizontal_deg.clear();
    turned.candela.clear();
    // As 90..270 of the mirrored half: C' = 180 - C runs from 90 up.
    for (std::size_t i = planes; i-- > 0;) {
        turned.horizontal_deg.push_back(180.0 - d.horizontal_deg[i]);
        for (std::size_t v = 0; v < vertical; ++v) turned.candela.push_back(d.at(i, v));
    }
    d = std::move(turned);
}

Outcome check_symmetry(int symmetry, int planes, ValueLines& lines) {
    const bool quarters = symmetry == 3 || symmetry == 4;
    if ((quarters && planes % 4 != 0) || (symmetry == 2 && planes % 2 != 0))
        lines.refuse(std::to_string(planes) + " C-planes",
                     "cannot be folded as symmetry " + std::to_string(symmetry) + " says");
    return lines.problem();
}

void read_sizes(ValueLines& lines, Distribution& d) {
    constexpr double metre = 0.001;
    lines.skip(3); // of the luminaire: length or diameter, width, height
    const double length = lines.real("the luminous area's length in mm") * metre;
    const double width = lines.real("the luminous area's width in mm") * metre;
    const double high = lines.real("the luminous height at C0 in mm") * metre;
    lines.skip(3);
    d.round = width == 0.0 && length > 0.0;
    d.width_m = length;
    d.length_m = d.round ? length : width;
    d.height_m = high;
}

Outcome read_planes(ValueLines& lines, Distribution& d, int symmetry, int planes, int gammas,
                    const std::string& file) {
    const auto all = lines.reals("C angle", static_cast<std::size_t>(planes));
    d.vertical_deg = lines.reals("gamma angle", static_cast<std::size_t>(gammas));
    if (lines.problem()) return lines.problem();
    if (auto bad = rising(all, "C angle", file)) return bad;
    if (auto bad = rising(d.vertical_deg, "gamma angle", file)) return bad;
    if (d.vertical_deg.front() < 0.0 || d.vertical_deg.back() > 180.0)
        return Problem{file, "gamma angles", "leave 0 to 180"};
    const int stored = eulumdat_stored_planes(symmetry, planes);
    d.horizontal_deg = stored_angles(all, symmetry, stored);
    d.candela = lines.reals("intensity",
                            static_cast<std::size_t>(stored) * static_cast<std::size_t>(gammas));
    return lines.problem();
}

Outcome complete(Distribution& d, int symmetry, const std::string& file) {
    if (symmetry == 1) d.horizontal_deg = {0.0};
    if (symmetry == 3) complete_from_270(d);
    // A whole turn is stored without its end.
    if (symmetry == 0 && d.horizontal_deg.size() > 1 && d.horizontal_deg.back() < 360.0) {
        const auto first = std::vector<double>(
            d.candela.begin(),
            d.candela.begin() + static_cast<std::ptrdiff_t>(d.vertical_deg.size()));
        d.horizontal_deg.push_back(360.0);
        d.candela.insert(d.candela.end(), first.begin(), first.end());
    }
    if (auto bad = complete_turn(d, file)) return bad;
    // C0 lies across the lamp, LM-63's H = 0 along it: H = C + 90.
    if (d.horizontal_deg.size() == 1) return {};
    Distribution turned = d;
    turned.candela.clear();
    for (const double h : d.horizontal_deg)
        for (const double v : d.vertical_deg) turned.candela.push_back(candela_at(d, v, h - 90.0));
    d = std::move(turned);
    return {};
}

} // namespace

int eulumdat_stored_planes(int symmetry, int planes) {
    switch (symmetry) {
    case 1:
        return 1;
    case 2:
    case 3:
        return planes / 2 + 1;
    case 4:
        return planes / 4 + 1;
    default:
        return planes;
    }
}

Result<Distribution> parse_eulumdat(std::string_view text, const std::string& file) {
    ValueLines lines(text, file);
    Distribution d;
    d.format = "EULUMDAT";
    lines.skip(1);
    lines.whole("the type of luminaire", 0, 3);
    const int symmetry = lines.whole("the symmetry", 0, 4);
    const int planes = lines.whole("the number of C-planes", 1, 721);
    lines.real("the distance of C-planes");
    const int gammas = lines.whole("the number of gamma angles", 1, 721);
    lines.real("the distance of gamma angles");
    if (check_symmetry(symmetry, planes, lines)) return *lines.problem();
    lines.skip(1);
    d.name = lines.text();
    lines.skip(3);
    read_sizes(lines, d);
    lines.skip(1);
    const double light_output = lines.real("the light output ratio in per cent");
    double factor = lines.real("the conversion factor for intensities");
    lines.skip(1);
    const int sets = lines.whole("the number of lamp sets", 1, 20);
    if (lines.problem()) return *lines.problem();
    const Lamps lamps = read_lamps(lines, sets, d.notes);
    lines.skip(10); // direct ratios
    if (auto bad = read_planes(lines, d, symmetry, planes, gammas, file)) return *bad;
    if (factor == 0.0) {
        factor = 1.0;
        d.notes.emplace_back("Its conversion factor is zero; 1 is taken.");
    }
    if (!(lamps.lumens > 0.0))
        return Problem{file, "a lamp flux of " + number_text(lamps.lumens) + " lm",
                       "gives no intensities: they are stored for each 1000 lm"};
    if (light_output <= 0.0) d.notes.emplace_back("Its light output ratio is zero.");
    if (lamps.absolute) d.notes.emplace_back("Absolute photometry: the flux is the luminaire's.");
    d.stated_lumens = lamps.lumens;
    d.watts = lamps.watts;
    for (double& value : d.candela) {
        if (value < 0.0) return Problem{file, "a negative intensity", "must be zero or more"};
        value *= lamps.lumens / 1000.0 * factor;
    }
    if (auto bad = complete(d, symmetry, file)) return *bad;
    return d;
}

} // namespace keystead
