#include "engine/plate/raster.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace keystead {

namespace {

/// Is there ink at this place of a dashed line?
bool inked(std::span<const float> dash, float along) {
    if (dash.empty()) return true;
    float length = 0.0F;
    for (const float part : dash) length += part;
    float at = std::fmod(along, length);
    bool stroke = true;
    for (const float part : dash) {
        if (at < part) return stroke;
        at -= part;
        stroke = !stroke;
    }
    return stroke;
}

/// A side of a square of the grid, named by the place at its lower or left end.
struct Side {
    int column, row;
    bool upright;
    auto operator<=>(const Side&) const = default;
};

using Ends = std::map<Side, std::vector<Side>>;

class Crossings {
public:
    Crossings(std::span<const float> field, int columns, float level)
        : field_(field)
        , columns_(columns)
        , level_(level) {}
    bool above(int column, int row) const { return at(column, row) > level_; }
    bool crosses(const Side& side) const {
        return above(side.column, side.row) !=
               above(side.column + (side.upright ? 0 : 1), side.row + (side.upright ? 1 : 0));
    }
    glm::vec2 point(const Side& side) const {
        const float a = at(side.column, side.row);
        const float b = at(side.column + (side.upright ? 0 : 1), side.row + (side.upright ? 1 : 0));
        const float share = (level_ - a) / (b - a);
        return glm::vec2(side.column, side.row) +
               share * (side.upright ? glm::vec2(0, 1) : glm::vec2(1, 0));
    }

private:
    float at(int column, int row) const {
        return field_[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
                      static_cast<std::size_t>(column)];
    }
    std::span<const float> field_;
    int columns_;
    float level_;
};

/// Joins the crossings of one square in pairs, round the square: a saddle's are joined as they
/// come.
void join(const Crossings& crossings, int column, int row, Ends& ends) {
    const std::array<Side, 4> round{Side{column, row, false}, Side{column + 1, row, true},
                                    Side{column, row + 1, false}, Side{column, row, true}};
    std::vector<Side> crossed;
    for (const Side& side : round)
        if (crossings.crosses(side)) crossed.push_back(side);
    for (std::size_t i = 0; i + 1 < crossed.size(); i += 2) {
        ends[crossed[i]].push_back(crossed[i + 1]);
        ends[crossed[i + 1]].push_back(crossed[i]);
    }
}

/// Follows a line from one of its sides, taking it out of `ends`.
std::vector<glm::vec2> follow(const Crossings& crossings, Side at, Ends& ends) {
    std::vector<glm::vec2> line{crossings.point(at)};
    for (;;) {
        const auto here = ends.find(at);
        if (here == ends.end() || here->second.empty()) return line;
        const Side next = here->second.back();
        here->second.pop_back();
        std::erase(ends[next], at);
        line.push_back(crossings.point(next));
        at = next;
    }
}

} // namespace

FineCanvas::FineCanvas(int width_px, int height_px, const glm::u8vec3& paper)
    : width_(width_px * fineness)
    , height_(height_px * fineness)
    , pixels_(static_cast<std::size_t>(width_) * static_cast<std::size_t>(height_), paper) {}

void FineCanvas::put(int x, int y, const glm::u8vec3& colour) {
    if (x < 0 || y < 0 || x >= width_ || y >= height_) return;
    pixels_[static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) +
            static_cast<std::size_t>(x)] = colour;
}

void FineCanvas::fill(float left, float top, float right, float bottom, const glm::u8vec3& colour) {
    const auto fine = [](float a) { return static_cast<int>(std::lround(a * fineness)); };
    for (int y = fine(top); y < fine(bottom); ++y)
        for (int x = fine(left); x < fine(right); ++x) put(x, y, colour);
}

void FineCanvas::disc(const glm::vec2& middle, float radius, const glm::u8vec3& colour) {
    const glm::vec2 at = middle * float(fineness);
    const float r = radius * fineness;
    for (int y = static_cast<int>(std::floor(at.y - r)); y <= static_cast<int>(at.y + r); ++y)
        for (int x = static_cast<int>(std::floor(at.x - r)); x <= static_cast<int>(at.x + r); ++x)
            if (glm::distance(glm::vec2(float(x) + 0.5F, float(y) + 0.5F), at) <= r)
                put(x, y, colour);
}

float FineCanvas::line(const glm::vec2& from, const glm::vec2& to, float width,
                       const glm::u8vec3& colour, std::span<const float> dash, float along) {
    const float length = glm::distance(from, to);
    const int steps = std::max(1, static_cast<int>(std::ceil(length * fineness * 2.0F)));
    for (int i = 0; i <= steps; ++i) {
        const float share = static_cast<float>(i) / static_cast<float>(steps);
        if (inked(dash, along + share * length))
            disc(glm::mix(from, to, share), 0.5F * width, colour);
    }
    return along + length;
}

RgbaImage FineCanvas::averaged() const {
    RgbaImage picture;
    picture.width = width_ / fineness;
    picture.height = height_ / fineness;
    picture.pixels.assign(4 * static_cast<std::size_t>(picture.width) *
                              static_cast<std::size_t>(picture.height),
                          255);
    constexpr int count = fineness * fineness;
    for (int y = 0; y < picture.height; ++y)
        for (int x = 0; x < picture.width; ++x) {
            glm::ivec3 sum(0);
            for (int i = 0; i < count; ++i)
                sum += glm::ivec3(pixels_[static_cast<std::size_t>(y * fineness + i / fineness) *
                                              static_cast<std::size_t>(width_) +
                                          static_cast<std::size_t>(x * fineness + i % fineness)]);
            const std::size_t at =
                4 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.width) +
                     static_cast<std::size_t>(x));
            for (int c = 0; c < 3; ++c)
                picture.pixels[at + static_cast<std::size_t>(c)] =
                    static_cast<std::uint8_t>((sum[c] + count / 2) / count);
        }
    return picture;
}

std::vector<std::vector<glm::vec2>> level_lines(std::span<const float> field, int columns, int rows,
                                                float level) {
    const Crossings crossings(field, columns, level);
    Ends ends;
    for (int row = 0; row + 1 < rows; ++row)
        for (int column = 0; column + 1 < columns; ++column) join(crossings, column, row, ends);
    std::vector<std::vector<glm::vec2>> lines;
    // Open lines first, from their ends; what is left goes round.
    for (const bool open : {true, false})
        for (auto& [side, next] : ends)
            while (open ? next.size() == 1 : !next.empty())
                lines.push_back(follow(crossings, side, ends));
    return lines;
}

} // namespace keystead
