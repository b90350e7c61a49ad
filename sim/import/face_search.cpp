#include "sim/import/face_search.h"

#include "sim/import/finish.h"
#include "sim/import/simplify.h"

#include <algorithm>
#include <cmath>

namespace keystead::importing {

namespace {

// Vertex to pronasale is 0.15 m in the mean; smaller in children, more under hair.
constexpr double nose_highest_m = -0.08, nose_lowest_m = -0.24;
/// A nose is about 35 mm wide at its wings: here the cheeks have begun.
constexpr double beside_m = 0.028;
constexpr double least_prominence_m = 0.008;
/// Real faces differ by a few millimetres from side to side.
constexpr double most_asymmetry_m = 0.005;

/// Prominence at a place if it stands out like a nose tip: over both cheeks, over the lip below it
/// and over the bridge above.
double prominence_at(const DepthMap& map, double u, double v) {
    const auto tip = map.at(u, v);
    const auto left = map.at(u + beside_m, v), right = map.at(u - beside_m, v);
    const auto below = map.at(u, v - 0.025), above = map.at(u, v + 0.030);
    if (!tip || !left || !right || !below || !above) return 0.0;
    if (*tip - *below < 0.003 || *tip - *above < 0.004) return 0.0;
    return *tip - std::max(*left, *right);
}

double score_of(const NoseView& nose) {
    return std::min(nose.prominence_m, 0.025) - 2.0 * nose.asymmetry_m;
}

/// The symmetry plane near a ridge: the place about which the sides differ least.
void centre_on_symmetry(const DepthMap& map, NoseView& nose) {
    const double around = nose.u_m, cell = map.extent().cell_m;
    for (const double u : spaced(around - 0.012, around + 0.012, 0.5 * cell)) {
        const double asymmetry = asymmetry_about(map, u, nose.v_m);
        if (asymmetry >= nose.asymmetry_m) continue;
        nose.asymmetry_m = asymmetry;
        nose.u_m = u;
    }
}

/// A head leans to one side in most scans: the lean about which the sides differ least.
void straighten(const DepthMap& map, NoseView& nose) {
    const double around = nose.u_m;
    for (const double lean : spaced(-14.0, 14.0, 0.5))
        for (const double u : spaced(around - 0.006, around + 0.006, 0.001)) {
            const double asymmetry = asymmetry_about(map, u, nose.v_m, lean);
            if (asymmetry >= nose.asymmetry_m) continue;
            nose.asymmetry_m = asymmetry;
            nose.u_m = u;
            nose.lean_deg = lean;
        }
}

std::optional<NoseView> best_of(const Mesh& head, const Vec3& origin_m, double from_deg,
                                double to_deg, double step_deg, double cell_m) {
    const MapExtent extent{0.14, -0.36, 0.0, cell_m};
    std::optional<NoseView> best;
    for (const double azimuth : spaced(from_deg, to_deg - 0.5 * step_deg, step_deg)) {
        const DepthMap map(head, ViewFrame::facing(azimuth, origin_m), extent);
        const std::optional<NoseView> nose = nose_in_view(map, azimuth);
        if (nose && (!best || nose->score_m > best->score_m)) best = nose;
    }
    return best;
}

/// A surface full of cracks is not thinned: merging its shells would take the nose with it.
Mesh thinned(const Mesh& head, std::size_t max_triangles) {
    SimplifiedMesh thin = simplify(head, max_triangles);
    return thin.kept_topology ? std::move(thin.mesh) : head;
}

} // namespace

Mesh head_part(const Mesh& mesh) {
    float top = mesh.positions_m.empty() ? 0.0F : mesh.positions_m.front().y;
    for (const glm::vec3& p : mesh.positions_m) top = std::max(top, p.y);
    const float floor = top - 0.36F;
    Mesh part;
    part.positions_m = mesh.positions_m;
    for (const glm::uvec3& t : mesh.triangles)
        if (mesh.positions_m[t.x].y > floor && mesh.positions_m[t.y].y > floor &&
            mesh.positions_m[t.z].y > floor)
            part.triangles.push_back(t);
    drop_unused_vertices(part);
    return part;
}

/// The middle of the upper part, where no shoulder reaches.
Vec3 view_origin(const Mesh& head) {
    double top = -1e9;
    for (const glm::vec3& p : head.positions_m) top = std::max(top, static_cast<double>(p.y));
    Vec3 low(1e9), high(-1e9);
    for (const glm::vec3& p : head.positions_m) {
        if (static_cast<double>(p.y) < top - 0.16) continue;
        low = glm::min(low, Vec3(p));
        high = glm::max(high, Vec3(p));
    }
    return {0.5 * (low.x + high.x), top, 0.5 * (low.z + high.z)};
}

double asymmetry_about(const DepthMap& map, double u_m, double v_m, double lean_deg) {
    const double c = std::cos(radians(lean_deg)), s = std::sin(radians(lean_deg));
    const std::vector<double> across = spaced(0.004, 0.056, 0.004);
    double sum = 0.0;
    int asked = 0, shown = 0;
    for (const double e : spaced(-0.04, 0.06, 0.004))
        for (const double d : across) {
            ++asked;
            const auto left = map.at(u_m + c * d + s * e, v_m - s * d + c * e);
            const auto right = map.at(u_m - c * d + s * e, v_m + s * d + c * e);
            if (!left || !right) continue;
            ++shown;
            sum += std::min(std::abs(*left - *right), 0.02);
        }
    return 4 * shown < 3 * asked ? 1.0 : sum / shown;
}

std::optional<NoseView> nose_in_view(const DepthMap& map, double azimuth_deg) {
    NoseView nose;
    nose.azimuth_deg = azimuth_deg;
    const double cell = map.extent().cell_m;
    const std::vector<double> across = spaced(-0.08, 0.08, cell);
    for (const double v : spaced(nose_lowest_m, nose_highest_m, cell))
        for (const double u : across) {
            const double prominence = prominence_at(map, u, v);
            if (prominence <= nose.prominence_m) continue;
            nose.prominence_m = prominence;
            nose.u_m = u;
            nose.v_m = v;
        }
    if (nose.prominence_m < least_prominence_m) return std::nullopt;
    centre_on_symmetry(map, nose);
    nose.score_m = score_of(nose);
    return nose;
}

std::optional<NoseView> find_nose(const Mesh& head, const Vec3& origin_m) {
    const Mesh coarse = thinned(head, 12'000);
    const std::optional<NoseView> rough = best_of(coarse, origin_m, 0.0, 360.0, 5.0, 0.004);
    if (!rough) return std::nullopt;
    const double about = rough->azimuth_deg;
    const Mesh finer = thinned(head, 60'000);
    std::optional<NoseView> fine = best_of(finer, origin_m, about - 5.0, about + 5.25, 0.5, 0.002);
    if (!fine) return std::nullopt;
    const MapExtent extent{0.14, -0.36, 0.0, 0.002};
    straighten(DepthMap(finer, ViewFrame::facing(fine->azimuth_deg, origin_m), extent), *fine);
    if (fine->asymmetry_m > most_asymmetry_m) return std::nullopt;
    return fine;
}

} // namespace keystead::importing
