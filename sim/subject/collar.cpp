// The collar: a soft band swept round the line where the neck hole meets the cloth.
#include "sim/subject/body.h"

namespace keystead::sculpt {

namespace {

constexpr int around = 96;

// Across the band: distance from the hole's edge, and height over the cloth.
struct Ridge {
    double from_edge, over_cloth;
};
constexpr Ridge profile[] = {{0.6, -5.5}, {-0.6, -0.6}, {0.2, 1.1},  {2.2, 1.9},  {6.0, 2.1},
                             {10.0, 1.9}, {13.0, 1.3},  {14.6, 0.2}, {15.2, -1.6}};

template <class F>
Vec3 slope_of(F&& value, const Vec3& p) {
    constexpr double e = 0.5;
    return Vec3(value(p + Vec3(e, 0, 0)) - value(p - Vec3(e, 0, 0)),
                value(p + Vec3(0, e, 0)) - value(p - Vec3(0, e, 0)),
                value(p + Vec3(0, 0, e)) - value(p - Vec3(0, 0, e))) /
           (2.0 * e);
}

// Where a ray from the middle of the neck leaves the hole.
Vec3 leave_hole(const ClothField& cloth, const Vec3& centre, const Vec3& direction) {
    double low = 0.0, high = 260.0;
    for (int i = 0; i < 18; ++i) {
        const double middle = 0.5 * (low + high);
        (cloth.hole(centre + direction * middle) < 0.0 ? low : high) = middle;
    }
    return centre + direction * low;
}

// The collar's edge in one direction: up the hole's wall until it comes out of the cloth.
Vec3 edge_point(const ClothField& cloth, const Vec3& centre, const Vec3& out) {
    const auto wall = [&](double angle) {
        return leave_hole(cloth, centre, out * std::cos(angle) + Vec3(0, std::sin(angle), 0));
    };
    double low = radians(-75.0), high = low;
    while (high < radians(50.0) && cloth.at(wall(high)) < 0.0) low = high, high += radians(5.0);
    for (int i = 0; i < 14; ++i) {
        const double middle = 0.5 * (low + high);
        (cloth.at(wall(middle)) < 0.0 ? low : high) = middle;
    }
    return wall(low);
}

void add_normals(Mesh& mesh) {
    mesh.normals.assign(mesh.positions_m.size(), glm::vec3(0.0F));
    for (const glm::uvec3& t : mesh.triangles) {
        const auto& p = mesh.positions_m;
        const glm::vec3 area = glm::cross(p[t.y] - p[t.x], p[t.z] - p[t.x]);
        for (glm::length_t e = 0; e < 3; ++e) mesh.normals[t[e]] += area;
    }
    for (glm::vec3& n : mesh.normals) n /= std::max(glm::length(n), 1e-20F);
}

} // namespace

CollarLine collar_line(const Shape& shape, const ClothField& cloth) {
    CollarLine line;
    line.centre_mm = shape.from_canonical({0, -138, -28});
    for (int i = 0; i < around; ++i) {
        const double turn = 2.0 * pi * i / around;
        line.points_mm.push_back(
            edge_point(cloth, line.centre_mm, {std::sin(turn), 0.0, std::cos(turn)}));
    }
    return line;
}

bool under_collar(const CollarLine& line, const ClothField& cloth, const Vec3& p) {
    constexpr double covered_mm = 7.0;
    const Vec3 from = p - line.centre_mm;
    if (from.y < -120.0 || from.y > 120.0 || std::hypot(from.x, from.z) > 160.0) return false;
    if (cloth.hole(p) < 0.0) return true;
    const double turn = std::atan2(from.x, from.z) / (2.0 * pi) * around;
    const double whole = std::floor(turn);
    const auto at = [&](double i) {
        return line.points_mm[static_cast<std::size_t>(static_cast<int>(i) + around) % around];
    };
    return glm::length(p - glm::mix(at(whole), at(whole + 1.0), turn - whole)) < covered_mm;
}

Mesh collar_mesh(const CollarLine& line, const ClothField& cloth) {
    constexpr auto rows = static_cast<std::uint32_t>(std::size(profile));
    const auto shell = [&](const Vec3& x) { return cloth.at(x); };
    Mesh mesh;
    for (int i = 0; i < around; ++i) {
        const double turn = 2.0 * pi * i / around;
        const Vec3 out(std::sin(turn), 0.0, std::cos(turn));
        const Vec3 across(out.z, 0.0, -out.x);
        const auto in_plane = [&](const Vec3& x) {
            const Vec3 g = slope_of(shell, x);
            return g - across * glm::dot(across, g);
        };
        const Vec3 edge = line.points_mm[static_cast<std::size_t>(i)];
        const Vec3 normal = glm::normalize(in_plane(edge));
        const Vec3 along(normal.y * out.x, -glm::dot(normal, out), normal.y * out.z);
        for (const Ridge& ridge : profile) {
            Vec3 foot = edge + along * ridge.from_edge;
            Vec3 n = normal;
            if (ridge.from_edge > 1.0)
                for (int step = 0; step < 3; ++step) {
                    n = in_plane(foot);
                    foot -= n * (cloth.at(foot) / std::max(glm::dot(n, n), 0.1));
                    n = glm::normalize(n);
                }
            mesh.positions_m.emplace_back((foot + n * ridge.over_cloth) * 1e-3);
        }
    }
    for (std::uint32_t i = 0; i < around; ++i) {
        const std::uint32_t here = i * rows, next = (i + 1) % around * rows;
        for (std::uint32_t r = 0; r + 1 < rows; ++r) {
            mesh.triangles.emplace_back(here + r, here + r + 1, next + r + 1);
            mesh.triangles.emplace_back(here + r, next + r + 1, next + r);
        }
    }
    add_normals(mesh);
    return mesh;
}

} // namespace keystead::sculpt
