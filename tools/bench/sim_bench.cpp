#include "tools/bench/sim_bench.h"

#include "engine/render/filler.h"
#include "sim/review/review.h"
#include "sim/studio/studio.h"
#include "sim/transport/reference.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace keystead::bench {

namespace {

using StudioPtr = std::shared_ptr<const Studio>;

void nudge(Set& set, int i) {
    set.lights[0].support.base.position_m.x += i % 2 == 0 ? 0.01 : -0.01;
}

std::size_t subject_triangles(const Studio& studio) {
    std::size_t sum = 0;
    for (const ScenePart& part : studio.scene.parts)
        if (part.owner == "subject") sum += part.mesh->triangles.size();
    return sum;
}

/// Every triangle in four, `times` over: the same surface with 4^times as many.
Mesh refined(Mesh mesh, int times) {
    for (int round = 0; round < times; ++round) {
        Mesh finer = mesh;
        finer.triangles.clear();
        const auto middle = [&finer](glm::uint a, glm::uint b) {
            const auto half = [a, b](auto& values) {
                if (!values.empty()) {
                    const auto between = (values[a] + values[b]);
                    values.push_back(between * 0.5F);
                }
            };
            half(finer.positions_m);
            half(finer.normals);
            half(finer.colours);
            half(finer.roughness);
            half(finer.tangents);
            if (!finer.regions.empty()) finer.regions.push_back(finer.regions[a]);
            return static_cast<glm::uint>(finer.positions_m.size() - 1);
        };
        for (const glm::uvec3& t : mesh.triangles) {
            const glm::uint ab = middle(t.x, t.y), bc = middle(t.y, t.z), ca = middle(t.z, t.x);
            finer.triangles.insert(finer.triangles.end(),
                                   {{t.x, ab, ca}, {ab, t.y, bc}, {ca, bc, t.z}, {ab, bc, ca}});
        }
        mesh = std::move(finer);
    }
    return mesh;
}

/// Millions a second of shadow rays from all over the front of the head to the key, in the order
/// in which a picture asks for them.
double shadow_rays_m_s(const Studio& studio, const RayScene& rays) {
    const Vec3 face = studio.subject->landmarks.face;
    std::vector<RayQuery> sight;
    constexpr int side = 256;
    for (int y = 0; y < side; ++y)
        for (int x = 0; x < side; ++x) {
            const Vec3 to =
                face + Vec3(0.3 * (x - side / 2) / side, 0.3 * (y - side / 2) / side, 0.0);
            const Vec3 from = studio.set.camera.position_m;
            sight.push_back({from, glm::normalize(to - from), 0.05, 80.0});
        }
    std::vector<RayHit> hits(sight.size());
    rays.first_hits(sight, ray_mask::all, hits);
    std::vector<Segment> segments;
    for (std::size_t i = 0; i < hits.size(); ++i)
        segments.push_back({sight[i].origin_m + (hits[i].distance_m - 1e-3) * sight[i].direction,
                            studio.emitters[0].centre_m});
    std::vector<std::uint8_t> blocked(segments.size());
    std::vector<double> runs;
    for (int i = 0; i < 5; ++i)
        runs.push_back(ms_of([&] { rays.blocked_many(segments, ray_mask::casters, blocked); }));
    return static_cast<double>(segments.size()) / (1e3 * median(runs));
}

Json rounded(double value, double step) {
    return std::round(value / step) * step;
}

Set with_lights(const Set& set, std::size_t count) {
    Set many = set;
    many.lights.clear();
    for (std::size_t i = 0; i < count; ++i) {
        Light light = set.lights[i % set.lights.size()];
        light.id += "-" + std::to_string(i);
        light.support.base.position_m.x += 0.03 * static_cast<double>(i / set.lights.size());
        many.lights.push_back(light);
    }
    return many;
}

} // namespace

Json review(const Set& set, int runs, double aim_ms) {
    Set edited = set;
    ReviewMemory memory;
    StudioPtr studio = make_studio(edited);
    const ReviewOptions quick{.margins = false};
    review_set(*studio, quick, &memory);
    std::vector<double> after_edit, from_nothing;
    for (int i = 0; i < runs + 1; ++i) {
        nudge(edited, i);
        studio = make_studio(edited, studio);
        const double ms = ms_of([&] { review_set(*studio, quick, &memory); });
        if (i > 0) after_edit.push_back(ms);
    }
    for (int i = 0; i < std::max(3, runs / 3); ++i)
        from_nothing.push_back(ms_of([&] { review_set(*studio, quick); }));
    return {{"after_one_light_dragged", figure(after_edit, aim_ms)},
            {"from_nothing", figure(from_nothing, aim_ms)}};
}

Json bake(const Set& set, int paths, int bounces, double aim_ms) {
    const StudioPtr studio = make_studio(set);
    BakeOptions options;
    options.paths = paths;
    options.bounces = bounces;
    std::size_t vertices = 0;
    for (const ScenePart& part : studio->scene.parts) vertices += part.mesh->positions_m.size();
    std::vector<double> runs;
    for (int i = 0; i < 3; ++i) runs.push_back(ms_of([&] { bake_studio(*studio, options); }));
    Json json = figure(runs, aim_ms);
    json["vertices"] = vertices;
    json["paths"] = paths;
    json["bounces"] = bounces;
    return json;
}

Json reference(const Set& set, int samples, int bounces, double aim_ms) {
    const StudioPtr studio = make_studio(set);
    ReferenceOptions options;
    options.width_px = 640;
    options.height_px = 360;
    options.samples = samples;
    options.bounces = bounces;
    const View view = lens_view(set.camera, options.width_px, options.height_px);
    const double ms = ms_of([&] { trace_reference(*studio, view, options); });
    Json json = figure({ms}, aim_ms);
    json["samples"] = samples;
    json["bounces"] = bounces;
    return json;
}

Json growth(const Set& set, bool quick) {
    Json json;
    Json& lights = json["lights"] = Json::array();
    for (const std::size_t count : {1U, 5U, 20U, 60U}) {
        if (quick && count > 20) break;
        Set many = with_lights(set, count);
        StudioPtr studio;
        const double first_ms = ms_of([&] { studio = make_studio(many); });
        ReviewMemory memory;
        const ReviewOptions fast{.margins = false};
        const double review_ms = ms_of([&] { review_set(*studio, fast, &memory); });
        // The first step of a drag sets the mover apart; the others are what a drag is made of.
        std::vector<double> moved, again;
        for (int i = 0; i < 4; ++i) {
            nudge(many, i);
            moved.push_back(ms_of([&] { studio = make_studio(many, studio); }));
            again.push_back(ms_of([&] { review_set(*studio, fast, &memory); }));
        }
        const double moved_ms = median({moved.begin() + 1, moved.end()});
        const double again_ms = median({again.begin() + 1, again.end()});
        lights.push_back({{"lights", count},
                          {"studio_ms", rounded(first_ms, 0.01)},
                          {"studio_after_drag_ms", rounded(moved_ms, 0.01)},
                          {"review_ms", rounded(review_ms, 0.01)},
                          {"review_after_drag_ms", rounded(again_ms, 0.01)}});
    }
    Json& triangles = json["subject_triangles"] = Json::array();
    const StudioPtr plain = make_studio(set);
    for (int times = 0; times <= (quick ? 1 : 2); ++times) {
        Studio finer = *plain;
        std::vector<RayMesh> meshes;
        std::vector<std::uint32_t> groups;
        for (ScenePart& part : finer.scene.parts) {
            if (part.owner == "subject")
                part.mesh = std::make_shared<const Mesh>(refined(*part.mesh, times));
            meshes.push_back({part.mesh, part.mask});
            groups.push_back(part.owner == "subject" ? 1U : 0U);
        }
        std::shared_ptr<const RayScene> rays;
        const double build_ms =
            ms_of([&] { rays = std::make_shared<const RayScene>(meshes, groups, nullptr); });
        triangles.push_back(
            {{"triangles", subject_triangles(finer)},
             {"build_ms", rounded(build_ms, 0.01)},
             {"shadow_rays_m_s_one_thread", rounded(shadow_rays_m_s(finer, *rays), 0.01)}});
    }
    return json;
}

} // namespace keystead::bench
