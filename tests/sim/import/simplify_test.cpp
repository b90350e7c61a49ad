// A coarser surface against the surface it stands for: a sphere, whose distance is known anywhere.
#include "sim/import/simplify.h"
#include "support/helpers/mesh_files.h"

#include <catch2/catch.hpp>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <fstream>

using namespace keystead;
using namespace keystead::mesh_files;

namespace {

constexpr double pi_value = 3.14159265358979323846;

/// A sphere of radius 0.1 as OBJ: `rings` by 2 `rings` faces of four, with normals; at the poles
/// two corners of a face lie in one place.
std::string sphere_obj(int rings) {
    const int around = 2 * rings;
    std::string text = "# a sphere\n";
    text.reserve(static_cast<std::size_t>(rings) * static_cast<std::size_t>(around) * 130);
    char line[160];
    for (int i = 0; i <= rings; ++i)
        for (int j = 0; j < around; ++j) {
            const double a = pi_value * i / rings, b = 2.0 * pi_value * j / around;
            const double x = std::sin(a) * std::cos(b), y = std::cos(a),
                         z = std::sin(a) * std::sin(b);
            std::snprintf(line, sizeof line, "v %.7f %.7f %.7f\nvn %.5f %.5f %.5f\n", 0.1 * x,
                          0.1 * y, 0.1 * z, x, y, z);
            text += line;
        }
    for (int i = 0; i < rings; ++i)
        for (int j = 0; j < around; ++j) {
            const int a = i * around + j + 1, b = i * around + (j + 1) % around + 1;
            const int c = a + around, d = b + around;
            std::snprintf(line, sizeof line, "f %d//%d %d//%d %d//%d %d//%d\n", a, a, b, b, d, d, c,
                          c);
            text += line;
        }
    return text;
}

/// Largest distance of the surface from the sphere, at corners, edge middles and face middles.
double sphere_error(const Mesh& mesh, double radius) {
    double worst = 0.0;
    for (const glm::uvec3& t : mesh.triangles) {
        const glm::dvec3 a(mesh.positions_m[t.x]), b(mesh.positions_m[t.y]),
            c(mesh.positions_m[t.z]);
        for (const glm::dvec3& p :
             {a, 0.5 * (a + b), 0.5 * (b + c), 0.5 * (c + a), (a + b + c) / 3.0})
            worst = std::max(worst, std::abs(glm::length(p) - radius));
    }
    return worst;
}

double seconds_since(std::chrono::steady_clock::time_point start) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

} // namespace

TEST_CASE("A simplified sphere keeps budget, volume and distance", "[import]") {
    const ImportedMesh sphere = loaded_obj(sphere_obj(90));
    CHECK(sphere.mesh.positions_m.size() > 16'000);
    const double volume = 4.0 / 3.0 * pi_value * 1e-3;
    CHECK(volume_of(sphere.mesh) == Approx(volume).epsilon(2e-3));
    for (const std::size_t budget : {8000UL, 2000UL, 500UL}) {
        const SimplifiedMesh coarse = simplify(sphere.mesh, budget);
        CHECK(coarse.mesh.triangles.size() <= budget);
        CHECK(coarse.mesh.triangles.size() > budget * 8 / 10);
        CHECK(coarse.kept_topology);
        CHECK(coarse.mesh.normals.size() == coarse.mesh.positions_m.size());
        // n equal equilateral triangles on a sphere sag by 16 pi r / (6 sqrt 3 n) = 4.84 r / n
        // between their corners (sagitta of a chord); collapses are not that even, least of all
        // at the poles of this grid.
        const double sag = 4.84 * 0.1 / static_cast<double>(budget);
        const double error = sphere_error(coarse.mesh, 0.1);
        INFO("budget " << budget << ", error " << error << ", estimate " << coarse.error);
        CHECK(error < 5.0 * sag + 1e-5);
        // The library's figure is an estimate: of the right size, not a bound.
        CHECK(coarse.error > 0.05 * error);
        CHECK(coarse.error < 5.0 * error);
        CHECK(volume_of(coarse.mesh) == Approx(volume).epsilon(4.0 * sag / 0.1 + 2e-3));
    }
    const SimplifiedMesh same = simplify(sphere.mesh, 1'000'000);
    CHECK(same.error == 0.0);
    CHECK(same.mesh.triangles.size() == sphere.mesh.triangles.size());
    const SimplifiedMesh once = simplify(sphere.mesh, 1000), again = simplify(sphere.mesh, 1000);
    CHECK(once.mesh.positions_m == again.mesh.positions_m);
}

TEST_CASE("Thousands of separate pieces still come within the budget", "[import]") {
    Mesh crumbs;
    for (int i = 0; i < 2000; ++i) {
        const auto first = static_cast<glm::uint>(crumbs.positions_m.size());
        const glm::vec3 at(0.01F * static_cast<float>(i % 20),
                           0.01F * static_cast<float>(i / 20 % 20),
                           0.01F * static_cast<float>(i / 400));
        for (const glm::vec3& d : {glm::vec3(0), glm::vec3(0.004F, 0, 0), glm::vec3(0, 0.004F, 0),
                                   glm::vec3(0, 0, 0.004F)})
            crumbs.positions_m.push_back(at + d);
        for (const glm::uvec3& t :
             {glm::uvec3(0, 2, 1), glm::uvec3(0, 1, 3), glm::uvec3(0, 3, 2), glm::uvec3(1, 2, 3)})
            crumbs.triangles.push_back(t + glm::uvec3(first));
    }
    const SimplifiedMesh coarse = simplify(crumbs, 500);
    CHECK(coarse.mesh.triangles.size() <= 500);
    CHECK(coarse.error > 0.0);
}

TEST_CASE("A tangle without a surface comes within the budget by merging, and that is said",
          "[import]") {
    // Triangles between corners far apart: every edge has many faces, none may be collapsed.
    Mesh tangle;
    for (int i = 0; i < 60; ++i)
        tangle.positions_m.emplace_back(std::sin(2.0 * i), std::cos(3.0 * i),
                                        std::sin(5.0 * i + 1.0));
    for (glm::uint i = 0; i < 1000; ++i)
        tangle.triangles.emplace_back(i % 60, (i * 7 + 11) % 60, (i * 13 + 29 + i / 60) % 60);
    std::erase_if(tangle.triangles,
                  [](const glm::uvec3& t) { return t.x == t.y || t.y == t.z || t.z == t.x; });
    const SimplifiedMesh coarse = simplify(tangle, 100);
    CHECK(coarse.mesh.triangles.size() <= 100);
    CHECK_FALSE(coarse.kept_topology);
    CHECK(coarse.error > 0.0);
}

TEST_CASE("A scan of more than 65 535 vertices loads whole", "[import]") {
    const auto start = std::chrono::steady_clock::now();
    const ImportedMesh sphere = loaded_obj(sphere_obj(220));
    CHECK(sphere.mesh.triangles.size() == 2 * 220 * 440);
    CHECK(sphere.mesh.positions_m.size() > 65'535);
    CHECK(sphere_error(sphere.mesh, 0.1) < 1e-5);
    CHECK(seconds_since(start) < 20.0);
}

TEST_CASE("A scan of two million triangles loads and simplifies in seconds", "[.][import-large]") {
    const Folder folder;
    const auto file = folder.write("scan.obj", sphere_obj(708));
    const auto start = std::chrono::steady_clock::now();
    const Result<ImportedMesh> scan = import_mesh(file);
    REQUIRE(scan.ok());
    const double load_s = seconds_since(start);
    CHECK(scan.value().mesh.triangles.size() > 2'000'000);
    const auto middle = std::chrono::steady_clock::now();
    const SimplifiedMesh coarse = simplify(scan.value().mesh, 80'000);
    const double simplify_s = seconds_since(middle);
    CHECK(coarse.mesh.triangles.size() <= 80'000);
    WARN(static_cast<double>(std::filesystem::file_size(file)) * 1e-6
         << " MB: loaded in " << load_s << " s, simplified to " << coarse.mesh.triangles.size()
         << " triangles in " << simplify_s << " s, error " << coarse.error * 1e6 << " um");
}
