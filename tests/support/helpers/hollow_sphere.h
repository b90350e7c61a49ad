// A sphere seen from inside, for checks against Ulbricht's integrating sphere.
#pragma once

#include "sim/base/mesh.h"
#include "sim/base/vec.h"

#include <cmath>
#include <memory>

namespace keystead {

inline std::shared_ptr<const Mesh> hollow_sphere(double radius_m, int rings) {
    auto mesh = std::make_shared<Mesh>();
    const int turns = 2 * rings;
    for (int i = 0; i <= rings; ++i)
        for (int j = 0; j < turns; ++j) {
            const double polar = pi * i / rings, turn = 2.0 * pi * j / turns;
            const Vec3 n(std::sin(polar) * std::cos(turn), std::cos(polar),
                         std::sin(polar) * std::sin(turn));
            mesh->positions_m.emplace_back(radius_m * n);
            mesh->normals.emplace_back(-n);
        }
    const auto at = [&](int i, int j) { return static_cast<glm::uint>(i * turns + j % turns); };
    for (int i = 0; i < rings; ++i)
        for (int j = 0; j < turns; ++j) {
            mesh->triangles.emplace_back(at(i, j), at(i, j + 1), at(i + 1, j + 1));
            mesh->triangles.emplace_back(at(i, j), at(i + 1, j + 1), at(i + 1, j));
        }
    return mesh;
}

} // namespace keystead
