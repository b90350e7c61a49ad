#include "sim/photometry/polar_plot.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <sstream>

namespace keystead {

namespace {

constexpr double degree = std::numbers::pi / 180.0;
constexpr double middle = 260.0, reach = 200.0;

/// 1, 2 or 5 times a power of ten, so that four or five rings reach the peak.
double ring_step(double peak) {
    if (!(peak > 0.0)) return 1.0;
    const double power = std::pow(10.0, std::floor(std::log10(peak / 4.0)));
    for (const double step : {1.0, 2.0, 5.0})
        if (step * power >= peak / 5.0) return step * power;
    return 10.0 * power;
}

std::string escaped(const std::string& text) {
    std::string safe;
    for (const char c : text) {
        if (c == '<' || c == '>' || c == '&' || static_cast<unsigned char>(c) < 0x20 ||
            static_cast<unsigned char>(c) > 0x7E)
            safe += '?';
        else
            safe += c;
    }
    return safe;
}

/// Toward `angle_deg` from the axis, in the section along the length (0) or across it (1).
double in_section(const Distribution& d, int section, double angle_deg) {
    const double s = std::sin(angle_deg * degree), c = std::cos(angle_deg * degree);
    return candela_toward(d, section == 0 ? Vec3(s, 0.0, c) : Vec3(0.0, s, c));
}

void curve(std::ostream& out, const Distribution& d, int section, double scale) {
    out << R"(<path fill="none" stroke="#000" stroke-width="2")"
        << (section == 1 ? R"( stroke-dasharray="7 5")" : "") << R"( d=")";
    for (int i = -180; i <= 180; ++i) {
        const double r = in_section(d, section, i) * scale;
        out << (i == -180 ? 'M' : 'L') << middle + r * std::sin(i * degree) << ' '
            << middle + r * std::cos(i * degree);
    }
    out << "\"/>\n";
}

void rings(std::ostream& out, double step, double full, double scale) {
    for (double value = step; value <= full * 1.0001; value += step) {
        out << R"(<circle cx="260" cy="260" r=")" << value * scale
            << R"(" fill="none" stroke="#bbb"/>)"
            << R"(<text x="264" y=")" << middle - value * scale - 3.0 << R"(" fill="#555">)"
            << value << "</text>\n";
    }
    for (int angle = 0; angle < 360; angle += 30)
        out << R"(<line x1="260" y1="260" x2=")" << middle + reach * std::sin(angle * degree)
            << R"(" y2=")" << middle + reach * std::cos(angle * degree) << R"(" stroke="#ddd"/>)"
            << R"(<text text-anchor="middle" fill="#555" x=")"
            << middle + (reach + 18.0) * std::sin(angle * degree) << R"(" y=")"
            << middle + (reach + 18.0) * std::cos(angle * degree) + 5.0 << R"(">)"
            << std::min(angle, 360 - angle) << "°</text>\n";
}

} // namespace

std::string polar_plot_svg(const Distribution& d) {
    const double step = ring_step(peak_candela(d));
    const double full = std::max(step, std::ceil(peak_candela(d) / step) * step);
    const double scale = reach / full;
    std::ostringstream out;
    out.precision(6);
    out << R"(<svg xmlns="http://www.w3.org/2000/svg" width="520" height="580" font-family="sans-serif" font-size="13">)"
        << "\n<rect width=\"520\" height=\"580\" fill=\"#fff\"/>\n";
    rings(out, step, full, scale);
    for (const int section : {0, 1}) curve(out, d, section, scale);
    out << R"(<text x="20" y="540">)" << escaped(d.name.empty() ? d.format : d.name) << "</text>\n"
        << R"(<text x="20" y="560">cd; whole line: along its length, broken: across; )"
        << std::lround(lumens_of(d)) << " lm in all</text>\n</svg>\n";
    return out.str();
}

} // namespace keystead
