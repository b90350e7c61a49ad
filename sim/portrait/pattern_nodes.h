// What a key does to the face from the corners of a net of directions, and what lies between them.
#pragma once

#include "sim/portrait/measure.h"

#include <array>
#include <functional>
#include <optional>
#include <vector>

namespace keystead {

/// Measures from one direction; those of a key on the midline count for both sides.
struct PatternNode {
    /// By side: key on the subject's right, left. The patch is measured whether closed off or not.
    std::array<std::optional<FaceMeasures>, 2> face;
    bool arrives = false; ///< does anything of the lamp reach a plate at the face?
    bool fine = false;    ///< measured on the fine chart, else on the coarse one or mixed
};

/// A net over azimuth -180..180 and some elevations, nodes `step_deg` apart.
class PatternNet {
public:
    /// `key` in the head's frame, at `distance_m`.
    PatternNet(const FaceChart& chart, const Emitter& key, double distance_m, double step_deg,
               double low_deg, double high_deg);

    int columns() const { return columns_; }
    int rows() const { return rows_; }
    Angles angles_at(int column, int row) const {
        return {-180.0 + column * step_deg_, low_deg_ + row * step_deg_};
    }

    /// Measures nodes: first every other one on the coarse chart, those between where names around
    /// them differ, then nodes beside another name on the fine chart. Leaves off once `stop` says
    /// true.
    /// Not `fine`: the last step is left out.
    void measure(bool fine = true, const std::function<bool()>& stop = {});

    /// From the four nodes around: each measure in proportion, then the tests of a pattern.
    Pattern name_at(Angles angles) const;
    int measured_coarse() const { return coarse_; }
    int measured_fine() const { return fine_; }

private:
    std::size_t index(int column, int row) const {
        return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
               static_cast<std::size_t>(column);
    }
    bool in_first_pass(int column, int row) const;
    std::array<std::size_t, 4> first_around(int column, int row) const;
    PatternNode read_node(int column, int row, bool fine) const;
    void read_nodes(const std::vector<std::size_t>& which, bool fine);
    std::optional<PatternNode> guess(int column, int row) const;
    void measure_first();
    std::vector<std::size_t> beside_other_names() const;
    Pattern node_name(std::size_t node) const;

    const FaceChart& chart_;
    Emitter key_;
    double distance_m_, step_deg_, low_deg_;
    int columns_, rows_, coarse_ = 0, fine_ = 0;
    std::vector<PatternNode> nodes_;
    std::function<bool()> stop_;
};

} // namespace keystead
