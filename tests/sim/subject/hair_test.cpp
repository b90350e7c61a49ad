// Hair styles: out of the face, whole where it can be seen, within the budget, moved as hair is.
#include "sim/subject/body.h"
#include "sim/subject/head.h"
#include "sim/subject/measures.h"
#include "sim/subject/solve.h"
#include "sim/subject/wisps.h"
#include "subject_fixture.h"

#include <catch2/catch.hpp>
#include <map>

using namespace keystead;
using namespace subject_test;

namespace {

const SubjectForm& man_with(HairStyle style) {
    static std::map<HairStyle, SubjectForm> forms;
    const auto known = forms.find(style);
    if (known != forms.end()) return known->second;
    return forms[style] = build_subject(mean_subject(false, style));
}

std::size_t shown_triangles(const SubjectForm& form) {
    return form.skin->triangles.size() + form.hair->triangles.size() +
           form.clothing->triangles.size() + form.eyes->triangles.size();
}

/// Middles of edges that belong to one triangle only, millimetres.
std::vector<Vec3> open_edges_mm(const Mesh& mesh) {
    std::map<std::pair<std::uint32_t, std::uint32_t>, int> uses;
    for (const glm::uvec3& t : mesh.triangles)
        for (glm::length_t e = 0; e < 3; ++e) ++uses[std::minmax(t[e], t[(e + 1) % 3])];
    std::vector<Vec3> middles;
    for (const auto& [edge, count] : uses)
        if (count == 1)
            middles.push_back(
                500.0 * (Vec3(mesh.positions_m[edge.first]) + Vec3(mesh.positions_m[edge.second])));
    return middles;
}

constexpr HairStyle new_styles[] = {HairStyle::long_hair, HairStyle::curly};
constexpr HairStyle all_styles[] = {HairStyle::cropped, HairStyle::bob, HairStyle::tied,
                                    HairStyle::long_hair, HairStyle::curly};

} // namespace

TEST_CASE("No style grows into the face") {
    // Eyes, nose and mouth: in front of the temples' plane, between the cheekbones, below the
    // forehead.
    for (const HairStyle style : all_styles) {
        int inside = 0;
        for (const glm::vec3& p : man_with(style).hair->positions_m)
            if (p.z > 0.052F && std::abs(p.x) < 0.052F && p.y < 0.056F) ++inside;
        INFO("style " << static_cast<int>(style));
        CHECK(inside == 0);
    }
}

TEST_CASE("Long and curly hair end only where skin or clothes cover the end") {
    const sculpt::Shape shape = sculpt::solved_shape(sculpt::measures_of(mean_subject(false)));
    const sculpt::SkinField skin(shape);
    const sculpt::ClothField cloth(shape);
    for (const HairStyle style : new_styles) {
        const std::vector<Vec3> edges = open_edges_mm(*man_with(style).hair);
        CHECK(edges.size() > 20);
        std::size_t seen = 0;
        for (const Vec3& p : edges) seen += std::min(skin.at(p), cloth.at(p)) > 1.0 ? 1 : 0;
        INFO("style " << static_cast<int>(style) << ", " << edges.size() << " open edges");
        CHECK(seen * 50 <= edges.size());
    }
}

TEST_CASE("Every hair style stays within the subject's budgets") {
    for (const HairStyle style : all_styles) {
        INFO("style " << static_cast<int>(style));
        const std::size_t wisps = man_with(style).strands->triangles.size();
        CHECK(shown_triangles(man_with(style)) + wisps <= 80000);
        CHECK(man_with(style).caster->triangles.size() <= 25000);
    }
}

TEST_CASE("A man two deviations larger than the mean stays within them too") {
    for (const HairStyle style : all_styles) {
        Subject subject = mean_subject(false, style);
        subject.proportions.preset = "large-male";
        subject.stature_m = preset_stature_m("large-male");
        const SubjectForm form = build_subject(subject);
        const std::size_t wisps = form.strands->triangles.size();
        INFO("style " << static_cast<int>(style));
        CHECK(shown_triangles(form) + wisps <= 80000);
        CHECK(form.caster->triangles.size() <= 25000);
    }
}

TEST_CASE("Single strands keep to the hair and out of the face, and are across their own run") {
    for (const HairStyle style : all_styles) {
        const PosedSubject posed = pose_subject(man_with(style), mean_subject(false, style));
        const Mesh& wisps = *posed.strands;
        REQUIRE(wisps.triangles.size() > 1000);
        std::size_t far = 0, in_face = 0;
        for (std::size_t i = 0; i < wisps.positions_m.size(); ++i) {
            const Vec3 p(wisps.positions_m[i]);
            const Vec3 q = glm::transpose(posed.head_axes) * (p - posed.head_origin_m);
            if (q.z > 0.052 && std::abs(q.x) < 0.052 && q.y < 0.056) ++in_face;
            CHECK(std::abs(glm::dot(wisps.normals[i], wisps.tangents[i])) < 1e-3F);
            if (i % 40 != 0) continue;
            float nearest = 1.0F;
            for (const glm::vec3& hair : posed.hair->positions_m)
                nearest = std::min(nearest, glm::distance(hair, glm::vec3(p)));
            if (nearest > 0.035F) ++far; // a curl's length and its spread
        }
        INFO("style " << static_cast<int>(style));
        CHECK(in_face == 0);
        CHECK(far == 0);
        CHECK(wisps_of(man_with(style), style).positions_m == man_with(style).strands->positions_m);
    }
}

TEST_CASE("A turn of the head moves the strands and rebuilds none") {
    for (const HairStyle style : {HairStyle::cropped, HairStyle::tied, HairStyle::bob}) {
        const Mesh& rest = *man_with(style).strands;
        Subject turned = mean_subject(false, style);
        turned.head_turn_deg = 35.0, turned.head_nod_deg = 8.0;
        const PosedSubject posed = pose_subject(man_with(style), turned);
        const Mesh& strands = *posed.strands;
        CHECK(strands.triangles == rest.triangles);
        double worst_mm = 0.0;
        for (std::size_t i = 0; i < rest.positions_m.size(); ++i) {
            const Vec3 p(rest.positions_m[i]);
            if (p.y < 0.01) continue; // on the neck they bend with it
            const Vec3 moved = posed.head_origin_m + posed.head_axes * p;
            worst_mm = std::max(worst_mm, 1e3 * glm::length(moved - Vec3(strands.positions_m[i])));
        }
        INFO("style " << static_cast<int>(style));
        CHECK(worst_mm < 0.001);
    }
}

TEST_CASE("Strands lie in the surface, whatever the style") {
    for (const HairStyle style : new_styles) {
        const Mesh& hair = *man_with(style).hair;
        REQUIRE(hair.tangents.size() == hair.positions_m.size());
        for (std::size_t i = 0; i < hair.tangents.size(); ++i) {
            CHECK(glm::length(hair.tangents[i]) == Approx(1.0).margin(1e-4));
            CHECK(glm::length(hair.normals[i]) == Approx(1.0).margin(1e-4));
            CHECK(std::abs(glm::dot(hair.tangents[i], hair.normals[i])) < 0.75);
        }
    }
}

TEST_CASE("Long hair falls behind the shoulders, outside the clothes") {
    const SubjectForm& form = man_with(HairStyle::long_hair);
    const sculpt::Shape shape = sculpt::solved_shape(sculpt::measures_of(mean_subject(false)));
    const sculpt::ClothField cloth(shape);
    const Vec3 shoulder = form.landmarks.acromion_left;
    double lowest = 1e9, deepest_mm = 0.0;
    for (const glm::vec3& p : form.hair->positions_m) {
        lowest = std::min(lowest, double(p.y));
        if (p.y > shoulder.y - 0.03) continue;
        CHECK(p.z < shoulder.z + 0.03);
        deepest_mm = std::min(deepest_mm, cloth.at(Vec3(p) * 1000.0));
    }
    CHECK(lowest < shoulder.y - 0.10);
    // Only the covered rim is under the cloth, and not far.
    CHECK(deepest_mm > -16.0);
}

TEST_CASE("Curls stand out above and beside the head") {
    const SubjectForm& curly = man_with(HairStyle::curly);
    const Landmarks& l = curly.landmarks;
    CHECK(l.hair_top.y - l.vertex.y > 0.020);
    CHECK(l.hair_left.x > 0.5 * 0.15433 + 0.020); // half the mean head breadth
    CHECK(l.hair_right.x < -0.5 * 0.15433 - 0.020);
    // Both halves differ: curls are not mirrored.
    CHECK(std::abs(l.hair_left.x + l.hair_right.x) > 1e-5);
}

TEST_CASE("Long hair turns with the head above and rests on the shoulders below") {
    const SubjectForm& form = man_with(HairStyle::long_hair);
    Subject subject = mean_subject(false, HairStyle::long_hair);
    const PosedSubject still = pose_subject(form, subject);
    subject.head_turn_deg = 40.0;
    const PosedSubject turned = pose_subject(form, subject);
    double ends_mm = 0.0, crown_mm = 0.0;
    for (std::size_t i = 0; i < form.hair->positions_m.size(); ++i) {
        const Vec3 p(form.hair->positions_m[i]);
        const Vec3 after(turned.hair->positions_m[i]);
        if (p.y < -0.22)
            ends_mm =
                std::max(ends_mm, 1e3 * glm::length(after - Vec3(still.hair->positions_m[i])));
        if (p.y > -0.05)
            crown_mm = std::max(
                crown_mm, 1e3 * glm::length(turned.head_axes * p + turned.head_origin_m - after));
    }
    CHECK(ends_mm < 0.1);
    CHECK(crown_mm < 0.1);
}

TEST_CASE("A bob's shadow turns with the bob") {
    const SubjectForm& form = man_with(HairStyle::bob);
    Subject subject = mean_subject(false, HairStyle::bob);
    subject.head_turn_deg = 40.0;
    const PosedSubject turned = pose_subject(form, subject);
    double off_mm = 0.0;
    for (std::size_t i = 0; i < form.caster->positions_m.size(); ++i)
        if (form.caster->regions[i] == static_cast<std::uint8_t>(Region::hair))
            off_mm = std::max(
                off_mm,
                1e3 * glm::length(turned.head_axes * Vec3(form.caster->positions_m[i]) +
                                  turned.head_origin_m - Vec3(turned.caster->positions_m[i])));
    CHECK(off_mm < 0.1);
}
