// What a finished surface must be: whole, smooth, symmetric, small enough.
#include "subject_fixture.h"

#include <catch2/catch.hpp>
#include <map>
#include <set>

using namespace keystead;
using namespace subject_test;

namespace {

using Edge = std::pair<std::uint32_t, std::uint32_t>;

std::map<Edge, int> edge_uses(const Mesh& mesh) {
    std::map<Edge, int> uses;
    for (const glm::uvec3& t : mesh.triangles)
        for (glm::length_t e = 0; e < 3; ++e) ++uses[std::minmax(t[e], t[(e + 1) % 3])];
    return uses;
}

// Lowest and highest open edge, millimetres; both zero if there is none.
struct OpenEdges {
    int count = 0, crowded = 0;
    double low_mm = 1e9, high_mm = -1e9;
};
OpenEdges open_edges(const Mesh& mesh) {
    OpenEdges open;
    for (const auto& [edge, uses] : edge_uses(mesh)) {
        if (uses > 2) ++open.crowded;
        if (uses != 1) continue;
        ++open.count;
        const double y = mesh.positions_m[edge.first].y * 1000.0;
        open.low_mm = std::min(open.low_mm, y);
        open.high_mm = std::max(open.high_mm, y);
    }
    return open;
}

struct Faces {
    double smallest_mm2 = 1e9;
    int against_normal = 0;
};
Faces faces(const Mesh& mesh) {
    Faces f;
    for (const glm::uvec3& t : mesh.triangles) {
        const Vec3 a(mesh.positions_m[t.x]), b(mesh.positions_m[t.y]), c(mesh.positions_m[t.z]);
        const Vec3 area = glm::cross(b - a, c - a) * 0.5e6;
        f.smallest_mm2 = std::min(f.smallest_mm2, glm::length(area));
        const Vec3 normal =
            Vec3(mesh.normals[t.x]) + Vec3(mesh.normals[t.y]) + Vec3(mesh.normals[t.z]);
        if (glm::dot(area, normal) <= 0.0) ++f.against_normal;
    }
    return f;
}

} // namespace

TEST_CASE("The skin is whole but for its rim under the clothes") {
    for (const SubjectForm* form : {&mean_man(), &mean_woman()}) {
        const OpenEdges open = open_edges(*form->skin);
        CHECK(open.count > 0);
        CHECK(open.high_mm < -190.0);
        // Surface nets join two sheets that pass through one cell: lid corners, between fingers.
        CHECK(open.crowded <= 40);
    }
}

TEST_CASE("Eyeballs are closed, clothing is open at the collar only") {
    const SubjectForm& form = mean_man();
    CHECK(open_edges(*form.eyes).count == 0);
    const OpenEdges open = open_edges(*form.clothing);
    CHECK(open.low_mm > -300.0);
    CHECK(open.high_mm < -50.0);
}

TEST_CASE("No triangle is a needle or faces against its normals") {
    const SubjectForm& form = cropped_man();
    for (const auto& mesh : {form.skin, form.clothing, form.eyes}) {
        const Faces f = faces(*mesh);
        CHECK(f.smallest_mm2 > 1e-3);
        CHECK(f.against_normal * 500 <= static_cast<int>(mesh->triangles.size()));
    }
    // Combed hair bends its normals on purpose.
    CHECK(faces(*form.hair).smallest_mm2 > 1e-3);
}

TEST_CASE("The face is symmetric within a tenth of a millimetre") {
    const Mesh& skin = *mean_man().skin;
    std::set<std::tuple<long, long, long>> places;
    const auto place = [](double x, double y, double z) {
        return std::make_tuple(std::lround(x * 1e5), std::lround(y * 1e5), std::lround(z * 1e5));
    };
    for (const glm::vec3& p : skin.positions_m) places.insert(place(p.x, p.y, p.z));
    int unpaired = 0;
    for (const glm::vec3& p : skin.positions_m)
        if (!places.count(place(-p.x, p.y, p.z))) ++unpaired;
    CHECK(unpaired == 0);
}

TEST_CASE("Meshes stay within their budgets") {
    const SubjectForm& form = cropped_man();
    const std::size_t shown = form.skin->triangles.size() + form.hair->triangles.size() +
                              form.clothing->triangles.size() + form.eyes->triangles.size();
    CHECK(shown <= 80000);
    CHECK(form.caster->triangles.size() <= 25000);
    CHECK(form.skin->triangles.size() > 20000);
}

TEST_CASE("Every vertex carries what its material needs") {
    const SubjectForm& form = cropped_man();
    for (const auto& mesh : {form.skin, form.hair, form.clothing, form.eyes}) {
        const std::size_t count = mesh->positions_m.size();
        CHECK(mesh->normals.size() == count);
        CHECK(mesh->colours.size() == count);
        CHECK(mesh->roughness.size() == count);
        CHECK(mesh->regions.size() == count);
    }
    CHECK(form.hair->tangents.size() == form.hair->positions_m.size());
}

TEST_CASE("The same subject gives the same bytes") {
    const SubjectForm again = build_subject(mean_subject(false));
    CHECK(again.skin->positions_m == mean_man().skin->positions_m);
    CHECK(again.skin->triangles == mean_man().skin->triangles);
    CHECK(again.clothing->positions_m == mean_man().clothing->positions_m);
    CHECK(again.caster->triangles == mean_man().caster->triangles);
}
