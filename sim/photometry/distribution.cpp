#include "sim/photometry/distribution.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace keystead {

namespace {

constexpr double degree = std::numbers::pi / 180.0;

/// Where `angle` lies in a rising list: lower index and the share toward the next.
struct Place {
    std::size_t index = 0;
    double share = 0.0;
    bool inside = false;
};

Place place_in(const std::vector<double>& angles_deg, double angle_deg) {
    constexpr double slack = 1e-9;
    if (angle_deg < angles_deg.front() - slack || angle_deg > angles_deg.back() + slack) return {};
    const auto above = std::upper_bound(angles_deg.begin(), angles_deg.end(), angle_deg);
    if (above == angles_deg.end()) return {angles_deg.size() - 1, 0.0, true};
    if (above == angles_deg.begin()) return {0, 0.0, true};
    const auto index = static_cast<std::size_t>(above - angles_deg.begin()) - 1;
    const double width = angles_deg[index + 1] - angles_deg[index];
    return {index, (angle_deg - angles_deg[index]) / width, true};
}

double along_vertical(const Distribution& d, std::size_t h, const Place& v) {
    const double low = d.at(h, v.index);
    return v.share > 0.0 ? low + v.share * (d.at(h, v.index + 1) - low) : low;
}

/// Mean over H of each V, weighted as linear interpolation between the planes weighs them.
std::vector<double> mean_over_planes(const Distribution& d) {
    std::vector<double> mean(d.vertical_deg.size(), 0.0);
    if (d.horizontal_deg.size() == 1) {
        for (std::size_t v = 0; v < mean.size(); ++v) mean[v] = d.at(0, v);
        return mean;
    }
    for (std::size_t h = 0; h + 1 < d.horizontal_deg.size(); ++h) {
        const double share = (d.horizontal_deg[h + 1] - d.horizontal_deg[h]) / 360.0;
        for (std::size_t v = 0; v < mean.size(); ++v)
            mean[v] += share * 0.5 * (d.at(h, v) + d.at(h + 1, v));
    }
    return mean;
}

/// Integral of (low + slope (t - a)) sin t from a to b, radians.
double zone(double a, double b, double low, double high) {
    const double slope = (high - low) / (b - a);
    return low * std::cos(a) - high * std::cos(b) + slope * (std::sin(b) - std::sin(a));
}

double lumens_by_steps(const Distribution& d) {
    constexpr int steps = 180;
    double sum = 0.0;
    for (int i = 0; i < steps; ++i) {
        const double v = i + 0.5 - 90.0;
        for (int k = 0; k < steps; ++k) {
            const double h = k + 0.5 - 90.0;
            const double narrow = std::cos((d.type == Goniometer::type_b ? h : v) * degree);
            sum += candela_at(d, v, h) * narrow;
        }
    }
    return sum * degree * degree;
}

} // namespace

double candela_at(const Distribution& d, double vertical_deg, double horizontal_deg) {
    const Place v = place_in(d.vertical_deg, vertical_deg);
    if (!v.inside) return 0.0;
    if (d.horizontal_deg.size() == 1) return along_vertical(d, 0, v);
    if (d.type == Goniometer::type_c) {
        horizontal_deg = std::fmod(horizontal_deg, 360.0);
        if (horizontal_deg < 0.0) horizontal_deg += 360.0;
    }
    const Place h = place_in(d.horizontal_deg, horizontal_deg);
    if (!h.inside) return 0.0;
    const double low = along_vertical(d, h.index, v);
    return h.share > 0.0 ? low + h.share * (along_vertical(d, h.index + 1, v) - low) : low;
}

double candela_toward(const Distribution& d, const Vec3& w) {
    switch (d.type) {
    case Goniometer::type_b:
        return candela_at(d, std::atan2(w.y, w.z) / degree,
                          std::atan2(w.x, std::hypot(w.y, w.z)) / degree);
    case Goniometer::type_a:
        return candela_at(d, std::atan2(w.y, std::hypot(w.x, w.z)) / degree,
                          std::atan2(w.x, w.z) / degree);
    case Goniometer::type_c:
        break;
    }
    return candela_at(d, std::atan2(std::hypot(w.x, w.y), w.z) / degree,
                      std::atan2(w.y, w.x) / degree);
}

double lumens_of(const Distribution& d) {
    if (d.type != Goniometer::type_c) return lumens_by_steps(d);
    const std::vector<double> mean = mean_over_planes(d);
    double sum = 0.0;
    for (std::size_t v = 0; v + 1 < mean.size(); ++v)
        sum +=
            zone(d.vertical_deg[v] * degree, d.vertical_deg[v + 1] * degree, mean[v], mean[v + 1]);
    return 2.0 * std::numbers::pi * sum;
}

double zonal_lumens(const Distribution& d, double zone_deg) {
    Distribution mean = d;
    mean.candela = mean_over_planes(d);
    mean.horizontal_deg = {0.0};
    double sum = 0.0;
    const int zones = static_cast<int>(std::lround(180.0 / zone_deg));
    for (int i = 0; i < zones; ++i)
        sum += (std::cos(i * zone_deg * degree) - std::cos((i + 1) * zone_deg * degree)) *
               candela_at(mean, (i + 0.5) * zone_deg, 0.0);
    return 2.0 * std::numbers::pi * sum;
}

double peak_candela(const Distribution& d) {
    return d.candela.empty() ? 0.0 : *std::max_element(d.candela.begin(), d.candela.end());
}

double beam_angle_deg(const Distribution& d, double horizontal_deg, double share) {
    const double least = share * peak_candela(d);
    double whole = 0.0;
    for (const double side : {horizontal_deg, horizontal_deg + 180.0}) {
        double reach = 0.0;
        for (double v = 0.0; v <= 180.0; v += 0.1)
            if (candela_at(d, v, side) >= least) reach = v;
        whole += reach;
    }
    return whole;
}

} // namespace keystead
