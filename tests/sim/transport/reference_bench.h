// Small rooms and cards for tests of the reference pictures.
#pragma once

#include "sim/transport/reference.h"

#include <array>
#include <string>

namespace reference_bench {

using namespace keystead;

/// Quad with corners centre ± right ± up; its front is right x up.
std::shared_ptr<const Mesh> quad(const Vec3& centre_m, const Vec3& right_m, const Vec3& up_m);

ScenePart matt_part(std::shared_ptr<const Mesh> mesh, float albedo, std::uint32_t mask);

/// Flat Lambertian rectangle or disc of full power and exitance 1000, facing `beam`; its height
/// axis is upright, or along -Z where the beam is vertical.
Emitter rectangle(const Vec3& centre_m, const Vec3& beam, double width_m, double height_m);
Emitter disc(const Vec3& centre_m, const Vec3& beam, double radius_m);

/// Walls of the box from the origin to `size_m`, facing inward: x = 0, x = far, y = 0, y = far,
/// z = 0, z = far.
std::array<std::shared_ptr<const Mesh>, 6> walls(const Vec3& size_m);

/// The parts and lights as a studio with nothing else in it.
Studio studio(std::vector<ScenePart> parts, std::vector<Emitter> emitters);

/// Looks from `eye_m` to `at_m`; half the field as slopes.
View view(const Vec3& eye_m, const Vec3& at_m, double slope_wide, double slope_high);

ReferenceOptions options(int width_px, int height_px, int samples, int bounces);

/// Mean of a picture's green and its standard error, over pixels `from` (inclusive) to `to`.
struct Mean {
    double value = 0.0, error = 0.0;
};
Mean mean_green(const ReferencePicture& picture, glm::ivec2 from, glm::ivec2 to);
Mean mean_green(const ReferencePicture& picture);

} // namespace reference_bench
