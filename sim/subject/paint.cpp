#include "sim/subject/paint.h"

#include "sim/subject/body.h"
#include "sim/subject/noise.h"

#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>

namespace keystead::sculpt {

namespace {

struct Coat {
    Vec3 colour = base_skin;
    double roughness = 0.46;
    Region region = Region::other;
};

double blob(const Vec3& q, const Vec3& centre, double radius) {
    return std::exp(-0.5 * glm::dot(q - centre, q - centre) / square(radius));
}

void toward(Vec3& colour, const Vec3& target, double weight) {
    colour = glm::mix(colour, target, std::clamp(weight, 0.0, 1.0));
}

// The nose ends at subnasale: what hangs below that height is upper lip.
bool is_nose(const Shape& s, const Vec3& q, double without_nose) {
    if (q.z < 70.0 || q.y < s.nose_base || q.y > 26.0 || q.x > 30.0) return false;
    return without_nose > 0.6 || nose_solid(s, q) < 0.6;
}

bool is_lid(const Vec3& e) {
    return e.z > 0.0 && square((e.x + 0.5) / 17.0) + square((e.y - 1.0) / 10.5) < 1.0;
}

Region region_at(const Shape& s, const Vec3& p, const Vec3& q, double vermilion) {
    if (q.y < -178.0) return Region::body;
    const double bare = with_bones(s, q, skull(s, q));
    if (glm::length(q - ear_centre(s)) < ear_reach_mm(s) && bare > 1.25 && q.z < 12.0 &&
        q.y > -45.0)
        return Region::ear;
    if (is_lid(eye_relative(s, p))) return Region::lid;
    if (is_nose(s, q, bare)) return Region::nose;
    if (vermilion > 0.5) return Region::lip;
    const double below_jaw = -0.906 * (q.y + 99.2) - 0.423 * (q.z - 80.0);
    if (below_jaw > 4.0 && (bare > 1.5 || q.y < -40.0)) return Region::neck;
    if (q.z > 15.0 && q.y > 27.0 && q.y < 105.0) return Region::brow;
    if (q.z > 40.0 && q.y < -64.0 && q.x < 30.0) return Region::chin;
    if (q.z > 10.0 && q.y <= 27.0) return Region::cheek;
    return Region::other;
}

void flush(Coat& coat, const Vec3& q) {
    const Vec3 red(0.50, 0.27, 0.215);
    const double weight = 0.36 * blob(q, {42, -14, 78}, 17) + 0.34 * blob(q, {12, -19, 104}, 9) +
                          0.30 * blob(q, {0, -16, 118}, 8) + 0.25 * blob(q, {0, -86, 92}, 14) +
                          0.40 * smooth_step(34.0, 20.0, glm::length(q - Vec3(78, 0, -14)));
    toward(coat.colour, red, weight);
    toward(coat.colour, {0.53, 0.38, 0.295},
           0.8 * smooth_step(34.0, 55.0, q.y) * smooth_step(20.0, 50.0, q.z));
    const double oily = std::max(blob(q, {0, 62, 92}, 28), blob(q, {0, -16, 120}, 12));
    coat.roughness = mix(coat.roughness, 0.40, oily);
}

void shade_eyes(Coat& coat, const Shape& s, const Vec3& e) {
    if (e.z < 0.0 || std::abs(e.x) > 26.0) return;
    const double lid = smooth_step(1.25, 0.75, square(e.x / 16.0) + square((e.y - 5.0) / 6.0));
    toward(coat.colour, {0.40, 0.235, 0.185}, 0.5 * lid);
    const double under = std::exp(-0.5 * (square((e.x + 3.0) / 9.0) + square((e.y + 10.5) / 3.5)));
    toward(coat.colour, {0.40, 0.26, 0.21}, 0.5 * under);
    coat.roughness = mix(coat.roughness, 0.40, std::max(lid, under));
    const double ball = glm::length(e);
    const LidEdges edges = lid_edges(s, e.x);
    if (ball < 16.0 && std::abs(e.x) < 14.5) {
        const double margin = e.y - edges.upper;
        const double lash = bump(margin, 0.75) * smooth_step(-12.5, -7.0, e.x);
        toward(coat.colour, {0.03, 0.02, 0.015}, 0.9 * lash);
        const double rim = bump(e.y - edges.lower, 0.9);
        toward(coat.colour, {0.42, 0.22, 0.18}, 0.6 * rim);
    }
    if (glm::length(e - Vec3(-11.5, -0.8, 5.5)) < 3.6) toward(coat.colour, {0.45, 0.20, 0.17}, 0.7);
}

// Eyebrow: an arch of hair strokes, dense in the middle, thin at its ends and along its upper edge.
void paint_brow(Coat& coat, const Shape& s, const Vec3& q) {
    if (q.z < 40.0 || q.y < 24.0 || q.y > 56.0) return;
    const double x = q.x + (32.0 - s.eye_canonical.x);
    const double t = (x - 10.0) / 42.0;
    if (t < -0.1 || t > 1.15) return;
    const double lift = s.brow_outer_lift;
    const double arch = 35.5 + (6.0 + 0.6 * lift) * std::sin(std::clamp(t, 0.0, 1.0) * 2.4) -
                        3.0 * t * t + 0.5 * lift * t;
    const double half =
        s.brow_width * mix(4.0, 2.2, smooth_step(0.30, 1.05, t)) * smooth_step(-0.15, 0.12, t);
    const double across = (q.y - arch) / std::max(half, 0.5);
    const double strokes = 0.94 + 0.12 * value_noise({x / 2.3 + q.y / 4.0, q.y / 8.0, 1.0});
    const double body =
        across > 0.0 ? smooth_step(1.35, 0.25, across) : smooth_step(-1.25, -0.55, across);
    const double weight = body * smooth_step(1.08, 0.72, t) * smooth_step(-0.05, 0.14, t);
    toward(coat.colour, {0.075, 0.044, 0.028}, 0.88 * weight * std::min(strokes, 1.0));
    coat.roughness = mix(coat.roughness, 0.60, weight);
}

Coat coat_at(const Shape& s, const Vec3& p, HairStyle style) {
    Coat coat;
    const Vec3 q = s.canonical(p);
    const Lips lips = lips_at(s, q);
    coat.region = region_at(s, p, q, lips.vermilion);
    if (q.y > -120.0) {
        flush(coat, q);
        shade_eyes(coat, s, eye_relative(s, p));
        toward(coat.colour, {0.39, 0.185, 0.16}, 0.78 * lips.vermilion);
        toward(coat.colour, {0.16, 0.065, 0.055}, 0.75 * lips.line);
        coat.roughness = mix(coat.roughness, 0.38, lips.vermilion);
        paint_brow(coat, s, q);
        // Roots show through at the hairline, so that hair does not end in a hard edge.
        if (style != HairStyle::none && q.y > -80.0 && coat.region != Region::ear)
            toward(coat.colour, {0.16, 0.105, 0.08},
                   0.8 * smooth_step(-7.0, 5.0, above_hairline(q)));
    }
    return coat;
}

template <class F>
void paint(Mesh& mesh, F&& coat) {
    const std::size_t count = mesh.positions_m.size();
    mesh.colours.resize(count);
    mesh.roughness.resize(count);
    mesh.regions.resize(count);
    tbb::parallel_for(tbb::blocked_range<std::size_t>(0, count, 512), [&](const auto& range) {
        for (std::size_t i = range.begin(); i != range.end(); ++i) {
            const Coat c = coat(Vec3(mesh.positions_m[i]) * 1000.0);
            mesh.colours[i] = glm::vec3(c.colour);
            mesh.roughness[i] = static_cast<float>(c.roughness);
            mesh.regions[i] = static_cast<std::uint8_t>(c.region);
        }
    });
}

} // namespace

void paint_skin(Mesh& skin, const Shape& shape, HairStyle style) {
    paint(skin, [&](const Vec3& p) { return coat_at(shape, p, style); });
}

void paint_hands(Mesh& hands) {
    paint(hands, [](const Vec3&) { return Coat{base_skin * 0.96, 0.48, Region::body}; });
}

void paint_cloth(Mesh& cloth, const Shape& shape, const ArmBends& arms) {
    const Limbs left = limbs_of(shape, arms.left), right = limbs_of(shape, arms.right);
    paint(cloth, [&](const Vec3& p) {
        Coat coat{base_cloth, 0.80, Region::clothing};
        const Vec3 q = shape.canonical(p);
        const Limbs& limbs = p.x < 0.0 ? right : left;
        const bool arm = q.x > 175.0 && q.y > limbs.wrist.y - 60.0 && !shape.measures.seated;
        const bool lap = shape.measures.seated && (q.y < -705.0 || (q.y < -560.0 && q.z > 75.0)) &&
                         capsule(q, limbs.elbow, limbs.wrist, 46, 36) > 8.0;
        if (lap || (!shape.measures.seated && q.y < -735.0 && !arm)) {
            coat.colour = base_cloth * Vec3(0.42, 0.40, 0.38);
            if (q.y < limbs.sole_y + 92.0) coat.colour = base_cloth * 0.22, coat.roughness = 0.5;
        }
        return coat;
    });
}

} // namespace keystead::sculpt
