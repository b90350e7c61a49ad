// Arms on the hips and crossed: where they lie, how long they are, that the surface stays whole.
#include "sim/subject/body.h"
#include "sim/subject/solve.h"
#include "sim/transport/ray_scene.h"
#include "subject_fixture.h"

#include <catch2/catch.hpp>
#include <map>
#include <set>

using namespace keystead;
using namespace subject_test;

namespace {

Subject with_arms(ArmPose arms, bool female = false) {
    Subject subject = mean_subject(female);
    subject.arms = arms;
    return subject;
}

const SubjectForm& form_with(ArmPose arms, bool female = false) {
    static std::map<std::pair<ArmPose, bool>, SubjectForm> forms;
    const auto known = forms.find({arms, female});
    if (known != forms.end()) return known->second;
    return forms[{arms, female}] = build_subject(with_arms(arms, female));
}

/// Farthest that the clothes reach to one side at the height of the arms, millimetres.
double reach_mm(const SubjectForm& form, double side) {
    double reach = 0.0;
    for (const glm::vec3& p : form.clothing->positions_m)
        if (p.y > -0.7F) reach = std::max(reach, 1e3 * side * double(p.x));
    return reach;
}

/// Vertices of the hands: what the skin has below the bare shoulders' rim.
std::vector<Vec3> hand_mm(const SubjectForm& form, double side) {
    std::vector<Vec3> found;
    for (const Vec3& p : vertices_mm(*form.skin, Region::body))
        if (p.y < -300.0 && (side == 0.0 || p.x * side > 0.0)) found.push_back(p);
    return found;
}

/// Open edges of the clothes below the collar.
std::vector<Vec3> holes(const Mesh& mesh) {
    std::map<std::pair<std::uint32_t, std::uint32_t>, int> uses;
    for (const glm::uvec3& t : mesh.triangles)
        for (glm::length_t e = 0; e < 3; ++e) ++uses[std::minmax(t[e], t[(e + 1) % 3])];
    std::vector<Vec3> found;
    for (const auto& [edge, count] : uses)
        if (count == 1 && mesh.positions_m[edge.first].y < -0.30F)
            found.emplace_back(mesh.positions_m[edge.first]);
    return found;
}

constexpr ArmPose bent[] = {ArmPose::left_on_hip, ArmPose::right_on_hip, ArmPose::both_on_hips,
                            ArmPose::crossed};

} // namespace

TEST_CASE("A bent arm is as long as the hanging one") {
    for (const bool female : {false, true}) {
        const sculpt::Shape shape = sculpt::solved_shape(sculpt::measures_of(mean_subject(female)));
        // Seated arms rest on the lap, so the man's hanging arm gives the canonical lengths.
        sculpt::Shape standing = shape;
        standing.measures.seated = false;
        const sculpt::Limbs hanging = sculpt::limbs_of(standing);
        for (const sculpt::ArmBend arm : {sculpt::ArmBend::on_hip, sculpt::ArmBend::crossed_over,
                                          sculpt::ArmBend::crossed_under}) {
            const sculpt::Limbs limbs = sculpt::limbs_of(shape, arm);
            CHECK(glm::length(limbs.elbow - limbs.shoulder) ==
                  Approx(glm::length(hanging.elbow - hanging.shoulder)).margin(2.0));
            CHECK(glm::length(limbs.wrist - limbs.elbow) ==
                  Approx(glm::length(hanging.wrist - hanging.elbow)).margin(2.0));
        }
    }
}

TEST_CASE("The arm that is named goes to the hip, the other hangs") {
    const double hanging = reach_mm(mean_man(), 1.0);
    const SubjectForm& left = form_with(ArmPose::left_on_hip);
    const SubjectForm& right = form_with(ArmPose::right_on_hip);
    const SubjectForm& both = form_with(ArmPose::both_on_hips);
    CHECK(reach_mm(left, 1.0) > hanging + 80.0);
    CHECK(reach_mm(left, -1.0) == Approx(hanging).margin(3.0));
    CHECK(reach_mm(right, -1.0) > hanging + 80.0);
    CHECK(reach_mm(right, 1.0) == Approx(hanging).margin(3.0));
    CHECK(reach_mm(both, 1.0) > hanging + 80.0);
    CHECK(reach_mm(both, -1.0) > hanging + 80.0);
}

TEST_CASE("Hands on the hips touch the body's side at the height of the hip bone") {
    for (const bool female : {false, true}) {
        const Subject subject = with_arms(ArmPose::both_on_hips, female);
        const sculpt::Shape shape = sculpt::solved_shape(sculpt::measures_of(subject));
        const sculpt::ClothField trunk(shape, sculpt::ArmBend::crossed_over); // no forearms
        const SubjectForm& form = form_with(ArmPose::both_on_hips, female);
        for (const double side : {1.0, -1.0}) {
            const std::vector<Vec3> hand = hand_mm(form, side);
            REQUIRE(hand.size() > 100);
            double nearest = 1e9, deepest = 1e9;
            std::size_t outside = 0;
            for (const Vec3& p : hand) {
                const double d = trunk.at(p);
                nearest = std::min(nearest, std::abs(d)), deepest = std::min(deepest, d);
                outside += d > 0.0 ? 1 : 0;
                const double canonical_y = shape.canonical(p).y;
                CHECK(canonical_y < -480.0);
                CHECK(canonical_y > -690.0);
            }
            CHECK(nearest < 2.0);
            CHECK(deepest > -26.0);
            CHECK(outside * 2 > hand.size());
        }
    }
}

TEST_CASE(
    "Crossed forearms lie before the chest, the left over the right, hands beyond the middle") {
    for (const bool female : {false, true}) {
        const SubjectForm& form = form_with(ArmPose::crossed, female);
        const double chest = form.landmarks.chest.z;
        RayScene rays;
        rays.add(form.clothing, ray_mask::subject);
        rays.commit();
        double front = 0.0;
        for (double y = -0.50; y < -0.35; y += 0.01) {
            RayHit hit;
            if (rays.first_hit({0.0, y, 1.0}, {0, 0, -1}, 0.0, 2.0, ray_mask::all, hit))
                front = std::max(front, 1.0 - hit.distance_m);
        }
        CHECK(front > chest + 0.05);
        const sculpt::Shape shape =
            sculpt::solved_shape(sculpt::measures_of(with_arms(ArmPose::crossed, female)));
        const sculpt::Limbs over = sculpt::limbs_of(shape, sculpt::ArmBend::crossed_over);
        const sculpt::Limbs under = sculpt::limbs_of(shape, sculpt::ArmBend::crossed_under);
        CHECK(over.wrist.x < 0.0);
        CHECK(under.wrist.x < 0.0);
        CHECK(over.wrist.z > under.wrist.z + 30.0);
        // The left hand, the upper one, is on the subject's right.
        double x = 0.0, count = 0.0;
        for (const Vec3& p : hand_mm(form, 0.0))
            if (p.z > 70.0 && p.x < -20.0) x += p.x, count += 1.0;
        CHECK(count > 50.0);
    }
}

TEST_CASE("Clothes stay whole in every pose of the arms, and within the budget") {
    for (const bool female : {false, true})
        for (const ArmPose arms : bent) {
            const SubjectForm& form = form_with(arms, female);
            INFO("pose " << static_cast<int>(arms) << (female ? ", woman" : ", man"));
            CHECK(holes(*form.clothing).empty());
            CHECK(form.clothing->triangles.size() < 34000);
            CHECK(form.caster->triangles.size() <= 25000);
            CHECK(form.clothing->colours.size() == form.clothing->positions_m.size());
        }
}

TEST_CASE("No bare shoulder comes through the clothes of a raised arm") {
    for (const bool female : {false, true})
        for (const ArmPose arms : bent) {
            const Subject subject = with_arms(arms, female);
            const sculpt::Shape shape = sculpt::solved_shape(sculpt::measures_of(subject));
            const sculpt::ArmBends bends = sculpt::arms_of(arms);
            const sculpt::ClothField left(shape, bends.left), right(shape, bends.right);
            int through = 0;
            for (const Vec3& p : vertices_mm(*form_with(arms, female).skin, Region::body)) {
                const double y = shape.canonical(p).y;
                if (y > -200.0 || y < -300.0) continue;
                if ((p.x < 0.0 ? right : left).at(p) > -0.5) ++through;
            }
            INFO("pose " << static_cast<int>(arms) << (female ? ", woman" : ", man"));
            CHECK(through == 0);
        }
}

TEST_CASE("The form's key tells the poses of the arms apart, the head does not change with them") {
    std::set<std::uint64_t> keys{form_key(mean_subject(false))};
    for (const ArmPose arms : bent) keys.insert(form_key(with_arms(arms)));
    CHECK(keys.size() == 5);
    const Landmarks& a = mean_man().landmarks;
    const Landmarks& b = form_with(ArmPose::crossed).landmarks;
    CHECK(a.pronasale == b.pronasale);
    CHECK(a.acromion_left == b.acromion_left);
}
