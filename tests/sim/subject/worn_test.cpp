// Hat and glasses: their geometry against closed forms, their fit against the head they sit on.
#include "sim/subject/worn.h"
#include "sim/transport/ray_scene.h"
#include "subject_fixture.h"

#include <array>
#include <catch2/catch.hpp>
#include <map>

using namespace keystead;
using namespace subject_test;

namespace {

SubjectForm with_hat(const SubjectForm& form, const Hat& hat) {
    Subject subject = mean_subject(false);
    subject.hat = hat;
    return dressed(form, subject);
}

/// Does anything of the mesh lie in the direction of this elevation, straight ahead of the pupil?
bool hat_blocks(const RayScene& rays, const Vec3& pupil, double elevation_deg) {
    RayHit hit;
    return rays.first_hit(pupil, direction_from({0.0, elevation_deg}), 1e-4, 2.0, ray_mask::all,
                          hit);
}

/// Elevation above which the hat hides the light.
double cut_off_deg(const std::shared_ptr<const Mesh>& mesh, const Vec3& pupil) {
    RayScene rays;
    rays.add(mesh, ray_mask::subject);
    rays.commit();
    REQUIRE_FALSE(hat_blocks(rays, pupil, 0.0));
    REQUIRE(hat_blocks(rays, pupil, 60.0));
    double low = 0.0, high = 60.0;
    for (int i = 0; i < 30; ++i) {
        const double middle = 0.5 * (low + high);
        (hat_blocks(rays, pupil, middle) ? high : low) = middle;
    }
    return high;
}

/// The brim whose edge, straight ahead of the pupil, is so far in front of it.
double brim_for_reach_mm(const SubjectForm& form, double reach_mm) {
    double low = 10.0, high = 200.0;
    for (int i = 0; i < 20; ++i) {
        Hat hat;
        hat.brim_mm = 0.5 * (low + high);
        const SubjectForm made = with_hat(form, hat);
        // A plumb ray from far below meets the brim as long as it reaches so far.
        RayScene rays;
        rays.add(made.hat, ray_mask::subject);
        rays.commit();
        RayHit hit;
        const Vec3 below = form.landmarks.pupil_left + Vec3(0.0, -0.2, reach_mm * 1e-3);
        const bool reaches = rays.first_hit(below, {0, 1, 0}, 0.0, 1.0, ray_mask::all, hit);
        (reaches ? high : low) = hat.brim_mm;
    }
    return 0.5 * (low + high);
}

int open_edges(const Mesh& mesh) {
    // Vertices are split along creases, so edges are told apart by place.
    std::map<std::array<float, 6>, int> uses;
    for (const glm::uvec3& t : mesh.triangles)
        for (glm::length_t e = 0; e < 3; ++e) {
            const glm::vec3 a = mesh.positions_m[t[e]], b = mesh.positions_m[t[(e + 1) % 3]];
            ++uses[{a.x, a.y, a.z, b.x, b.y, b.z}];
            --uses[{b.x, b.y, b.z, a.x, a.y, a.z}];
        }
    int open = 0;
    for (const auto& [edge, balance] : uses) open += balance != 0 ? 1 : 0;
    return open;
}

} // namespace

TEST_CASE("A brim 90 mm before the eye and 45 mm above it hides what is above 26.6 degrees") {
    // Plane geometry: atan(45/90).
    for (const SubjectForm* form : {&mean_man(), &mean_woman()}) {
        Hat hat;
        hat.brim_mm = brim_for_reach_mm(*form, 90.0);
        const SubjectForm made = with_hat(*form, hat);
        CHECK(cut_off_deg(made.hat, form->landmarks.pupil_left) == Approx(26.565).margin(0.2));
        CHECK(cut_off_deg(made.hat, form->landmarks.pupil_right) == Approx(26.565).margin(0.2));
    }
}

TEST_CASE("Raising the chin by 13.4 degrees lets a key at 40 degrees under the same brim") {
    // 40 - 26.6: the brim turns with the head.
    const SubjectForm& form = mean_man();
    Subject subject = mean_subject(false);
    subject.hat.emplace().brim_mm = brim_for_reach_mm(form, 90.0);
    const SubjectForm made = dressed(form, subject);
    const auto cut_off = [&](double nod_deg) {
        subject.head_nod_deg = nod_deg;
        const PosedSubject posed = pose_subject(made, subject);
        return cut_off_deg(posed.hat, posed.landmarks.pupil_left);
    };
    CHECK(cut_off(0.0) < 40.0);
    CHECK(cut_off(13.4) == Approx(40.0).margin(0.3));
}

TEST_CASE("A tipped hat turns its brim about the middle of the head") {
    const SubjectForm& form = mean_man();
    Hat hat;
    const worn::HatSeat level = worn::seat_of(form, hat);
    hat.tilt_deg = 10.0;
    const worn::HatSeat tipped = worn::seat_of(form, hat);
    CHECK(glm::length(tipped.origin_m - level.origin_m) < 1e-9);
    CHECK(angles_of(tipped.axes[2]).elevation_deg == Approx(10.0));
    CHECK(tipped.origin_m.y - form.landmarks.pupil_left.y == Approx(worn::brim_above_pupils_m));
}

TEST_CASE("No head comes through its hat, however low the crown") {
    for (const SubjectForm* form : {&mean_man(), &mean_woman()})
        for (const double crown_mm : {40.0, 105.0})
            for (const double tilt_deg : {-8.0, 0.0, 12.0}) {
                Hat hat;
                hat.crown_mm = crown_mm, hat.tilt_deg = tilt_deg;
                const worn::HatSeat seat = worn::seat_of(*form, hat);
                RayScene rays;
                rays.add(std::make_shared<const Mesh>(worn::hat_mesh(seat, hat)),
                         ray_mask::subject);
                rays.commit();
                int through = 0;
                for (std::size_t i = 0; i < form->skin->positions_m.size(); ++i) {
                    const Vec3 p(form->skin->positions_m[i]);
                    if (seat.local(p).y < 4e-3) continue;
                    RayHit hit;
                    const Vec3 out(form->skin->normals[i]);
                    if (!rays.first_hit(p, out, 0.0, 0.3, ray_mask::all, hit) ||
                        glm::dot(hit.geometric_normal, out) > 0.0)
                        ++through;
                }
                INFO("crown " << crown_mm << " mm, tilt " << tilt_deg);
                CHECK(through == 0);
            }
}

TEST_CASE("Hair under a hat stays inside the crown, and the hat is what is topmost") {
    const SubjectForm& form = cropped_man();
    const Hat hat;
    const SubjectForm made = with_hat(form, hat);
    const worn::HatSeat seat = worn::seat_of(form, hat);
    for (const glm::vec3& position : made.hair->positions_m) {
        const Vec3 p = seat.local(Vec3(position));
        if (p.y < 0.0) continue;
        CHECK(std::hypot(p.x / seat.half_breadth_m, p.z / seat.half_length_m) < 1.0);
        CHECK(p.y < seat.crown_m);
    }
    CHECK(made.landmarks.hair_top.y > form.landmarks.hair_top.y);
    CHECK(made.caster->triangles.size() > form.caster->triangles.size() + 1000);
}

TEST_CASE("A lens is part of its sphere and tipped as the document says") {
    for (const double radius_mm : {88.0, 132.0}) {
        Subject subject = mean_subject(false);
        subject.glasses.emplace().lens_radius_mm = radius_mm;
        subject.glasses->tilt_deg = 8.0, subject.glasses->wrap_deg = 5.0;
        const SubjectForm form = dressed(mean_man(), subject);
        const std::size_t half = form.lenses->positions_m.size() / 2;
        for (std::size_t i = 0; i < form.lenses->positions_m.size(); ++i) {
            const LensSurface& lens = form.lens_surfaces[i < half ? 0 : 1];
            const Vec3 from = Vec3(form.lenses->positions_m[i]) - lens.sphere_centre_m;
            CHECK(glm::length(from) * 1e3 == Approx(radius_mm).margin(1e-3));
            CHECK(glm::dot(glm::normalize(from), Vec3(form.lenses->normals[i])) > 1.0 - 1e-6);
        }
        for (const auto& [index, side] : {std::pair{0, 1.0}, std::pair{1, -1.0}}) {
            const Angles normal = angles_of(form.lens_surfaces[std::size_t(index)].axes[2]);
            CHECK(normal.elevation_deg == Approx(-8.0));
            CHECK(normal.azimuth_deg == Approx(5.0 * side));
        }
    }
}

TEST_CASE("A lens tipped by 8 degrees mirrors what lies 16 degrees below, spread by its curve") {
    // Mirror law; a lens 50 by 36 mm turns the ray by twice asin(half size / radius).
    struct Row {
        double radius_mm, across_deg, up_deg;
    };
    for (const Row& row : {Row{132.0, 22.0, 16.0}, Row{88.0, 33.0, 24.0}}) {
        Subject subject = mean_subject(false);
        Glasses& glasses = subject.glasses.emplace();
        glasses.wrap_deg = 0.0, glasses.lens_height_mm = 36.0;
        glasses.lens_radius_mm = row.radius_mm;
        const LensSurface lens = worn::lenses_of(mean_man(), glasses)[0];
        const auto mirrored = [&](double x_m, double y_m) {
            const Vec3 normal =
                glm::normalize(worn::on_lens(lens, x_m, y_m) - lens.sphere_centre_m);
            return angles_of(glm::reflect(Vec3(0, 0, -1), normal));
        };
        CHECK(mirrored(0, 0).elevation_deg == Approx(-16.0).margin(1e-6));
        CHECK(mirrored(0, 0.018).elevation_deg + 16.0 == Approx(row.up_deg).margin(0.5));
        CHECK(mirrored(0, -0.018).elevation_deg + 16.0 == Approx(-row.up_deg).margin(0.5));
        CHECK(mirrored(0.025, 0).azimuth_deg == Approx(row.across_deg).margin(1.3));
    }
}

TEST_CASE("Lenses stand before the eyes at the distance opticians use, clear of the face") {
    for (const SubjectForm* form : {&mean_man(), &mean_woman()}) {
        const std::array<LensSurface, 2> lenses = worn::lenses_of(*form, Glasses{});
        const double apart = (lenses[0].middle_m - lenses[1].middle_m).x;
        CHECK(apart * 1e3 == Approx(50.0 + 18.0));
        // 12 to 14 mm, common practice; deep brows push a frame further out.
        const double distance = (lenses[0].middle_m - form->landmarks.pupil_left).z * 1e3;
        CHECK(distance >= 12.0);
        CHECK(distance <= 22.0);
        for (std::size_t i = 0; i < form->skin->positions_m.size(); ++i) {
            if (form->skin->regions[i] == static_cast<std::uint8_t>(Region::nose)) continue;
            const Vec3 p = glm::transpose(lenses[0].axes) *
                           (Vec3(form->skin->positions_m[i]) - lenses[0].middle_m);
            if (std::abs(p.x) > 0.02 || std::abs(p.y) > 0.014) continue;
            CHECK(p.z < 0.0);
        }
    }
}

TEST_CASE("Hat and frame are closed solids and go with the head; lenses throw no shadow") {
    Subject subject = mean_subject(false);
    subject.hat.emplace();
    subject.glasses.emplace();
    const SubjectForm form = dressed(mean_man(), subject);
    CHECK(open_edges(*form.hat) == 0);
    CHECK(open_edges(*form.frame) == 0);
    CHECK(form.hat->triangles.size() + form.frame->triangles.size() < 16000);
    CHECK(form.caster->triangles.size() <= 25000);
    std::size_t hat = 0, frame = 0, other = 0;
    for (const std::uint8_t region : form.caster->regions) {
        hat += region == static_cast<std::uint8_t>(Region::hat) ? 1 : 0;
        frame += region == static_cast<std::uint8_t>(Region::glasses) ? 1 : 0;
        other += 1;
    }
    CHECK(hat > 500);
    // Lenses would have added their own sheets.
    const Mesh coarse = worn::frame_mesh(mean_man(), form.lens_surfaces, worn::Detail::coarse);
    CHECK(frame == coarse.positions_m.size());
    CHECK(other == form.caster->positions_m.size());
    subject.head_turn_deg = 30.0, subject.head_nod_deg = -12.0;
    const PosedSubject posed = pose_subject(form, subject);
    const auto follows = [&](const Mesh& still, const Mesh& moved) {
        double worst = 0.0;
        for (std::size_t i = 0; i < still.positions_m.size(); ++i)
            worst = std::max(worst, glm::length(posed.head_axes * Vec3(still.positions_m[i]) +
                                                posed.head_origin_m - Vec3(moved.positions_m[i])));
        return worst;
    };
    CHECK(follows(*form.hat, *posed.hat) < 1e-5);
    CHECK(follows(*form.frame, *posed.frame) < 1e-5);
    CHECK(follows(*form.lenses, *posed.lenses) < 1e-5);
    const LensSurface& lens = posed.lens_surfaces[0];
    CHECK(glm::length(lens.middle_m - lens.sphere_centre_m) == Approx(lens.radius_m));
}

TEST_CASE("Hat and glasses come off again and cost no new body") {
    Subject subject = mean_subject(false);
    const std::uint64_t bare = form_key(subject), body = body_key(subject);
    subject.hat.emplace();
    subject.glasses.emplace();
    CHECK(form_key(subject) != bare);
    CHECK(body_key(subject) == body);
    const SubjectForm form = dressed(mean_man(), subject);
    CHECK(form.skin == mean_man().skin);
    subject.hat->brim_mm = 120.0;
    const SubjectForm wider = dressed(form, subject);
    CHECK(wider.caster->triangles.size() == form.caster->triangles.size());
    subject.hat->reflectance.rgb *= 0.5;
    const std::uint64_t key = form_key(subject);
    subject.hat->reflectance.rgb *= 0.5;
    CHECK(form_key(subject) == key);
    subject.hat.reset();
    subject.glasses.reset();
    const SubjectForm again = dressed(wider, subject);
    CHECK(again.caster == mean_man().caster);
    CHECK(again.hat == nullptr);
    CHECK(again.lenses == nullptr);
}
