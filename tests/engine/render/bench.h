// A bench to measure pictures on: plain meshes, hand-made emitters, one context for all tests.
#pragma once

#include "engine/render/renderer.h"

#include <functional>
#include <memory>
#include <string>

namespace bench {

using namespace keystead;

/// Quad with corners centre ± right ± up; its front is right x up.
std::shared_ptr<const Mesh> quad(const Vec3& centre_m, const Vec3& right_m, const Vec3& up_m);
/// Closed box.
std::shared_ptr<const Mesh> block(const Vec3& low_m, const Vec3& high_m);
/// Closed sphere with smooth normals.
std::shared_ptr<const Mesh> ball(const Vec3& centre_m, double radius_m, int rings = 24);

ScenePart part(const std::string& owner, const std::string& name, std::shared_ptr<const Mesh> mesh,
               float albedo, bool casts = false);

/// Flat Lambertian emitters of full power, exitance 1000, colour 1, facing `beam`.
Emitter disc(const Vec3& centre_m, const Vec3& beam, double radius_m);
Emitter rectangle(const Vec3& centre_m, const Vec3& beam, double width_m, double height_m);

/// A studio of these parts and lights with nothing else in it.
std::shared_ptr<Studio> studio(std::vector<ScenePart> parts, std::vector<Emitter> emitters);

/// A view from `eye_m` to `at_m`; half the field as a slope.
View view(const Vec3& eye_m, const Vec3& at_m, double slope, int width_px, int height_px);

/// A renderer in the tests' windowless context. Diffuse reflection only unless `specular`.
std::unique_ptr<Renderer> renderer(bool specular = false);

/// Refines to `samples` a light.
void converge(Renderer& r, int samples);

/// Largest relative error of pi·L/albedo in a picture against irradiance by formula, over pixels
/// where `region` holds. Positions come from the picture itself.
struct Error {
    double largest = 0.0, mean = 0.0;
    int pixels = 0;
};
Error irradiance_error(Renderer& r, double albedo,
                       const std::function<double(const Vec3&)>& expected,
                       const std::function<bool(const Vec3&)>& region);

} // namespace bench
