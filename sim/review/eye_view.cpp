#include "sim/review/eye_view.h"

#include "sim/light/meter.h"
#include "sim/shape/content_key.h"

#include <algorithm>
#include <array>

namespace keystead {

namespace {

/// Rays leave the cornea from this far outside it.
constexpr double lift_m = 0.35e-3;
constexpr int points_of_light = 89;

/// Hiders in the order of the memory's values; then the lights' gear and the panels.
constexpr std::array<const char*, 9> hiders{"brow",    "lid",  "nose", "hair", "hat",
                                            "glasses", "face", "room", "eye"};
constexpr std::size_t first_owner = hiders.size();
constexpr std::size_t behind = 8; ///< the eyeball itself: the light lies behind the eye

std::size_t hider_on_skin(const Mesh& mesh, const RayHit& hit) {
    if (mesh.regions.empty()) return 6;
    const glm::uvec3& corner = mesh.triangles[hit.triangle];
    const double first = 1.0 - hit.u - hit.v;
    const glm::uint nearest = first >= hit.u && first >= hit.v ? corner.x
                              : hit.u >= hit.v                 ? corner.y
                                                               : corner.z;
    switch (static_cast<Region>(mesh.regions[nearest])) {
    case Region::brow:
        return 0;
    case Region::lid:
        return 1;
    case Region::nose:
        return 2;
    case Region::hair:
        return 3;
    default:
        return 6;
    }
}

std::size_t hider_of(const Studio& studio, const RayHit& hit) {
    const ScenePart& part = studio.scene.parts[hit.mesh];
    if (part.owner == "subject") {
        if (part.part == "hair") return 3;
        if (part.part == "hat") return 4;
        if (part.part == "glasses") return 5;
        if (part.part == "eyes") return behind;
        return hider_on_skin(*part.mesh, hit);
    }
    std::size_t at = first_owner;
    for (const Light& light : studio.set.lights) {
        if (light.id == part.owner) return at;
        ++at;
    }
    for (const Panel& panel : studio.set.panels) {
        if (panel.id == part.owner) return at;
        ++at;
    }
    return 7;
}

std::string name_of_hider(const Studio& studio, std::size_t index) {
    if (index < first_owner) return hiders[index];
    index -= first_owner;
    if (index < studio.set.lights.size()) return studio.set.lights[index].id;
    return studio.set.panels[index - studio.set.lights.size()].id;
}

/// Share seen, then by hider; empty where the light sends nothing to the eye.
std::vector<double> shares(const Studio& studio, const PosedEye& eye, const Emitter& emitter) {
    const Vec3 origin = eye.pupil_m + lift_m * eye.gaze;
    std::vector<RayQuery> rays;
    std::vector<double> weights;
    double sum = 0.0;
    for (const EmitterPoint& point : emitter_points(emitter, points_of_light)) {
        const Vec3 way = point.position_m - origin;
        const double distance = glm::length(way);
        if (distance <= 1e-6) continue;
        const double sent = exposure_from(
            emitter, point, {origin, way / distance, Receptor::flat, ray_mask::casters});
        if (sent <= 0.0) continue;
        sum += sent;
        weights.push_back(sent);
        constexpr double short_of_m = 2e-3; // the light's own glass or cloth
        rays.push_back({origin, way / distance, 0.0, std::max(0.0, distance - short_of_m)});
    }
    if (sum <= 0.0) return {};
    std::vector<RayHit> hits(rays.size());
    studio.rays->first_hits(rays, ray_mask::casters | ray_mask::background, hits);
    std::vector<double> result(
        1 + first_owner + studio.set.lights.size() + studio.set.panels.size(), 0.0);
    for (std::size_t i = 0; i < rays.size(); ++i) {
        const double share = weights[i] / sum;
        if (glm::dot(rays[i].direction, eye.gaze) <= 0.0)
            result[1 + behind] += share;
        else if (hits[i].mesh == ray_miss)
            result[0] += share;
        else
            result[1 + hider_of(studio, hits[i])] += share;
    }
    return result;
}

std::optional<EyeLight> named(const Studio& studio, const std::string& light,
                              const std::vector<double>& values) {
    if (values.empty()) return {};
    EyeLight seen{light, 100.0 * values[0], {}};
    for (std::size_t i = 1; i < values.size(); ++i)
        if (values[i] > 0.0 && i != 1 + behind)
            seen.hiders.push_back({name_of_hider(studio, i - 1), 100.0 * values[i]});
    std::stable_sort(seen.hiders.begin(), seen.hiders.end(),
                     [](const EyeHider& a, const EyeHider& b) { return a.percent > b.percent; });
    return seen;
}

} // namespace

std::vector<PosedEye> eyes_of(const Landmarks& marks) {
    const auto eye = [](const char* name, const Vec3& pupil, const Vec3& eyeball) {
        return PosedEye{name, pupil, eyeball, glm::normalize(pupil - eyeball)};
    };
    return {eye("left", marks.pupil_left, marks.eye_left),
            eye("right", marks.pupil_right, marks.eye_right)};
}

std::optional<EyeLight> eye_light(const Studio& studio, const PosedEye& eye,
                                  const Emitter& emitter) {
    auto light = named(studio, emitter.light, shares(studio, eye, emitter));
    if (!light) return light;
    const auto own = std::find_if(light->hiders.begin(), light->hiders.end(),
                                  [&](const EyeHider& h) { return h.what == emitter.light; });
    if (own != light->hiders.end()) {
        light->seen_percent += own->percent;
        light->hiders.erase(own);
    }
    return light;
}

std::optional<EyeLight> eye_light(const Studio& studio, const PosedEye& eye, std::size_t light,
                                  ProbeMemory& memory) {
    const ReadingKeys& keys = memory.keys();
    ContentKey key;
    key.add("eye").add(keys.lights[light]).add(eye.pupil_m).add(eye.gaze);
    key.add(keys.shades.between(keys.faces[light], {eye.pupil_m, Vec3(0.0)}));
    // Values are by place in the lists of lights and panels.
    for (const Light& each : studio.set.lights) key.add(each.id);
    for (const Panel& each : studio.set.panels) key.add(each.id);
    const std::vector<double>& values =
        memory.values(key.value(), [&] { return shares(studio, eye, studio.emitters[light]); });
    return named(studio, studio.emitters[light].light, values);
}

} // namespace keystead
