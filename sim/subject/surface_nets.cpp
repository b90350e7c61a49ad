#include "sim/subject/cell_sheets.h"
#include "sim/subject/surface.h"

#include <cstdint>
#include <tbb/parallel_for.h>

namespace keystead::sculpt {

std::vector<double> graded_axis(double from, std::initializer_list<AxisSegment> segments) {
    std::vector<double> axis{from};
    for (const AxisSegment& segment : segments) {
        const double start = axis.back();
        const int count =
            std::max(1, static_cast<int>(std::lround((segment.to - start) / segment.step)));
        for (int i = 1; i <= count; ++i) axis.push_back(mix(start, segment.to, double(i) / count));
    }
    return axis;
}

std::vector<double> mirror_axis(std::initializer_list<AxisSegment> segments) {
    const double half = 0.5 * segments.begin()->step;
    std::vector<double> axis = graded_axis(half, segments);
    axis.insert(axis.begin(), -half);
    return axis;
}

namespace {

constexpr std::uint32_t several = 0x80000000U; ///< flag: the first of a cell's several points

// The sampled grid and its walk. Corners and cells are numbered x fastest.
class Nets {
public:
    Nets(const Field& field, const GridAxes& axes)
        : axes_(axes)
        , nx_(axes.x.size())
        , ny_(axes.y.size())
        , nz_(axes.z.size()) {
        sample(field);
    }

    Surface run() {
        surface_.mirrored = axes_.mirrored();
        point_of_.assign(nx_ * ny_ * nz_, 0);
        for (std::size_t k = 0; k + 1 < nz_; ++k)
            for (std::size_t j = 0; j + 1 < ny_; ++j)
                for (std::size_t i = 0; i + 1 < nx_; ++i) place_points(i, j, k);
        for (std::size_t k = 1; k + 1 < nz_; ++k)
            for (std::size_t j = 1; j + 1 < ny_; ++j)
                for (std::size_t i = 1; i + 1 < nx_; ++i) link(i, j, k);
        return std::move(surface_);
    }

private:
    static constexpr std::size_t block = 6;

    std::size_t index(std::size_t i, std::size_t j, std::size_t k) const {
        return i + nx_ * (j + ny_ * k);
    }
    Vec3 corner(std::size_t i, std::size_t j, std::size_t k) const {
        return {axes_.x[i], axes_.y[j], axes_.z[k]};
    }

    // Blocks whose middle is far from the surface are filled with that one value.
    void sample(const Field& field) {
        value_.assign(nx_ * ny_ * nz_, 0.0F);
        const std::size_t slabs = (nz_ + block - 1) / block;
        tbb::parallel_for(std::size_t{0}, slabs, [&](std::size_t slab) {
            for (std::size_t j = 0; j < ny_; j += block)
                for (std::size_t i = 0; i < nx_; i += block)
                    sample_block(field, i, j, slab * block);
        });
    }

    void sample_block(const Field& field, std::size_t i0, std::size_t j0, std::size_t k0) {
        const std::size_t i1 = std::min(i0 + block, nx_), j1 = std::min(j0 + block, ny_);
        const std::size_t k1 = std::min(k0 + block, nz_);
        const Vec3 low = corner(i0, j0, k0), high = corner(i1 - 1, j1 - 1, k1 - 1);
        const double half = 0.5 * glm::length(high - low);
        const double middle = field.at(0.5 * (low + high));
        // Fields may rise 1.6 times too slowly; the margin covers their blends.
        const bool far = std::abs(middle) > 1.6 * half + 8.0;
        for (std::size_t k = k0; k < k1; ++k)
            for (std::size_t j = j0; j < j1; ++j)
                for (std::size_t i = i0; i < i1; ++i)
                    value_[index(i, j, k)] =
                        static_cast<float>(far ? middle : field.at(corner(i, j, k)));
    }

    unsigned inside_of(std::size_t cell) const {
        unsigned inside = 0;
        for (unsigned c = 0; c < 8; ++c)
            if (value_[cell + (c & 1U) + nx_ * (((c >> 1U) & 1U) + ny_ * (c >> 2U))] < 0.0F)
                inside |= 1U << c;
        return inside;
    }

    Vec3 crossing(std::size_t i, std::size_t j, std::size_t k, unsigned low, unsigned axis) const {
        const unsigned high = low | (1U << axis);
        const std::size_t ia = i + (low & 1U), ja = j + ((low >> 1U) & 1U), ka = k + (low >> 2U);
        const std::size_t ib = i + (high & 1U), jb = j + ((high >> 1U) & 1U), kb = k + (high >> 2U);
        const double fa = value_[index(ia, ja, ka)], fb = value_[index(ib, jb, kb)];
        return glm::mix(corner(ia, ja, ka), corner(ib, jb, kb), fa / (fa - fb));
    }

    // One point for each sheet of surface that passes the cell.
    void place_points(std::size_t i, std::size_t j, std::size_t k) {
        const std::size_t cell = index(i, j, k);
        const Sheets& sheets = sheets_of(inside_of(cell));
        if (sheets.count == 0) return;
        point_of_[cell] =
            static_cast<std::uint32_t>(surface_.points.size()) | (sheets.count > 1 ? several : 0U);
        for (std::uint8_t sheet = 0; sheet < sheets.count; ++sheet) {
            Vec3 sum(0.0);
            int crossings = 0;
            bool left = false, right = false;
            for (unsigned edge = 0; edge < 24; ++edge) {
                if (sheets.of_edge[edge] != sheet) continue;
                sum += crossing(i, j, k, edge % 8, edge / 8);
                ++crossings;
                (edge & 1U ? right : left) = true;
            }
            Vec3 point = sum / double(crossings);
            // A sheet beside the mirror plane has a twin on its other side.
            if (surface_.mirrored && i == 0 && left == right) point.x = 0.0;
            surface_.points.push_back(point);
        }
    }

    std::uint32_t point_at(std::size_t cell, unsigned axis, unsigned low) const {
        const std::uint32_t point = point_of_[cell];
        if ((point & several) == 0) return point;
        return (point & ~several) + sheets_of(inside_of(cell)).of_edge[axis * 8 + low];
    }

    // Quads of the three grid edges that start at a corner.
    void link(std::size_t i, std::size_t j, std::size_t k) {
        const bool inside = value_[index(i, j, k)] < 0.0F;
        const auto crosses = [&](std::size_t other) { return (value_[other] < 0.0F) != inside; };
        // The cells round each edge, and which of their corners it starts from.
        if (crosses(index(i + 1, j, k)))
            quad(point_at(index(i, j - 1, k - 1), 0, 6), point_at(index(i, j, k - 1), 0, 4),
                 point_at(index(i, j, k), 0, 0), point_at(index(i, j - 1, k), 0, 2), inside);
        if (crosses(index(i, j + 1, k)))
            quad(point_at(index(i - 1, j, k - 1), 1, 5), point_at(index(i - 1, j, k), 1, 1),
                 point_at(index(i, j, k), 1, 0), point_at(index(i, j, k - 1), 1, 4), inside);
        if (crosses(index(i, j, k + 1)))
            quad(point_at(index(i - 1, j - 1, k), 2, 3), point_at(index(i, j - 1, k), 2, 2),
                 point_at(index(i, j, k), 2, 0), point_at(index(i - 1, j, k), 2, 1), inside);
    }

    void quad(std::uint32_t a, std::uint32_t b, std::uint32_t c, std::uint32_t d, bool forward) {
        const auto& p = surface_.points;
        const bool split_ac =
            glm::dot(p[a] - p[c], p[a] - p[c]) <= glm::dot(p[b] - p[d], p[b] - p[d]);
        const auto add = [&](std::uint32_t x, std::uint32_t y, std::uint32_t z) {
            surface_.triangles.push_back(forward ? glm::uvec3(x, y, z) : glm::uvec3(x, z, y));
        };
        if (split_ac)
            add(a, b, c), add(a, c, d);
        else
            add(a, b, d), add(b, c, d);
    }

    const GridAxes& axes_;
    std::size_t nx_, ny_, nz_;
    std::vector<float> value_;
    std::vector<std::uint32_t> point_of_;
    Surface surface_;
};

} // namespace

Surface surface_nets(const Field& field, const GridAxes& axes) {
    Surface surface = Nets(field, axes).run();
    part_sheets(surface);
    return surface;
}

} // namespace keystead::sculpt
