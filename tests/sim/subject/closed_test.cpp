// Skin as a surface: no edge with more than two triangles, open only where clothes cover it; and
// nothing of the clothes where they don't belong.
#include "subject_fixture.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

using namespace keystead;
using namespace subject_test;

namespace {

using Edge = std::pair<std::uint32_t, std::uint32_t>;

std::map<Edge, std::vector<int>> directions_of_edges(const Mesh& mesh) {
    std::map<Edge, std::vector<int>> edges;
    for (const glm::uvec3& t : mesh.triangles)
        for (glm::length_t e = 0; e < 3; ++e) {
            const std::uint32_t a = t[e], b = t[(e + 1) % 3];
            edges[{std::min(a, b), std::max(a, b)}].push_back(a < b ? 1 : -1);
        }
    return edges;
}

} // namespace

TEST_CASE("No scrap of cloth hangs on the throat, however large the neck") {
    for (const char* preset :
         {"mean-male", "mean-female", "small-male", "small-female", "large-male", "large-female"}) {
        Subject subject = mean_subject(false, HairStyle::none);
        subject.proportions.preset = preset;
        const SubjectForm form = build_subject(subject);
        const Landmarks& l = form.landmarks;
        const double lowest = glm::mix(l.menton.y, l.acromion_left.y, 0.25);
        int scraps = 0;
        for (const glm::vec3& p : form.clothing->positions_m)
            if (p.z > 0.012F && p.y > lowest) ++scraps;
        INFO(preset);
        CHECK(scraps == 0);
    }
}

TEST_CASE("Skin is a surface without forks, whole down to the covered shoulders") {
    for (const char* preset :
         {"mean-male", "mean-female", "small-male", "small-female", "large-male", "large-female"}) {
        Subject subject = mean_subject(false, HairStyle::none);
        subject.proportions.preset = preset;
        const SubjectForm form = build_subject(subject);
        const Mesh& skin = *form.skin;
        // The neckline lies well above.
        const double covered = form.landmarks.acromion_left.y - 0.03;
        int forks = 0, holes = 0, turned = 0;
        for (const auto& [edge, directions] : directions_of_edges(skin)) {
            if (directions.size() > 2) ++forks;
            if (directions.size() == 2 && directions[0] == directions[1]) ++turned;
            const double y = skin.positions_m[edge.first].y;
            if (directions.size() == 1 && y > covered) ++holes;
        }
        INFO(preset);
        CHECK(forks == 0);
        CHECK(turned == 0);
        CHECK(holes == 0);
    }
}
