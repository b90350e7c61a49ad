#include "engine/ui/face_lesson.h"

#include "engine/plate/raster.h"
#include "sim/portrait/read.h"
#include "sim/review/sight.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead::ui {

namespace {

/// A surface seen flatter than this is a sliver in the picture.
constexpr double flattest = 0.15;
/// The posed skin lies this close to the chart's.
constexpr double skin_m = 6e-3;
/// Smaller shadows are left without a word, and shorter lines undrawn.
constexpr double least_word_mm2 = 160.0, least_line_mm = 14.0;
constexpr std::size_t most_words = 5;

/// The chart as the camera has it.
struct SeenChart {
    const FaceChart& chart;
    const ChartGrid& grid;
    Mat3 axes;
    Vec3 origin_m;
    CameraFrame camera;
    std::vector<std::uint8_t> seen; ///< by cell

    Vec3 in_room(const Vec3& place_mm) const { return origin_m + axes * chart.metres(place_mm); }
    std::optional<Vec2> in_picture_at(const Vec3& place_mm) const {
        Vec2 at(0.0);
        if (!in_picture(camera, in_room(place_mm), at)) return {};
        return at;
    }
};

SeenChart see(const Studio& studio, const FaceChart& chart) {
    const ChartGrid& grid = chart.fine;
    SeenChart seen{chart,
                   grid,
                   studio.subject->head_axes,
                   studio.subject->head_origin_m,
                   camera_frame(studio.set.camera),
                   std::vector<std::uint8_t>(grid.size(), 0)};
    std::vector<Segment> ways;
    std::vector<std::size_t> cells;
    for (std::size_t cell = 0; cell < grid.size(); ++cell) {
        if (!on_skin(grid, cell)) continue;
        const Vec3 place = seen.in_room(grid.place_mm[cell]);
        const Vec3 to_eye = glm::normalize(seen.camera.eye_m - place);
        if (glm::dot(seen.axes * grid.normal[cell], to_eye) < flattest) continue;
        ways.push_back({seen.camera.eye_m - sight_start_m * to_eye, place});
        cells.push_back(cell);
    }
    std::vector<std::uint8_t> blocked(ways.size());
    studio.rays->blocked_many(ways, ray_mask::all, blocked, skin_m);
    for (std::size_t i = 0; i < cells.size(); ++i) seen.seen[cells[i]] = blocked[i] == 0 ? 1 : 0;
    return seen;
}

/// The two cells beside a point of a level line, and how far it is from the first to the second.
struct Beside {
    std::size_t a = 0, b = 0;
    double share = 0.0;
};

Beside beside(const ChartGrid& grid, const glm::vec2& point) {
    const int column = std::clamp(static_cast<int>(point.x), 0, grid.columns - 1);
    const int row = std::clamp(static_cast<int>(point.y), 0, grid.rows - 1);
    const double u = static_cast<double>(point.x) - column, v = static_cast<double>(point.y) - row;
    const int next_column = std::min(column + (u > v ? 1 : 0), grid.columns - 1);
    const int next_row = std::min(row + (u > v ? 0 : (v > 0.0 ? 1 : 0)), grid.rows - 1);
    return {grid.cell_at(column, row), grid.cell_at(next_column, next_row), std::max(u, v)};
}

double length_of_mm(const std::vector<Vec3>& line) {
    double length = 0.0;
    for (std::size_t i = 1; i < line.size(); ++i) length += glm::distance(line[i - 1], line[i]);
    return length;
}

/// Level lines of a field over the chart, cut where `drawn` says no of a cell beside them.
template <class Drawn>
void add_lines(const SeenChart& seen, const std::vector<double>& field, bool lit_edge,
               const Drawn& drawn, FaceLesson& lesson) {
    const std::vector<float> single(field.begin(), field.end());
    std::vector<Vec3> line;
    const auto end_line = [&] {
        FaceLesson::Line told;
        told.lit_edge = lit_edge;
        if (length_of_mm(line) >= least_line_mm)
            for (const Vec3& place : line)
                if (const auto at = seen.in_picture_at(place)) told.at.push_back(*at);
        if (told.at.size() > 1) lesson.lines.push_back(std::move(told));
        line.clear();
    };
    for (const auto& points : level_lines(single, seen.grid.columns, seen.grid.rows, 0.5F)) {
        for (const glm::vec2& point : points) {
            const Beside cells = beside(seen.grid, point);
            if (seen.seen[cells.a] == 0 || seen.seen[cells.b] == 0 || !drawn(cells.a) ||
                !drawn(cells.b))
                end_line();
            else
                line.push_back(glm::mix(seen.grid.place_mm[cells.a], seen.grid.place_mm[cells.b],
                                        cells.share));
        }
        end_line();
    }
}

void tell_lines(const SeenChart& seen, const FaceShadows& shadows, FaceLesson& lesson) {
    add_lines(
        seen, shadows.seen, true, [](std::size_t) { return true; }, lesson);
    // Between kinds of shadow: around each kind, well inside the dark. What is turned away has no
    // line of its own, its neighbours do.
    constexpr double dark = 0.35, smooth_mm = 2.5;
    for (std::size_t kind = 2; kind < shadow_cause_count; ++kind) {
        std::vector<double> inside(seen.grid.size(), 0.0);
        double cells = 0.0;
        for (std::size_t cell = 0; cell < inside.size(); ++cell)
            if (shadows.cause[cell] == static_cast<ShadowCause>(kind)) inside[cell] = 1.0, ++cells;
        if (cells * seen.grid.cell_mm * seen.grid.cell_mm < least_word_mm2) continue;
        add_lines(
            seen, blurred(seen.grid, inside, smooth_mm), false,
            [&](std::size_t cell) { return shadows.seen[cell] < dark; }, lesson);
    }
}

/// The seen cell of an area that is furthest from whatever is not seen of it.
std::optional<std::size_t> middle_of(const SeenChart& seen, const ShadowArea& area,
                                     double& seen_mm2) {
    std::vector<int> depth(seen.grid.size(), 0);
    std::vector<std::size_t> cells;
    seen_mm2 = 0.0;
    for (const std::size_t cell : area.cells)
        if (seen.seen[cell] != 0) {
            cells.push_back(cell);
            depth[cell] = 1000;
            seen_mm2 += seen.grid.area_mm2[cell];
        }
    // Twice over the area, forward and back, gives the distance in cells to its edge.
    std::sort(cells.begin(), cells.end());
    const auto columns = static_cast<std::size_t>(seen.grid.columns);
    const auto at = [&](std::size_t cell, std::size_t less, std::size_t more) {
        return cell + more >= less && cell + more - less < depth.size() ? depth[cell + more - less]
                                                                        : 0;
    };
    for (const std::size_t cell : cells)
        depth[cell] = std::min({depth[cell], at(cell, 1, 0) + 1, at(cell, columns, 0) + 1});
    for (std::size_t i = cells.size(); i-- > 0;)
        depth[cells[i]] =
            std::min({depth[cells[i]], at(cells[i], 0, 1) + 1, at(cells[i], 0, columns) + 1});
    const auto best = std::max_element(cells.begin(), cells.end(),
                                       [&](auto a, auto b) { return depth[a] < depth[b]; });
    if (best == cells.end()) return {};
    return *best;
}

void tell_words(const SeenChart& seen, const FaceShadows& shadows, FaceLesson& lesson) {
    const auto known = [&](const std::string& words) {
        return std::any_of(lesson.words.begin(), lesson.words.end(),
                           [&](const FaceLesson::Word& word) { return word.words == words; });
    };
    const std::vector<ShadowArea> areas = shadow_areas(seen.grid, shadows);
    // The patch and the nose's shadow make the pattern: they come first however small they are.
    for (const bool first : {true, false})
        for (const ShadowArea& area : areas) {
            const std::string words = words_of(area);
            const bool makes_pattern = area.is_patch || area.cause == ShadowCause::nose;
            if (words.empty() || makes_pattern != first || known(words) ||
                lesson.words.size() >= most_words)
                continue;
            double seen_mm2 = 0.0;
            std::optional<std::size_t> cell = middle_of(seen, area, seen_mm2);
            if (area.is_patch && shadows.patch && seen.seen[*shadows.patch] != 0)
                cell = shadows.patch;
            if (!cell || seen_mm2 < (first ? 0.15 : 1.0) * least_word_mm2) continue;
            if (const auto at = seen.in_picture_at(seen.grid.place_mm[*cell]))
                lesson.words.push_back({words, *at});
        }
}

void widen(FaceLesson::Box& box, const Vec2& at) {
    box.low = glm::min(box.low, at);
    box.high = glm::max(box.high, at);
}

void tell_boxes(const SeenChart& seen, FaceLesson& lesson) {
    constexpr double half_width_mm = 17.0, half_height_mm = 10.0;
    std::array<FaceLesson::Box, 2> eyes;
    for (std::size_t cell = 0; cell < seen.grid.size(); ++cell) {
        if (seen.seen[cell] == 0) continue;
        const Vec3& place = seen.grid.place_mm[cell];
        const auto at = seen.in_picture_at(place);
        if (!at) continue;
        widen(lesson.face, *at);
        const double aside = std::abs(std::abs(place.x) - seen.chart.lines.eye_x_mm);
        if (aside < half_width_mm && std::abs(place.y) < half_height_mm)
            widen(eyes[place.x > 0.0 ? 1 : 0], *at);
    }
    for (const FaceLesson::Box& eye : eyes)
        if (!eye.empty()) lesson.eyes.push_back(eye);
}

std::string part_words(Region region) {
    switch (region) {
    case Region::cheek:
        return "cheek ";
    case Region::brow:
        return "forehead ";
    case Region::chin:
        return "chin ";
    case Region::neck:
        return "neck ";
    default:
        return {};
    }
}

} // namespace

std::string words_of(const ShadowArea& area) {
    const bool of_jaw = area.cause == ShadowCause::cheek || area.cause == ShadowCause::chin;
    if (of_jaw && area.mostly == Region::neck) return "jaw shadow";
    switch (area.cause) {
    case ShadowCause::nothing:
        return area.is_patch ? "lit patch" : "";
    case ShadowCause::turned_away:
        // Lids, lips and the nose's own flanks turn away under any light: not worth a word.
        return part_words(area.mostly).empty() ? "" : part_words(area.mostly) + "turned away";
    case ShadowCause::nose:
        return "nose shadow";
    case ShadowCause::brow:
        return "brow shadow";
    case ShadowCause::lid:
        return "lid shadow";
    case ShadowCause::hair:
        return "hair shadow";
    case ShadowCause::hat:
        return "hat shadow";
    case ShadowCause::glasses:
        return "shadow of the glasses";
    case ShadowCause::ear:
        return "ear shadow";
    case ShadowCause::lip:
        return "lip shadow";
    case ShadowCause::cheek:
        return "cheek shadow";
    case ShadowCause::chin:
        return "chin shadow";
    case ShadowCause::body:
        return "shadow of the shoulder or neck";
    case ShadowCause::room:
        return "something in the room";
    }
    return {};
}

FaceLesson teach_face(const std::shared_ptr<const Studio>& studio, std::size_t light,
                      const FaceChart& chart) {
    FaceLesson lesson;
    lesson.studio = studio;
    const PosedSubject& subject = *studio->subject;
    Emitter lamp =
        in_head_frame(chart, studio->emitters[light], subject.head_axes, subject.head_origin_m);
    lamp.power = lamp.exitance = 1.0;
    lesson.light = lamp.light;
    const FaceLight on_face = light_on_face(chart, chart.fine, lamp);
    lesson.reading = read_face(chart, chart.fine, lamp, on_face);
    if (on_face.plate_exposure <= 0.0) return lesson;
    const RoomAround around{studio->rays.get(), ray_mask::gear | ray_mask::panel, subject.head_axes,
                            subject.head_origin_m};
    const FaceShadows shadows = shadows_on_face(chart, lamp, on_face, around);
    const SeenChart seen = see(*studio, chart);
    tell_boxes(seen, lesson);
    tell_lines(seen, shadows, lesson);
    tell_words(seen, shadows, lesson);
    return lesson;
}

} // namespace keystead::ui
