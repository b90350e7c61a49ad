// "Object files (.obj)", format description version 3.0: vertex data (v, vn), elements (f),
// relative references, line continuation. Colours behind a vertex are common practice.
#include "sim/import/obj_data.h"
#include "sim/import/text_numbers.h"

#include <algorithm>
#include <limits>

namespace keystead::importing::obj {

namespace {

/// One line under way: where it is, for problems.
struct Line {
    std::string_view rest;
    std::uint64_t number;
    const Blame& blame;

    Problem damaged(const std::string& found) const {
        return blame.damaged("line " + std::to_string(number), found);
    }
};

/// Up to seven numbers of a vertex; how many there were.
Result<std::size_t> read_numbers(Line& line, std::array<double, 7>& numbers, bool& had_comma) {
    std::size_t count = 0;
    while (count < numbers.size()) {
        const std::string_view word = take_word(line.rest);
        if (word.empty() || word.front() == '#') break;
        const std::optional<double> value = real_in(word, had_comma);
        if (!value) return line.damaged(in_quotes(word) + " is not a usable number");
        numbers[count++] = *value;
    }
    return count;
}

/// Beyond this, lengths and areas no longer fit in single precision.
constexpr double farthest = 1e9;

Outcome read_vertex(Line& line, const ImportLimits& limits, Data& data) {
    std::array<double, 7> n{};
    const Result<std::size_t> count = read_numbers(line, n, data.decimal_commas);
    if (!count) return count.problem();
    if (count.value() < 3)
        return line.damaged("a vertex with " + std::to_string(count.value()) + " numbers");
    if (std::max({std::abs(n[0]), std::abs(n[1]), std::abs(n[2])}) > farthest)
        return line.damaged("the vertex is not a usable position");
    if (data.positions.size() >= limits.max_vertices)
        return line.blame.problem("line " + std::to_string(line.number),
                                  "more than " + std::to_string(limits.max_vertices) + " vertices",
                                  "reduce the mesh before exporting");
    data.positions.emplace_back(n[0], n[1], n[2]);
    // x y z r g b, with or without alpha; four numbers are a weight.
    if (count.value() >= 6) {
        data.colours.resize(data.positions.size() - 1, glm::vec3(-1.0F));
        data.colours.emplace_back(n[3], n[4], n[5]);
    }
    return std::nullopt;
}

Outcome read_normal(Line& line, const ImportLimits& limits, Data& data) {
    std::array<double, 7> n{};
    const Result<std::size_t> count = read_numbers(line, n, data.decimal_commas);
    if (!count) return count.problem();
    if (count.value() < 3)
        return line.damaged("a normal with " + std::to_string(count.value()) + " numbers");
    if (data.normals.size() >= 3 * limits.max_triangles)
        return line.blame.problem("line " + std::to_string(line.number), "too many normals",
                                  "reduce the mesh before exporting");
    const double largest = std::max({std::abs(n[0]), std::abs(n[1]), std::abs(n[2]), 1e-300});
    data.normals.emplace_back(n[0] / largest, n[1] / largest, n[2] / largest);
    return std::nullopt;
}

/// An index as written, from 1; negative ones count back from the last one listed so far.
Result<std::uint32_t> read_reference(const Line& line, std::string_view word, std::size_t listed,
                                     const char* what, Highest& highest) {
    const std::optional<std::int64_t> written = whole_in(word);
    if (!written) return line.damaged(in_quotes(word) + " is not an index");
    if (*written == 0) return line.damaged(std::string(what) + " index 0; OBJ counts from 1");
    const auto count = static_cast<std::int64_t>(listed);
    if (*written < -count || *written > std::numeric_limits<std::int32_t>::max())
        return line.damaged(std::string(what) + " index " + std::to_string(*written) +
                            " points beyond the " + std::to_string(listed) + " listed");
    const auto index = static_cast<std::uint32_t>(*written > 0 ? *written : count + 1 + *written);
    if (index > highest.index) highest = {index, line.number};
    return index;
}

/// A corner: `v`, `v/vt`, `v//vn` or `v/vt/vn`. Texture indices are not used, so not looked at.
struct Corner {
    std::uint32_t position = 0, normal = 0;
};

Result<Corner> read_corner(const Line& line, std::string_view word, Data& data) {
    Corner corner;
    const std::size_t slash = word.find('/');
    const Result<std::uint32_t> position = read_reference(
        line, word.substr(0, slash), data.positions.size(), "vertex", data.highest_position);
    if (!position) return position.problem();
    corner.position = position.value();
    const std::size_t second = slash == std::string_view::npos ? slash : word.find('/', slash + 1);
    const std::string_view normal =
        second == std::string_view::npos ? std::string_view() : word.substr(second + 1);
    (normal.empty() ? data.corners_without_normal : data.corners_with_normal) = true;
    if (normal.empty()) return corner;
    const Result<std::uint32_t> index =
        read_reference(line, normal, data.normals.size(), "normal", data.highest_normal);
    if (!index) return index.problem();
    corner.normal = index.value();
    return corner;
}

void add_triangle(Data& data, const std::vector<Corner>& corners) {
    data.triangles.emplace_back(corners[0].position, corners[1].position, corners[2].position);
    if (!data.corners_with_normal) return;
    data.triangle_normals.resize(data.triangles.size() - 1, glm::uvec3(0));
    data.triangle_normals.emplace_back(corners[0].normal, corners[1].normal, corners[2].normal);
}

void add_polygon(Data& data, const std::vector<Corner>& corners) {
    data.polygon_sizes.push_back(static_cast<std::uint32_t>(corners.size()));
    for (const Corner& corner : corners) {
        data.polygon_corners.push_back(corner.position);
        data.polygon_normals.push_back(corner.normal);
    }
}

Outcome read_face(Line& line, const ImportLimits& limits, Data& data) {
    std::vector<Corner> corners;
    for (;;) {
        const std::string_view word = take_word(line.rest);
        if (word.empty() || word.front() == '#') break;
        const Result<Corner> corner = read_corner(line, word, data);
        if (!corner) return corner.problem();
        corners.push_back(corner.value());
    }
    if (corners.size() < 3) {
        ++data.short_faces;
        return std::nullopt;
    }
    data.triangle_count += corners.size() - 2;
    if (data.triangle_count > limits.max_triangles)
        return line.blame.problem("line " + std::to_string(line.number),
                                  "more than " + std::to_string(limits.max_triangles) +
                                      " triangles",
                                  "reduce the mesh before exporting");
    if (corners.size() == 3)
        add_triangle(data, corners);
    else
        add_polygon(data, corners);
    return std::nullopt;
}

bool is_one_of(std::string_view word, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

void count_other(std::string_view keyword, Data& data) {
    if (is_one_of(keyword, {"mtllib", "usemtl"}))
        data.has_materials = true;
    else if (is_one_of(keyword, {"l", "p"}))
        ++data.lines_and_points;
    else if (is_one_of(keyword, {"vp", "cstype", "deg", "bmat", "step", "curv", "curv2", "surf",
                                 "parm", "trim", "hole", "scrv", "sp", "end", "con"}))
        ++data.free_form;
    else if (!is_one_of(keyword, {"vt", "g", "s", "o", "mg", "bevel", "c_interp", "d_interp", "lod",
                                  "shadow_obj", "trace_obj", "ctech", "stech"}))
        ++data.unknown;
}

Outcome check_highest(const Highest& highest, std::size_t listed, const char* what,
                      const Blame& blame) {
    if (highest.index <= listed) return std::nullopt;
    return blame.damaged("line " + std::to_string(highest.line),
                         std::string(what) + " index " + std::to_string(highest.index) +
                             " points beyond the " + std::to_string(listed) + " listed");
}

} // namespace

Outcome read_line(std::string_view text, std::uint64_t number, const ImportLimits& limits,
                  const Blame& blame, Data& data) {
    Line line{text, number, blame};
    const std::string_view keyword = take_word(line.rest);
    if (keyword.empty() || keyword.front() == '#') return std::nullopt;
    if (keyword == "v") return read_vertex(line, limits, data);
    if (keyword == "vn") return read_normal(line, limits, data);
    if (keyword == "f" || keyword == "fo") return read_face(line, limits, data);
    count_other(keyword, data);
    return std::nullopt;
}

Outcome check_references(const Data& data, const Blame& blame) {
    if (Outcome bad = check_highest(data.highest_position, data.positions.size(), "vertex", blame))
        return bad;
    return check_highest(data.highest_normal, data.normals.size(), "normal", blame);
}

} // namespace keystead::importing::obj
