#include "tests/engine/render/bench.h"

#include "engine/gl/context.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

namespace bench {

namespace {

Mat3 axes_along(const Vec3& beam) {
    return upright_frame(glm::normalize(beam));
}

void keep_context() {
    static const auto context = HeadlessContext::create();
    INFO((context.ok() ? "" : context.problem().message()));
    REQUIRE(context.ok());
}

} // namespace

std::shared_ptr<const Mesh> quad(const Vec3& centre_m, const Vec3& right_m, const Vec3& up_m) {
    auto mesh = std::make_shared<Mesh>();
    for (const auto& [a, b] : {std::pair{-1, -1}, {1, -1}, {1, 1}, {-1, 1}})
        mesh->positions_m.emplace_back(centre_m + double(a) * right_m + double(b) * up_m);
    mesh->triangles = {{0, 1, 2}, {0, 2, 3}};
    return mesh;
}

std::shared_ptr<const Mesh> block(const Vec3& low_m, const Vec3& high_m) {
    auto mesh = std::make_shared<Mesh>();
    for (unsigned i = 0; i < 8; ++i)
        mesh->positions_m.emplace_back((i & 1U) != 0 ? high_m.x : low_m.x,
                                       (i & 2U) != 0 ? high_m.y : low_m.y,
                                       (i & 4U) != 0 ? high_m.z : low_m.z);
    mesh->triangles = {{0, 2, 3}, {0, 3, 1}, {4, 5, 7}, {4, 7, 6}, {0, 1, 5}, {0, 5, 4},
                       {2, 6, 7}, {2, 7, 3}, {0, 4, 6}, {0, 6, 2}, {1, 3, 7}, {1, 7, 5}};
    return mesh;
}

std::shared_ptr<const Mesh> ball(const Vec3& centre_m, double radius_m, int rings) {
    auto mesh = std::make_shared<Mesh>();
    const int turns = 2 * rings;
    for (int i = 0; i <= rings; ++i)
        for (int j = 0; j < turns; ++j) {
            const double polar = pi * i / rings, turn = 2.0 * pi * j / turns;
            const Vec3 n(std::sin(polar) * std::cos(turn), std::cos(polar),
                         -std::sin(polar) * std::sin(turn));
            mesh->normals.emplace_back(n);
            mesh->positions_m.emplace_back(centre_m + radius_m * n);
        }
    const auto at = [&](int i, int j) { return static_cast<glm::uint>(i * turns + j % turns); };
    for (int i = 0; i < rings; ++i)
        for (int j = 0; j < turns; ++j) {
            mesh->triangles.emplace_back(at(i, j), at(i + 1, j), at(i + 1, j + 1));
            mesh->triangles.emplace_back(at(i, j), at(i + 1, j + 1), at(i, j + 1));
        }
    return mesh;
}

ScenePart part(const std::string& owner, const std::string& name, std::shared_ptr<const Mesh> mesh,
               float albedo, bool casts) {
    ScenePart made;
    made.owner = owner;
    made.part = name;
    made.mesh = std::move(mesh);
    made.material.albedo = glm::vec3(albedo);
    made.casts = casts;
    return made;
}

Emitter disc(const Vec3& centre_m, const Vec3& beam, double radius_m) {
    Emitter made = rectangle(centre_m, beam, 2.0 * radius_m, 2.0 * radius_m);
    made.shape = ModifierShape::disc;
    made.area_m2 = pi * radius_m * radius_m;
    return made;
}

Emitter rectangle(const Vec3& centre_m, const Vec3& beam, double width_m, double height_m) {
    Emitter made;
    made.shape = ModifierShape::rectangle;
    made.centre_m = centre_m;
    made.axes = axes_along(beam);
    made.width_m = width_m;
    made.height_m = height_m;
    made.area_m2 = width_m * height_m;
    made.exitance = 1000.0;
    return made;
}

std::shared_ptr<Studio> studio(std::vector<ScenePart> parts, std::vector<Emitter> emitters) {
    auto made = std::make_shared<Studio>();
    made->scene.parts = std::move(parts);
    for (std::size_t i = 0; i < emitters.size(); ++i) {
        if (emitters[i].light.empty()) emitters[i].light = "light " + std::to_string(i);
        made->light_keys.push_back(0);
    }
    made->emitters = std::move(emitters);
    return made;
}

View view(const Vec3& eye_m, const Vec3& at_m, double slope, int width_px, int height_px) {
    View made;
    made.eye_m = eye_m;
    const Vec3 backward = glm::normalize(eye_m - at_m);
    const Vec3 up = std::abs(backward.y) > 0.99 ? Vec3(0, 0, -1) : Vec3(0, 1, 0);
    const Vec3 right = glm::normalize(glm::cross(up, backward));
    made.axes = Mat3(right, glm::cross(backward, right), backward);
    made.tan_half_height = slope;
    made.tan_half_width = slope * width_px / height_px;
    return made;
}

std::unique_ptr<Renderer> renderer(bool specular) {
    keep_context();
    auto made = std::make_unique<Renderer>();
    INFO(made->problem());
    REQUIRE(made->problem().empty());
    RenderOptions options;
    options.specular = specular;
    made->set_options(options);
    return made;
}

void converge(Renderer& r, int samples) {
    while (r.refine(samples)) {
    }
}

Error irradiance_error(Renderer& r, double albedo,
                       const std::function<double(const Vec3&)>& expected,
                       const std::function<bool(const Vec3&)>& region) {
    const LinearImage picture = r.read_linear();
    const std::vector<glm::vec4> places = r.read_positions();
    REQUIRE(places.size() == picture.pixels.size());
    Error error;
    for (std::size_t i = 0; i < places.size(); ++i) {
        if (places[i].w == 0.0F) continue;
        const Vec3 place(places[i]);
        if (!region(place)) continue;
        const double measured = pi * static_cast<double>(picture.pixels[i].g) / albedo;
        const double wrong = std::abs(measured / expected(place) - 1.0);
        error.largest = std::max(error.largest, wrong);
        error.mean += wrong;
        ++error.pixels;
    }
    error.mean /= std::max(1, error.pixels);
    return error;
}

} // namespace bench
