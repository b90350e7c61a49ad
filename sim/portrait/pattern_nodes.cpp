#include "sim/portrait/pattern_nodes.h"

#include "sim/portrait/decide.h"
#include "sim/portrait/mixed_measures.h"
#include "sim/portrait/moved_key.h"
#include "sim/portrait/thresholds.h"

#include <algorithm>
#include <cmath>
#include <tbb/parallel_for.h>

namespace keystead {

namespace {

Pattern name_of(FaceMeasures face, Angles angles, const FaceChart& chart) {
    // Measured everywhere so that it can be mixed; it counts where it is closed off.
    if (face.enclosure.stops() < pattern_threshold::joined_stops) face.patch.reset();
    return decide_pattern(face, direction_from(angles), chart).pattern;
}

bool on_midline(double azimuth_deg) {
    return std::abs(std::sin(radians(azimuth_deg))) < 1e-9;
}

/// Names that hang on the nose's shadow, a few cells wide. The others hang on shares of large
/// areas, which the coarse chart gives within a per cent.
bool needs_fine_chart(Pattern name) {
    return name == Pattern::butterfly || name == Pattern::loop || name == Pattern::rembrandt ||
           name == Pattern::flat;
}

std::size_t side_of(double azimuth_deg) {
    return azimuth_deg < 0.0 ? 0 : 1;
}

} // namespace

PatternNet::PatternNet(const FaceChart& chart, const Emitter& key, double distance_m,
                       double step_deg, double low_deg, double high_deg)
    : chart_(chart)
    , key_(key)
    , distance_m_(distance_m)
    , step_deg_(step_deg)
    , low_deg_(low_deg)
    , columns_(static_cast<int>(std::lround(360.0 / step_deg)) + 1)
    , rows_(static_cast<int>(std::lround((high_deg - low_deg) / step_deg)) + 1)
    , nodes_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_)) {}

PatternNode PatternNet::read_node(int column, int row, bool fine) const {
    const Angles angles = angles_at(column, row);
    const ChartGrid& grid = fine ? chart_.fine : chart_.coarse;
    const FaceLight light =
        light_on_face(chart_, grid, moved_key(chart_, key_, angles, distance_m_));
    PatternNode node;
    node.fine = fine;
    node.arrives = light.plate_exposure > 0.0;
    for (const std::size_t side : {0U, 1U})
        if (side == side_of(angles.azimuth_deg) || on_midline(angles.azimuth_deg))
            node.face[side] =
                measure_face(chart_, MirroredChart(grid, side == 0 ? -1.0 : 1.0), light, true);
    return node;
}

void PatternNet::read_nodes(const std::vector<std::size_t>& which, bool fine) {
    tbb::parallel_for(std::size_t{0}, which.size(), [&](std::size_t i) {
        if (stop_ && stop_()) return;
        const auto columns = static_cast<std::size_t>(columns_);
        nodes_[which[i]] = read_node(static_cast<int>(which[i] % columns),
                                     static_cast<int>(which[i] / columns), fine);
    });
    (fine ? fine_ : coarse_) += static_cast<int>(which.size());
}

Pattern PatternNet::node_name(std::size_t node) const {
    const auto columns = static_cast<std::size_t>(columns_);
    const Angles angles =
        angles_at(static_cast<int>(node % columns), static_cast<int>(node / columns));
    const std::optional<FaceMeasures>& face = nodes_[node].face[side_of(angles.azimuth_deg)];
    if (!face || !nodes_[node].arrives) return Pattern::none;
    return name_of(*face, angles, chart_);
}

bool PatternNet::in_first_pass(int column, int row) const {
    return column % 2 == 0 && (row % 2 == 0 || row == rows_ - 1);
}

std::array<std::size_t, 4> PatternNet::first_around(int column, int row) const {
    const bool row_is_first = in_first_pass(0, row), column_is_first = column % 2 == 0;
    const int below = row_is_first ? row : row - 1, above = row_is_first ? row : row + 1;
    const int left = column_is_first ? column : column - 1;
    const int right = column_is_first ? column : column + 1;
    return {index(left, below), index(right, below), index(left, above), index(right, above)};
}

/// What a node would be between nodes that agree about the name; nothing where they do not.
std::optional<PatternNode> PatternNet::guess(int column, int row) const {
    const std::array<std::size_t, 4> around = first_around(column, row);
    const std::size_t side = side_of(angles_at(column, row).azimuth_deg);
    MixedMeasures mean;
    for (const std::size_t node : around) {
        if (!nodes_[node].face[side] || !nodes_[node].arrives ||
            node_name(node) != node_name(around[0]))
            return {};
        mean.add(*nodes_[node].face[side], 0.25);
    }
    PatternNode mixed;
    mixed.arrives = true;
    mixed.face[side] = mean.mean();
    return mixed;
}

void PatternNet::measure_first() {
    std::vector<std::size_t> first, unsure;
    for (int row = 0; row < rows_; ++row)
        for (int column = 0; column < columns_; ++column)
            if (in_first_pass(column, row)) first.push_back(index(column, row));
    read_nodes(first, false);
    for (int row = 0; row < rows_; ++row)
        for (int column = 0; column < columns_; ++column) {
            if (in_first_pass(column, row)) continue;
            // The midline's own nodes count for both sides: never guessed.
            const bool both = on_midline(angles_at(column, row).azimuth_deg);
            std::optional<PatternNode> mixed = both ? std::nullopt : guess(column, row);
            if (mixed)
                nodes_[index(column, row)] = *std::move(mixed);
            else
                unsure.push_back(index(column, row));
        }
    read_nodes(unsure, false);
}

/// Nodes not yet measured on the fine chart that have a neighbour of another name, where one of the
/// two needs it.
std::vector<std::size_t> PatternNet::beside_other_names() const {
    std::vector<Pattern> names(nodes_.size());
    for (std::size_t node = 0; node < nodes_.size(); ++node) names[node] = node_name(node);
    std::vector<std::size_t> found;
    for (int row = 0; row < rows_; ++row)
        for (int column = 0; column < columns_; ++column) {
            const std::size_t node = index(column, row);
            if (nodes_[node].fine) continue;
            bool differs = false;
            for (int r = std::max(0, row - 1); r <= std::min(rows_ - 1, row + 1); ++r)
                for (int c = std::max(0, column - 1); c <= std::min(columns_ - 1, column + 1); ++c)
                    differs =
                        differs ||
                        (names[index(c, r)] != names[node] &&
                         (needs_fine_chart(names[node]) || needs_fine_chart(names[index(c, r)])));
            if (differs) found.push_back(node);
        }
    return found;
}

void PatternNet::measure(bool fine, const std::function<bool()>& stop) {
    stop_ = stop;
    measure_first();
    const auto stopped = [&] { return stop && stop(); };
    if (!fine) return;
    for (auto nodes = beside_other_names(); !nodes.empty() && !stopped();
         nodes = beside_other_names())
        read_nodes(nodes, true);
}

Pattern PatternNet::name_at(Angles angles) const {
    const auto place = [this](double at_deg, double first_deg, int count) {
        return std::clamp((at_deg - first_deg) / step_deg_, 0.0, count - 1.0);
    };
    const double x = place(angles.azimuth_deg, -180.0, columns_);
    const double y = place(angles.elevation_deg, low_deg_, rows_);
    const int column = std::min(static_cast<int>(x), columns_ - 2);
    const int row = std::min(static_cast<int>(y), rows_ - 2);
    const double u = x - column, v = y - row;
    // Left of the middle of its cell: a net's cell never spans the midline.
    const std::size_t side = side_of(angles_at(column, row).azimuth_deg);
    MixedMeasures mean;
    double arrives = 0.0;
    for (const int r : {0, 1})
        for (const int c : {0, 1}) {
            const PatternNode& node = nodes_[index(column + c, row + r)];
            const double weight = (c == 0 ? 1.0 - u : u) * (r == 0 ? 1.0 - v : v);
            if (node.arrives) arrives += weight;
            if (node.face[side]) mean.add(*node.face[side], weight);
        }
    if (arrives < 0.5) return Pattern::none;
    return name_of(mean.mean(), angles, chart_);
}

} // namespace keystead
