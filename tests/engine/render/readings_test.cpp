// The two halves against each other: what a meter reads on the sitter by quadrature and ray casts,
// and what the renderer draws there.
#include "sim/light/meter.h"
#include "sim/set/set_io.h"
#include "tests/engine/render/bench.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace bench;

namespace {

constexpr int side_px = 96;

/// The set with every surface white and plain, so that pi·L is irradiance.
std::shared_ptr<const Studio> white_studio(const char* file) {
    const auto loaded = load_set(std::string(KEYSTEAD_SOURCE_DIR "/assets/sets/") + file);
    INFO((loaded.ok() ? "" : loaded.problem().message()));
    REQUIRE(loaded.ok());
    auto studio = std::make_shared<Studio>(*make_studio(loaded.value().set));
    for (ScenePart& part : studio->scene.parts) {
        auto bare = std::make_shared<Mesh>(*part.mesh);
        bare->colours.clear();
        bare->normals.clear(); // facets: the normal that ray casts see
        part.mesh = bare;
        part.material = Material{glm::vec3(1.0F), 0.8F, 0.04F, false, Finish::plain};
        part.key = 0;
    }
    // Key and strip do for this; the others would only take time.
    for (std::size_t i = 2; i < studio->emitters.size(); ++i) studio->emitters[i].power = 0.0;
    auto rays = std::make_shared<RayScene>();
    for (const ScenePart& part : studio->scene.parts) rays->add(part.mesh, part.mask);
    rays->commit();
    studio->rays = rays;
    return studio;
}

View close_view(const Studio& studio) {
    const Vec3 face = studio.subject->landmarks.face - Vec3(0, 0.03, 0);
    const Vec3 eye = studio.set.camera.position_m;
    return bench::view(eye, face, 0.10 / glm::length(eye - face), side_px, side_px);
}

struct Spot {
    Vec3 position_m, normal;
    double rendered = 0.0;
};

/// Every ninth pixel of the sitter that a ray meets where the picture says.
std::vector<Spot> spots_on_sitter(Renderer& r, const Studio& studio, int light) {
    const std::vector<glm::vec4> places = r.read_positions();
    const LinearImage picture = r.read_linear(light);
    std::vector<Spot> spots;
    for (int y = 4; y < side_px - 4; y += 3)
        for (int x = 4; x < side_px - 4; x += 3) {
            const auto at = [&](int dx, int dy) {
                return static_cast<std::size_t>((y + dy) * side_px + x + dx);
            };
            const glm::vec4 here = places[at(0, 0)];
            if (here.w < 1.0F) continue;
            const auto part = static_cast<std::size_t>(here.w) - 1;
            if (part >= studio.scene.parts.size() || studio.scene.parts[part].owner != "subject")
                continue;
            // The plane by ray cast, the facet the eye meets.
            RayHit hit;
            const Vec3 eye = studio.set.camera.position_m;
            const Vec3 toward = glm::normalize(Vec3(here) - eye);
            if (!studio.rays->first_hit(eye, toward, 0.3, 10.0, ray_mask::subject, hit)) continue;
            Vec3 normal = hit.geometric_normal;
            if (glm::dot(normal, toward) > 0.0) normal = -normal;
            if (std::abs(hit.distance_m - glm::length(Vec3(here) - eye)) > 1e-3) continue;
            spots.push_back(
                {Vec3(here), normal, pi * static_cast<double>(picture.pixels[at(0, 0)].g)});
        }
    return spots;
}

} // namespace

TEST_CASE("The picture's light on the sitter is what the meter reads there") {
    const auto studio = white_studio("lantern-maker.json");
    auto r = renderer();
    RenderOptions options;
    options.specular = false;
    r->set_options(options);
    r->show(studio);
    r->look(close_view(*studio), side_px, side_px);
    converge(*r, 32);
    for (std::size_t light = 0; light < 2; ++light) {
        const Emitter& emitter = studio->emitters[light];
        const std::vector<Spot> spots = spots_on_sitter(*r, *studio, static_cast<int>(light));
        REQUIRE(spots.size() > 200);
        double sum_rendered = 0.0, sum_metered = 0.0;
        std::vector<double> errors;
        double brightest = 0.0;
        std::vector<double> metered;
        for (const Spot& spot : spots) {
            Probe probe;
            probe.position_m = spot.position_m + 5e-4 * spot.normal;
            probe.facing = spot.normal;
            metered.push_back(exposure_at(emitter, probe, studio->rays.get(), 128));
            brightest = std::max(brightest, metered.back());
        }
        for (std::size_t i = 0; i < spots.size(); ++i) {
            sum_rendered += spots[i].rendered;
            sum_metered += metered[i];
            // Pixels average over the facets they cover: compare with the brightest place.
            errors.push_back(std::abs(spots[i].rendered - metered[i]) / brightest);
        }
        std::sort(errors.begin(), errors.end());
        const double median = errors[errors.size() / 2], ninth = errors[errors.size() * 9 / 10];
        INFO(emitter.light << ": mean rendered/metered " << sum_rendered / sum_metered
                           << ", median error " << median << ", 90 % below " << ninth << " of "
                           << spots.size());
        CHECK(sum_rendered == Approx(sum_metered).epsilon(0.03));
        CHECK(median < 0.01);
        CHECK(ninth < 0.05);
    }
}
