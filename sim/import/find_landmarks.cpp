#include "sim/import/find_landmarks.h"

#include "sim/import/face_search.h"
#include "sim/import/simplify.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

using namespace importing;

constexpr double cell_m = 0.001;

/// A view along a face at full detail; u = 0 is its midline, v = 0 near the nose tip.
struct Face {
    ViewFrame frame;
    DepthMap map;
    NoseView nose;
    double tip_v_m = 0.0, tip_w_m = 0.0;
};

/// Reach of the midline at a height, over a strip a few cells wide.
std::optional<double> profile(const Face& face, double v) {
    return face.map.mean(0.0, v, 0.0015);
}

void place_tip(Face& face) {
    face.tip_w_m = -1e9;
    for (const double v : spaced(-0.015, 0.015, cell_m))
        if (const auto w = profile(face, v); w && *w > face.tip_w_m) {
            face.tip_w_m = *w;
            face.tip_v_m = v;
        }
}

HeadPoint point(const Face& face, double u, double v, double w, double confidence) {
    // Only a hand is certain.
    return {face.frame.to_mesh({u, v, w}), std::clamp(confidence, 0.0, 0.9), false};
}

HeadPoint nose_point(const Face& face) {
    // Sure from 12 mm of prominence and with sides alike to 1.5 mm.
    const double stands_out = (face.nose.prominence_m - 0.004) / 0.008;
    const double alike = (0.0065 - face.nose.asymmetry_m) / 0.005;
    return point(face, 0.0, face.tip_v_m, face.tip_w_m, std::min({stands_out, alike, 1.0}));
}

/// The chin ends where the profile falls back toward the throat, or where a mask ends. Nose tip to
/// menton is 0.075 m in the mean, from 0.05 in children to 0.10.
std::optional<HeadPoint> chin_point(const Face& face) {
    double best_step = 0.0, best_v = 0.0, best_w = 0.0;
    for (const double v : spaced(face.tip_v_m - 0.045, face.tip_v_m - 0.115, -cell_m)) {
        const auto here = profile(face, v);
        if (!here || *here < face.tip_w_m - 0.07) break;
        const auto below = profile(face, v - 0.006);
        const double step = below ? *here - *below : 0.03;
        if (step <= best_step) continue;
        best_step = step;
        best_v = v;
        best_w = *here;
    }
    if (best_step < 0.006) return std::nullopt;
    // The last height that still belongs to the chin.
    for (const double v : spaced(best_v, best_v - 0.006, -cell_m))
        if (const auto w = profile(face, v); w && *w > best_w - 0.008) {
            best_v = v;
            best_w = std::min(best_w, *w);
        }
    return point(face, 0.0, best_v, best_w, best_step / 0.025);
}

/// How hollow the relief is at a scale, on both sides of the midline alike: the shallower side.
std::optional<double> hollow(const Face& face, double half_distance, double v, double inner,
                             double outer) {
    double shallower = 1.0;
    for (const double u : {-half_distance, half_distance}) {
        const auto centre = face.map.mean(u, v, inner);
        const auto around = face.map.ring(u, v, outer);
        if (!centre || !around) return std::nullopt;
        shallower = std::min(shallower, *around - *centre);
    }
    return shallower;
}

struct Eyes {
    double half_distance_m = 0.0, v_m = 0.0, depth_m = 0.0;
};

/// The most hollow pair of places: pupils are 0.063 m apart in the mean (0.045 in children, 0.078
/// at most) and 0.02 to 0.06 above the nose tip.
Eyes find_sockets(const Face& face) {
    Eyes eyes;
    for (const double v : spaced(face.tip_v_m + 0.022, face.tip_v_m + 0.060, cell_m))
        for (const double half : spaced(0.023, 0.039, cell_m))
            if (const auto depth = hollow(face, half, v, 0.007, 0.017);
                depth && *depth > eyes.depth_m)
                eyes = {half, v, *depth};
    return eyes;
}

/// How much the relief bulges at the size of an eyeball between its lids.
double bulge(const Face& face, double half_distance, double v) {
    const auto small = hollow(face, half_distance, v, 0.003, 0.008);
    const auto large = hollow(face, half_distance, v, 0.004, 0.011);
    return small && large ? -*small - *large : 0.0;
}

/// The hollow is deepest at the inner corner of the eye; the eyeball, behind lids or open, bulges
/// beside it. On a small head the search also reaches the outer rim of the socket and the cheek,
/// which bulge as much: but an eyeball bulges inside its socket, those stand out of the face.
bool move_to_eyeball(const Face& face, Eyes& eyes) {
    constexpr double least_bulge_m = 0.0008;
    const std::vector<double> heights = spaced(eyes.v_m - 0.008, eyes.v_m + 0.008, cell_m);
    const std::vector<double> halves =
        spaced(eyes.half_distance_m - 0.003, eyes.half_distance_m + 0.015, cell_m);
    std::vector<double> bulges;
    for (const double v : heights)
        for (const double half : halves) bulges.push_back(bulge(face, half, v));
    const std::size_t row = halves.size();
    const auto is_bump = [&](std::size_t at) {
        for (const std::size_t beside : {at - row - 1, at - row, at - row + 1, at - 1, at + 1,
                                         at + row - 1, at + row, at + row + 1})
            if (bulges[beside] > bulges[at]) return false;
        return bulges[at] > least_bulge_m;
    };
    double best = -1.0;
    for (std::size_t j = 1; j + 1 < heights.size(); ++j)
        for (std::size_t i = 1; i + 1 < row; ++i) {
            const std::size_t at = j * row + i;
            if (!is_bump(at)) continue;
            const auto socket = hollow(face, halves[i], heights[j], 0.007, 0.017);
            if (!socket || bulges[at] + *socket <= best) continue;
            best = bulges[at] + *socket;
            eyes.half_distance_m = halves[i];
            eyes.v_m = heights[j];
        }
    return best > -1.0;
}

void add_eyes(const Face& face, HeadLandmarks& found) {
    Eyes eyes = find_sockets(face);
    if (eyes.depth_m < 0.0015) return;
    const bool bulges = move_to_eyeball(face, eyes);
    const double confidence = std::min(eyes.depth_m / 0.004, 1.0) * (bulges ? 0.9 : 0.5);
    const double left = eyes.half_distance_m, right = -eyes.half_distance_m;
    const auto left_w = face.map.mean(left, eyes.v_m, 0.002);
    const auto right_w = face.map.mean(right, eyes.v_m, 0.002);
    if (!left_w || !right_w) return;
    found.pupil_left = point(face, left, eyes.v_m, *left_w, confidence);
    found.pupil_right = point(face, right, eyes.v_m, *right_w, confidence);
}

/// Highest place near the midline. Vertex to menton is 0.228 m in the mean; hair adds to it.
HeadPoint top_point(const Mesh& head, const Face& face, const std::optional<HeadPoint>& chin) {
    Vec3 highest(0.0, -1e9, 0.0);
    for (const glm::vec3& p : head.positions_m) {
        const Vec3 view = face.frame.to_view(Vec3(p));
        if (std::abs(view.x) < 0.04 && view.y > highest.y) highest = view;
    }
    const double height = chin ? face.frame.to_mesh(highest).y - chin->point_m.y : 0.0;
    const double odd = std::abs(height - 0.23) / 0.04;
    return point(face, highest.x, highest.y, highest.z, chin ? 1.2 - 0.4 * odd : 0.3);
}

std::string remark_on(const HeadLandmarks& found) {
    std::string missing;
    if (!found.chin) missing = "the chin";
    if (!found.pupil_left) missing += missing.empty() ? "the eyes" : " and the eyes";
    if (missing.empty()) return "A face was found; check its points before relying on them.";
    return "A face was found, but not " + missing + ": place them by hand.";
}

} // namespace

HeadLandmarks find_head_landmarks(const Mesh& mesh) {
    HeadLandmarks found;
    found.remark = "No face was found: place nose tip, pupils, chin and top by hand.";
    const Mesh head = simplify(head_part(mesh), 200'000).mesh;
    if (head.triangles.empty()) return found;
    const Vec3 origin = view_origin(head);
    const std::optional<NoseView> nose = find_nose(head, origin);
    if (!nose) return found;
    // The frame of the face: upright along the head, from the place of the nose.
    const ViewFrame upright = ViewFrame::facing(nose->azimuth_deg, origin);
    ViewFrame frame = upright.leaning(nose->lean_deg);
    frame.origin_m = upright.to_mesh({nose->u_m, nose->v_m, 0.0});
    Face face{frame, DepthMap(head, frame, {0.08, -0.15, 0.12, cell_m}), *nose};
    place_tip(face);
    found.nose_tip = nose_point(face);
    found.facing_deg = std::remainder(nose->azimuth_deg, 360.0);
    found.chin = chin_point(face);
    found.top = top_point(head, face, found.chin);
    add_eyes(face, found);
    found.remark = remark_on(found);
    return found;
}

HeadLandmarks with_placed(HeadLandmarks found, const PlacedLandmarks& placed) {
    const auto put = [](std::optional<HeadPoint>& into, const std::optional<Vec3>& point_m) {
        if (point_m) into = HeadPoint{*point_m, 1.0, true};
    };
    put(found.nose_tip, placed.nose_tip_m);
    put(found.pupil_left, placed.pupil_left_m);
    put(found.pupil_right, placed.pupil_right_m);
    put(found.chin, placed.chin_m);
    put(found.top, placed.top_m);
    if (placed.pupil_left_m && placed.pupil_right_m && placed.nose_tip_m) {
        // Level, square to the line between the pupils, to the side where the nose is.
        const Vec3 left = *placed.pupil_left_m - *placed.pupil_right_m;
        const Vec3 ahead(-left.z, 0.0, left.x);
        const Vec3 nose = *placed.nose_tip_m - 0.5 * (*placed.pupil_left_m + *placed.pupil_right_m);
        const double side = glm::dot(ahead, nose) < 0.0 ? -1.0 : 1.0;
        found.facing_deg = degrees(std::atan2(side * ahead.x, side * ahead.z));
    }
    if (found.complete()) found.remark = "All five points are there; check the found ones.";
    return found;
}

} // namespace keystead
