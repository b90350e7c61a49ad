#include "sim/portrait/measure.h"

#include "sim/portrait/thresholds.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

namespace limit = pattern_threshold;

// Windows of the face, chart millimetres and degrees (see PatternReading for what they feed).
constexpr double front_half_angle_deg = 50.0, front_bottom_mm = -108.0, front_top_mm = 50.0;
constexpr double midline_mm = 4.0; ///< near and far halves begin this far from it
constexpr double side_from_deg = 55.0, side_bottom_mm = -90.0, side_top_mm = 0.0;
constexpr double chin_from_mm = 2.0, chin_to_mm = 34.0, chin_half_width_mm = 9.0; ///< below mouth
constexpr double forehead_bottom_mm = 30.0, forehead_top_mm = 60.0, forehead_half_width_mm = 45.0;
constexpr double eye_half_width_mm = 6.0, eye_half_height_mm = 3.0;
constexpr double lip_half_width_mm = 7.0;

/// Area of a window and how much of it passes a test.
struct Share {
    double area = 0.0, passed = 0.0;
    void count(double area_mm2, bool pass) {
        area += area_mm2;
        if (pass) passed += area_mm2;
    }
    double value() const { return area > 0.0 ? passed / area : 0.0; }
};

struct Mean {
    double weight = 0.0, sum = 0.0;
    void add(double value, double its_weight) {
        weight += its_weight;
        sum += value * its_weight;
    }
    double value(double fallback = 0.0) const { return weight > 0.0 ? sum / weight : fallback; }
};

struct Blurred {
    std::vector<double> level, nose_share;
};

bool in_front(const MirroredChart& view, std::size_t cell) {
    const Region region = view.grid().region[cell];
    return std::abs(view.angle_deg(cell)) <= front_half_angle_deg &&
           view.y(cell) > front_bottom_mm && view.y(cell) < front_top_mm &&
           region != Region::nose && region != Region::hair;
}

void measure_areas(const MirroredChart& view, const Blurred& light, FaceMeasures& result) {
    const ChartGrid& grid = view.grid();
    Share front, near, far, faint, side;
    for (std::size_t cell = 0; cell < grid.size(); ++cell) {
        if (grid.covered[cell] == 0) continue;
        const double area = grid.area_mm2[cell], x = view.x(cell), y = view.y(cell);
        const bool lit = light.level[cell] > limit::lit;
        if (in_front(view, cell)) {
            front.count(area, lit);
            if (x > midline_mm) near.count(area, lit);
            if (x < -midline_mm) far.count(area, lit);
            if (x < -midline_mm) faint.count(area, light.level[cell] > limit::faint);
        }
        if (std::abs(view.angle_deg(cell)) > side_from_deg && y > side_bottom_mm && y < side_top_mm)
            side.count(area, lit);
    }
    result.front_lit = front.value();
    result.near_lit = near.value();
    result.far_lit = far.value();
    result.far_faint = faint.value();
    result.side_lit = 2.0 * side.value(); // one side fully lit is 1
}

void measure_zones(const FaceLines& lines, const MirroredChart& view, const Blurred& light,
                   const FaceLight& raw, FaceMeasures& result) {
    const ChartGrid& grid = view.grid();
    Share chin, forehead;
    Mean near_eye, far_eye;
    for (std::size_t cell = 0; cell < grid.size(); ++cell) {
        if (grid.covered[cell] == 0) continue;
        const double area = grid.area_mm2[cell], x = view.x(cell), y = view.y(cell);
        const double below_mouth = lines.mouth_mm - y;
        if (std::abs(x) < chin_half_width_mm && below_mouth > chin_from_mm &&
            below_mouth < chin_to_mm)
            chin.count(area, light.level[cell] <= limit::lit);
        if (std::abs(x) < forehead_half_width_mm && y > forehead_bottom_mm && y < forehead_top_mm &&
            grid.region[cell] != Region::hair)
            forehead.count(area, light.level[cell] > limit::forehead);
        if (std::abs(y) < eye_half_height_mm &&
            std::abs(std::abs(x) - lines.eye_x_mm) < eye_half_width_mm)
            (x > 0.0 ? near_eye : far_eye).add(raw.seen[cell], area);
    }
    result.chin_dark = chin.value();
    result.forehead_lit = forehead.value();
    result.eye_seen[0] = near_eye.value();
    result.eye_seen[1] = far_eye.value();
}

/// Where the nose's shadow lies and how much key it costs. Lost light hardly depends on the lamp's
/// size, where the area of a shadow does. Sums are taken unblurred: a blur would carry some of the
/// shadow onto the nose itself, which does not count.
void measure_nose(const FaceLines& lines, const MirroredChart& view, const Blurred& light,
                  const FaceLight& raw, FaceMeasures& result) {
    const ChartGrid& grid = view.grid();
    Mean height, shift, anywhere;
    for (std::size_t cell = 0; cell < grid.size(); ++cell) {
        if (grid.covered[cell] == 0 || grid.region[cell] == Region::nose) continue;
        const double lost = raw.nose_level[cell] * grid.area_mm2[cell];
        const double x = view.x(cell), y = view.y(cell);
        result.nose_lost_mm2 += lost;
        if (raw.open_level[cell] > limit::lit)
            result.nose_core = std::max(result.nose_core, light.nose_share[cell]);
        height.add(y, lost);
        anywhere.add(x, lost);
        if (y < lines.nose_base_mm) {
            const double below = std::min(limit::tip_reach_mm, lines.nose_base_mm - y);
            shift.add(x, lost * below * below);
        }
        if (grid.region[cell] == Region::lip && std::abs(x) < lip_half_width_mm &&
            light.nose_share[cell] > 0.5 && raw.open_level[cell] > limit::lit)
            result.lip_touched = true;
        if (in_front(view, cell))
            result.hair_lost_mm2 += raw.hair_level[cell] * grid.area_mm2[cell];
    }
    result.shadow_height_mm = height.value();
    result.tip_shift_mm = shift.value(anywhere.value());
}

} // namespace

FaceMeasures measure_face(const FaceChart& chart, const MirroredChart& view, const FaceLight& light,
                          bool open_patch) {
    const Blurred blur{blurred(view.grid(), light.level, limit::blur_mm),
                       blurred(view.grid(), light.nose_share, limit::blur_mm)};
    FaceMeasures result;
    measure_areas(view, blur, result);
    measure_zones(chart.lines, view, blur, light, result);
    measure_nose(chart.lines, view, blur, light, result);
    result.enclosure = find_enclosure(chart.lines, view, blur.level);
    if (open_patch || result.enclosure.stops() >= limit::joined_stops)
        result.patch = measure_patch(chart.lines, view, blur.level, result.enclosure);
    return result;
}

} // namespace keystead
