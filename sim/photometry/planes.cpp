#include "sim/photometry/planes.h"

#include "sim/set/json_text.h"

#include <cmath>

namespace keystead::photometry {

namespace {

using Planes = std::vector<std::pair<double, std::vector<double>>>;

Planes planes_of(const Distribution& d) {
    Planes planes;
    for (std::size_t h = 0; h < d.horizontal_deg.size(); ++h) {
        const auto start =
            d.candela.begin() + static_cast<std::ptrdiff_t>(h * d.vertical_deg.size());
        planes.emplace_back(
            d.horizontal_deg[h],
            std::vector<double>(start, start + static_cast<std::ptrdiff_t>(d.vertical_deg.size())));
    }
    return planes;
}

void set_planes(Distribution& d, const Planes& planes) {
    d.horizontal_deg.clear();
    d.candela.clear();
    for (const auto& [angle, values] : planes) {
        d.horizontal_deg.push_back(angle);
        d.candela.insert(d.candela.end(), values.begin(), values.end());
    }
}

/// Appends the planes' mirror images about the last one: last + (last - angle).
void mirror_about_last(Planes& planes) {
    const double last = planes.back().first;
    for (std::size_t i = planes.size() - 1; i-- > 0;)
        planes.emplace_back(2.0 * last - planes[i].first, planes[i].second);
}

bool near(double a, double b) {
    return std::abs(a - b) < 1e-6;
}

/// 90..270, the same on either side of the plane through 90 and 270: 0..90 are 180..90 reversed.
void turn_about_side(Planes& planes) {
    Planes whole;
    for (auto plane = planes.rbegin(); plane != planes.rend(); ++plane)
        if (plane->first < 180.0 + 1e-6) whole.emplace_back(180.0 - plane->first, plane->second);
    for (std::size_t i = 1; i < planes.size(); ++i) whole.push_back(planes[i]);
    for (std::size_t i = planes.size() - 1; i-- > 0;)
        if (planes[i].first > 180.0 - 1e-6)
            whole.emplace_back(540.0 - planes[i].first, planes[i].second);
    planes = std::move(whole);
}

void mirror_vertical(Distribution& d) {
    const std::size_t count = d.vertical_deg.size();
    std::vector<double> angles;
    for (std::size_t v = count - 1; v > 0; --v) angles.push_back(-d.vertical_deg[v]);
    angles.insert(angles.end(), d.vertical_deg.begin(), d.vertical_deg.end());
    std::vector<double> candela;
    for (std::size_t h = 0; h < d.horizontal_deg.size(); ++h) {
        for (std::size_t v = count - 1; v > 0; --v) candela.push_back(d.at(h, v));
        for (std::size_t v = 0; v < count; ++v) candela.push_back(d.at(h, v));
    }
    d.vertical_deg = std::move(angles);
    d.candela = std::move(candela);
}

} // namespace

Outcome rising(const std::vector<double>& angles_deg, const std::string& what,
               const std::string& file) {
    for (std::size_t i = 1; i < angles_deg.size(); ++i)
        if (angles_deg[i] <= angles_deg[i - 1])
            return Problem{
                file, what + " " + std::to_string(i + 1) + " (" + number_text(angles_deg[i]) + ")",
                "is not above the one before it (" + number_text(angles_deg[i - 1]) +
                    "); angles must rise"};
    return {};
}

Outcome complete_turn(Distribution& d, const std::string& file) {
    const double first = d.horizontal_deg.front(), last = d.horizontal_deg.back();
    if (d.horizontal_deg.size() == 1) {
        if (!near(first, 0.0))
            return Problem{file, "a single horizontal angle of " + number_text(first),
                           "must be 0: the beam is the same all round"};
        d.horizontal_deg = {0.0};
        return {};
    }
    Planes planes = planes_of(d);
    if (near(first, 90.0) && near(last, 270.0)) {
        turn_about_side(planes);
    } else if (near(first, 0.0) && (near(last, 90.0) || near(last, 180.0))) {
        if (near(last, 90.0)) mirror_about_last(planes);
        mirror_about_last(planes);
    } else if (near(first, 0.0) && last < 360.0 - 1e-6 && last > 180.0 &&
               near(last + planes[1].first, 360.0)) {
        d.notes.push_back("The plane at 360° is missing; the one at 0° closes the turn.");
        planes.emplace_back(360.0, planes.front().second);
    } else if (!near(first, 0.0) || !near(last, 360.0)) {
        return Problem{file, "horizontal angles " + number_text(first) + " to " + number_text(last),
                       "are none of 0, 0 to 90, 0 to 180, 0 to 360 and 90 to 270"};
    }
    set_planes(d, planes);
    return {};
}

void complete_halves(Distribution& d) {
    if (near(d.vertical_deg.front(), 0.0) && d.vertical_deg.size() > 1) mirror_vertical(d);
    if (!near(d.horizontal_deg.front(), 0.0) || d.horizontal_deg.size() == 1) return;
    Planes planes = planes_of(d), whole;
    for (std::size_t i = planes.size() - 1; i > 0; --i)
        whole.emplace_back(-planes[i].first, planes[i].second);
    whole.insert(whole.end(), planes.begin(), planes.end());
    set_planes(d, whole);
}

} // namespace keystead::photometry
