// Oil, satin, iris and the grey card on a posed subject.
#include "sim/subject/subject.h"
#include "subject_fixture.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace keystead;
using subject_test::mean_man;

namespace {

PosedSubject posed_with(void (*edit)(Subject&)) {
    Subject subject = subject_test::mean_subject(false);
    edit(subject);
    return pose_subject(mean_man(), subject);
}

double mean_roughness(const Mesh& mesh) {
    double sum = 0.0;
    for (const float roughness : mesh.roughness) sum += static_cast<double>(roughness);
    return sum / static_cast<double>(mesh.roughness.size());
}

} // namespace

TEST_CASE("Oil smooths the skin and satin the clothes, by their vertices", "[subject]") {
    const PosedSubject plain = posed_with([](Subject&) {});
    const PosedSubject oily = posed_with([](Subject& s) { s.skin_oil = 1.0; });
    const PosedSubject satin =
        posed_with([](Subject& s) { s.clothing_finish = ClothFinish::satin; });
    CHECK(mean_roughness(*oily.skin) == Approx(0.70 * mean_roughness(*plain.skin)));
    CHECK(mean_roughness(*satin.clothing) == Approx(0.65 * mean_roughness(*plain.clothing)));
    CHECK(oily.clothing->roughness == plain.clothing->roughness);
}

TEST_CASE("The iris has the document's colour; white and pupil keep theirs", "[subject]") {
    const PosedSubject brown = posed_with([](Subject&) {});
    const PosedSubject blue = posed_with([](Subject& s) { s.iris.rgb = Vec3(0.05, 0.11, 0.22); });
    REQUIRE(blue.eyes->colours.size() == brown.eyes->colours.size());
    std::size_t bluer = 0, blue_indeed = 0, same = 0;
    for (std::size_t i = 0; i < blue.eyes->colours.size(); ++i) {
        const glm::vec3 now = blue.eyes->colours[i], before = brown.eyes->colours[i];
        same += now == before ? 1 : 0;
        bluer += now.b > before.b ? 1 : 0;
        blue_indeed += now.b > 3.0F * now.r ? 1 : 0;
    }
    CHECK(same > bluer);
    CHECK(bluer > 300);
    CHECK(blue_indeed > 200);
}

TEST_CASE("A grey card's meshes leave colour and gloss to the part", "[subject]") {
    const PosedSubject card = posed_with([](Subject& s) { s.grey_card = true; });
    for (const auto& mesh : {card.skin, card.clothing, card.eyes, card.hair}) {
        CHECK(mesh->colours.empty());
        CHECK(mesh->roughness.empty());
    }
    CHECK_FALSE(card.skin->regions.empty());
}
