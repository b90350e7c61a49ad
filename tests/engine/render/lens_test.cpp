// Lenses of glasses against the law of reflection and Fresnel's and Stokes's formulas.
#include "sim/subject/lens.h"
#include "tests/engine/render/bench.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace bench;

namespace {

constexpr int side_px = 160;
constexpr double eye_m = 0.9; ///< eye and lamp from the middle of the left lens's sphere

/// A lens whose middle is at the origin and faces the camera; the other is out of the picture.
std::array<LensSurface, 2> lenses() {
    LensSurface lens;
    lens.radius_m = 0.132;
    lens.sphere_centre_m = Vec3(0, 0, -lens.radius_m);
    LensSurface other = lens;
    other.middle_m.x = other.sphere_centre_m.x = 5.0;
    return {lens, other};
}

Vec3 about_sphere(const Angles& angles) {
    return lenses()[0].sphere_centre_m + eye_m * direction_from(angles);
}

void wear(Studio& studio) {
    auto subject = std::make_shared<PosedSubject>();
    subject->lens_surfaces = lenses();
    subject->lenses = std::make_shared<Mesh>();
    studio.subject = subject;
    studio.rays = std::make_shared<RayScene>();
    for (ScenePart& part : studio.scene.parts) {
        if (part.mask == 0) part.mask = ray_mask::gear;
        studio.rays->add(part.mesh, part.mask);
    }
    studio.rays->commit();
}

/// A small square lamp that faces the lens; both as an emitter and as its face to be seen.
std::shared_ptr<Studio> lamp_at(const Vec3& centre_m, double half_m) {
    const Vec3 beam = glm::normalize(-centre_m);
    const Emitter lamp = rectangle(centre_m, beam, 2.0 * half_m, 2.0 * half_m);
    ScenePart face =
        part("light 0", "face", quad(centre_m, half_m * lamp.axes[0], half_m * lamp.axes[1]), 0.7F);
    face.emitting_light = 0;
    face.mask = ray_mask::emitter;
    auto made = studio({face}, {lamp});
    wear(*made);
    return made;
}

View eye_view() {
    return bench::view(about_sphere({0.0, 0.0}), Vec3(0.0), 0.045, side_px, side_px);
}

struct Spot {
    double sum = 0.0, largest = 0.0;
    Vec2 middle{0.0}; ///< pixels from the top left
};

Spot glare(const std::shared_ptr<Studio>& studio) {
    auto r = renderer(true);
    r->show(studio);
    r->look(eye_view(), side_px, side_px);
    converge(*r, 32);
    const LinearImage picture = r->read_linear();
    Spot spot;
    for (int y = 0; y < side_px; ++y)
        for (int x = 0; x < side_px; ++x) {
            const double seen = picture.pixels[static_cast<std::size_t>(y * side_px + x)].g;
            spot.sum += seen;
            spot.largest = std::max(spot.largest, seen);
            spot.middle += seen * Vec2(x + 0.5, y + 0.5);
        }
    if (spot.sum > 0.0) spot.middle /= spot.sum;
    return spot;
}

} // namespace

TEST_CASE("A lamp's glare lies in the lens where its normal halves the angle of eye and lamp") {
    // Source: law of reflection; for eye and lamp as far from a mirror ball's middle as each other,
    // the point on the ball halfway between them mirrors the one to the other.
    for (const Angles& lamp : {Angles{0.0, 12.0}, Angles{16.0, 0.0}, Angles{-10.0, 8.0}}) {
        const Spot spot = glare(lamp_at(about_sphere(lamp), 0.02));
        const LensSurface lens = lenses()[0];
        const Vec3 half = glm::normalize(direction_from({0.0, 0.0}) + direction_from(lamp));
        Vec2 expected;
        REQUIRE(project(eye_view(), side_px, side_px, lens.sphere_centre_m + lens.radius_m * half,
                        expected));
        INFO("lamp at " << lamp.azimuth_deg << ", " << lamp.elevation_deg << ": glare at "
                        << spot.middle.x << ", " << spot.middle.y << ", expected " << expected.x
                        << ", " << expected.y);
        CHECK(spot.sum > 0.0);
        CHECK(glm::distance(spot.middle, expected) < 0.5);
    }
}

TEST_CASE("Glare is as bright as the lamp's face times the glass's reflectance") {
    // Exitance over pi is a diffuse face's radiance; 2R/(1+R) of it comes back from a plate (Stokes
    // 1862), R = 0.04 at a surface of index 1.5 straight on (Fresnel).
    const auto studio = lamp_at(about_sphere({8.0, 0.0}), 0.10);
    const double face = studio->emitters[0].exitance / pi;
    CHECK(glare(studio).largest == Approx(2.0 * 0.04 / 1.04 * face).epsilon(0.01));
}

TEST_CASE("A lamp outside the family of angles leaves no glare in the lens") {
    // The outline ends where the normal is asin(25 / 132) = 10.9 degrees off the axis sideways and
    // asin(20 / 132) = 8.7 up: lamps more than twice that from the eye are mirrored past it.
    for (const Angles& lamp :
         {Angles{40.0, 0.0}, Angles{-30.0, 0.0}, Angles{0.0, 30.0}, Angles{0.0, 45.0}})
        CHECK(glare(lamp_at(about_sphere(lamp), 0.02)).sum == 0.0);
}

TEST_CASE("A clear lens throws no shadow and dims what is behind it by eight per cent") {
    // (1 - R) / (1 + R) goes through a plate (Stokes 1862): 0.923 straight on.
    const Vec3 behind(0.0, 0.0, -0.2);
    const auto wall = [&] {
        return studio({part("room", "wall", quad(behind, {0.5, 0, 0}, {0, 0.5, 0}), 0.5F)},
                      {disc({0.0, 0.6, 0.8}, {0.0, -0.6, -1.0}, 0.2)});
    };
    const auto middle = [&](const std::shared_ptr<Studio>& seen) {
        auto r = renderer(false);
        r->show(seen);
        r->look(eye_view(), side_px, side_px);
        converge(*r, 16);
        const LinearImage picture = r->read_linear();
        return double(picture.pixels[side_px / 2 * side_px + side_px / 2].g);
    };
    const auto worn = wall();
    wear(*worn);
    CHECK(middle(worn) / middle(wall()) == Approx(0.96 / 1.04).epsilon(0.002));
}
