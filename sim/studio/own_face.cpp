#include "sim/studio/own_face.h"

#include "sim/transport/ray_scene.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

namespace keystead::own {

namespace {

constexpr double cornea_m = 0.0128; ///< eyeball centre to the front of the cornea
constexpr double step_m = 0.0005;

/// The surface as rays find it.
struct Relief {
    RayScene rays;

    explicit Relief(const std::shared_ptr<const Mesh>& mesh) {
        rays.add(mesh, ray_mask::subject);
        rays.commit();
    }
    std::optional<Vec3> met(const Vec3& from, const Vec3& direction, double reach) const {
        RayHit hit;
        if (!rays.first_hit(from, direction, 0.0, reach, ray_mask::all, hit)) return std::nullopt;
        return from + hit.distance_m * direction;
    }
    std::optional<Vec3> front(double x, double y) const {
        return met({x, y, 0.4}, {0, 0, -1}, 0.45);
    }
};

/// One coordinate of the pattern's head to this one's: straight between fixed places, on with the
/// end's slope beyond them.
struct Stretch {
    std::vector<std::pair<double, double>> fixed; ///< pattern, own; ascending

    double operator()(double value) const {
        std::size_t i = 1;
        while (i + 1 < fixed.size() && value > fixed[i].first) ++i;
        const auto& [a, own_a] = fixed[i - 1];
        const auto& [b, own_b] = fixed[i];
        return own_a + (value - a) * (own_b - own_a) / (b - a);
    }
};

struct Fit {
    Stretch y, z;
    double x = 1.0;
    Vec3 operator()(const Vec3& p) const { return {x * p.x, y(p.y), z(p.z)}; }
};

Fit fit_of(const KnownPoints& known, const Landmarks& pattern) {
    const Vec3 pupil = 0.5 * (known.pupil_left + known.pupil_right);
    Fit fit;
    fit.x =
        (known.pupil_left.x - known.pupil_right.x) / (pattern.pupil_left.x - pattern.pupil_right.x);
    fit.y.fixed = {{pattern.menton.y, known.chin.y},
                   {pattern.pronasale.y, known.nose_tip.y},
                   {pattern.pupil_left.y, pupil.y},
                   {pattern.vertex.y, std::max(known.top.y, pupil.y + 0.02)}};
    fit.z.fixed = {{0.0, 0.0},
                   {pattern.pupil_left.z, pupil.z},
                   {pattern.pronasale.z, std::max(known.nose_tip.z, pupil.z + 0.004)}};
    return fit;
}

/// Midline from one height to another, top first or not; gaps are left out.
std::vector<Vec3> profile(const Relief& relief, double from_y, double to_y) {
    std::vector<Vec3> points;
    const double step = to_y < from_y ? -step_m : step_m;
    const int count = static_cast<int>(std::abs(to_y - from_y) / step_m);
    for (int i = 0; i <= count; ++i)
        if (const auto p = relief.front(0.0, from_y + i * step)) points.push_back(*p);
    return points;
}

/// The place of a profile that lies deepest behind the chord from its first point to the most
/// forward one beyond `skip_m`; `fallback` where the profile is not hollow.
Vec3 deepest(const std::vector<Vec3>& points, double skip_m, const Vec3& fallback) {
    if (points.size() < 4) return fallback;
    const Vec3 start = points.front();
    auto end = points.end();
    for (auto p = points.begin(); p != points.end(); ++p)
        if (std::abs(p->y - start.y) >= skip_m && (end == points.end() || p->z > end->z)) end = p;
    if (end == points.end()) return fallback;
    const Vec3 chord = *end - start;
    // Square to the chord, away from the front.
    const Vec3 behind = glm::normalize(Vec3(0.0, chord.z, -chord.y)) * (chord.y < 0.0 ? -1.0 : 1.0);
    Vec3 best = fallback;
    double depth = 0.001;
    for (auto p = points.begin(); p != end; ++p)
        if (const double here = glm::dot(*p - start, behind); here > depth) {
            depth = here;
            best = *p;
        }
    return best;
}

void lay_profile(const Relief& relief, const KnownPoints& known, Landmarks& l) {
    // Base of the nose within 32 mm below its tip, root within 10 to 30 mm above the pupils.
    l.subnasale =
        deepest(profile(relief, known.nose_tip.y, known.nose_tip.y - 0.032), 0.012, l.subnasale);
    const double pupils = 0.5 * (known.pupil_left.y + known.pupil_right.y);
    l.sellion = deepest(profile(relief, known.nose_tip.y, pupils + 0.030),
                        pupils - known.nose_tip.y + 0.010, l.sellion);
    for (Vec3* p : {&l.stomion, &l.glabella})
        if (const auto here = relief.front(0.0, p->y)) *p = *here;
}

/// Onto the surface, unless it is met far from where the fit expects it (an arm in front).
void lay_on(Vec3& point, const std::optional<Vec3>& met, double at_most_m = 0.03) {
    if (met && glm::length(*met - point) < at_most_m) point = *met;
}

void lay_pairs(const Relief& relief, Landmarks& l) {
    for (Vec3* p : {&l.cheek_left, &l.cheek_right, &l.cheilion_left, &l.cheilion_right})
        lay_on(*p, relief.front(p->x, p->y));
    for (Vec3* p : {&l.zygion_left, &l.zygion_right, &l.gonion_left, &l.gonion_right,
                    &l.tragion_left, &l.tragion_right}) {
        const double side = p->x < 0.0 ? -1.0 : 1.0;
        lay_on(*p, relief.met({0.3 * side, p->y, p->z}, {-side, 0, 0}, 0.3));
    }
    lay_on(l.chest, relief.front(0.0, l.chest.y), 0.15);
    for (Vec3* p : {&l.acromion_left, &l.acromion_right})
        lay_on(*p, relief.met({p->x, l.menton.y, p->z}, {0, -1, 0}, 0.4), 0.12);
}

void place_eyes(const Relief& relief, const KnownPoints& known, Landmarks& l) {
    l.pupil_left = known.pupil_left, l.pupil_right = known.pupil_right;
    for (Vec3* p : {&l.pupil_left, &l.pupil_right}) lay_on(*p, relief.front(p->x, p->y), 0.006);
    // Chart and lines take one height for both.
    l.eye_left = l.pupil_left - Vec3(0, 0, cornea_m);
    l.eye_right = l.pupil_right - Vec3(0, 0, cornea_m);
}

void outermost(const Mesh& mesh, const Fit& fit, const Landmarks& pattern, Landmarks& l) {
    l.hair_top = l.vertex;
    l.hair_left = l.tragion_left, l.hair_right = l.tragion_right;
    const double reach = 1.6 * fit.x * std::abs(pattern.tragion_left.x);
    for (const glm::vec3& position : mesh.positions_m) {
        const Vec3 p(position);
        if (p.y < 0.0 || std::abs(p.x) > reach || std::abs(p.z) > 2.0 * reach) continue;
        if (p.y > l.hair_top.y) l.hair_top = p;
        if (p.x > l.hair_left.x) l.hair_left = p;
        if (p.x < l.hair_right.x) l.hair_right = p;
    }
}

/// Half the nose's width at a height: from its root to its wings, which stand a third of the way
/// from tip to base, then curling in under them. The nose's own shadow begins right beside it, so
/// an outline too wide hides some of that.
double nose_half_width(const Landmarks& l, double y) {
    const double wings = 0.5 * (l.alare_left.x - l.alare_right.x);
    const double wing_y = glm::mix(l.pronasale.y, l.subnasale.y, 0.33);
    if (y < wing_y) {
        const double t = (wing_y - y) / std::max(wing_y - l.subnasale.y, 1e-3);
        return wings * std::sqrt(1.0 - 0.75 * std::min(t * t, 1.0));
    }
    const double t = (l.sellion.y - y) / std::max(l.sellion.y - wing_y, 1e-3);
    return glm::mix(0.3 * wings, wings, std::clamp(t, 0.0, 1.0));
}

double ellipse(double x, double y, double half_width, double half_height) {
    return (x * x) / (half_width * half_width) + (y * y) / (half_height * half_height);
}

Region region_at(const Vec3& p, const Landmarks& l) {
    const double size = (l.pupil_left.y - l.menton.y) / 0.1176;
    const double x = std::abs(p.x), half_pupils = 0.5 * (l.pupil_left.x - l.pupil_right.x);
    const double pupils = 0.5 * (l.pupil_left.y + l.pupil_right.y);
    if (p.y < l.menton.y - 0.08 * size) return Region::body;
    if (p.y < l.menton.y - 0.004 || (p.y < l.gonion_left.y - 0.02 && p.z < 0.02))
        return Region::neck;
    if (p.z < 0.012 && x > 0.85 * l.zygion_left.x && p.y < pupils + 0.02 && p.y > -0.045 * size)
        return Region::ear;
    if (p.z < 0.01) return Region::other;
    if (p.y > l.subnasale.y && p.y < l.sellion.y + 0.004 && x < nose_half_width(l, p.y) &&
        p.z > l.pupil_left.z - 0.02)
        return Region::nose;
    if (ellipse(x - half_pupils, p.y - pupils, 0.017 * size, 0.0105 * size) < 1.0)
        return Region::lid;
    if (ellipse(x, p.y - l.stomion.y, 0.026 * size, 0.009 * size) < 1.0) return Region::lip;
    if (p.y > pupils + 0.0105 * size) return Region::brow;
    if (p.y < l.stomion.y - 0.012 * size && x < 0.030 * size) return Region::chin;
    return Region::cheek;
}

} // namespace

Landmarks fitted_landmarks(const std::shared_ptr<const Mesh>& mesh, const KnownPoints& known,
                           const Landmarks& pattern) {
    const Fit fit = fit_of(known, pattern);
    const Relief relief(mesh);
    Landmarks l = pattern;
    for (Vec3* p :
         {&l.vertex,         &l.glabella,       &l.sellion,       &l.pronasale,    &l.subnasale,
          &l.stomion,        &l.menton,         &l.zygion_left,   &l.zygion_right, &l.gonion_left,
          &l.gonion_right,   &l.tragion_left,   &l.tragion_right, &l.alare_left,   &l.alare_right,
          &l.cheilion_left,  &l.cheilion_right, &l.cheek_left,    &l.cheek_right,  &l.acromion_left,
          &l.acromion_right, &l.chest})
        *p = fit(*p);
    l.vertex = known.top;
    l.menton = known.chin;
    l.pronasale = known.nose_tip;
    place_eyes(relief, known, l);
    lay_profile(relief, known, l);
    lay_pairs(relief, l);
    outermost(*mesh, fit, pattern, l);
    l.face = l.sellion;
    return l;
}

void paint_regions(Mesh& mesh, const Landmarks& landmarks) {
    mesh.regions.resize(mesh.positions_m.size());
    std::transform(mesh.positions_m.begin(), mesh.positions_m.end(), mesh.regions.begin(),
                   [&](const glm::vec3& p) {
                       return static_cast<std::uint8_t>(region_at(Vec3(p), landmarks));
                   });
}

} // namespace keystead::own
