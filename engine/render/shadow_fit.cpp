#include "engine/render/shadow_fit.h"

#include "sim/base/vec.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace keystead {

namespace {

// A lip or a grip may stand a centimetre from the emitting face.
constexpr double near_m = 0.01;
// tan 65°: beyond it a flat map spends its texels on the rim.
constexpr double widest_single = 2.1;

/// Rectangle in tangents about a map's axis.
struct Slopes {
    double left = std::numeric_limits<double>::max(), right = std::numeric_limits<double>::lowest();
    double bottom = left, top = right;

    bool empty() const { return left >= right || bottom >= top; }
    void add(double x, double y) {
        left = std::min(left, x);
        right = std::max(right, x);
        bottom = std::min(bottom, y);
        top = std::max(top, y);
    }
    Slopes common(const Slopes& other) const {
        Slopes both;
        both.left = std::max(left, other.left);
        both.right = std::min(right, other.right);
        both.bottom = std::max(bottom, other.bottom);
        both.top = std::min(top, other.top);
        return both;
    }
    double widest() const {
        return std::max(std::max(std::abs(left), std::abs(right)),
                        std::max(std::abs(bottom), std::abs(top)));
    }
};

constexpr Slopes within(double limit) {
    return {-limit, limit, -limit, limit};
}

/// Columns right, up, forward.
Mat3 frame_along(const Vec3& forward) {
    const Vec3 reference = std::abs(forward.y) > 0.9 ? Vec3(0, 0, 1) : Vec3(0, 1, 0);
    const Vec3 right = glm::normalize(glm::cross(forward, reference));
    return {right, glm::cross(right, forward), forward};
}

std::array<Vec3, 8> corners(const Box& box) {
    std::array<Vec3, 8> all;
    for (unsigned i = 0; i < 8; ++i)
        all[i] = Vec3((i & 1U) != 0 ? box.high_m.x : box.low_m.x,
                      (i & 2U) != 0 ? box.high_m.y : box.low_m.y,
                      (i & 4U) != 0 ? box.high_m.z : box.low_m.z);
    return all;
}

/// Slopes that the casters can cover within `limit`; a box that reaches behind the point counts
/// as everywhere.
Slopes caster_slopes(const Vec3& point_m, const Mat3& frame, std::span<const Box> casters,
                     double limit) {
    Slopes slopes;
    const Mat3 to_map = glm::transpose(frame);
    for (const Box& box : casters) {
        Slopes one;
        bool behind = false, ahead = false;
        for (const Vec3& corner : corners(box)) {
            const Vec3 local = to_map * (corner - point_m);
            if (local.z <= near_m) {
                behind = true;
                continue;
            }
            ahead = true;
            one.add(local.x / local.z, local.y / local.z);
        }
        if (!ahead) continue;
        if (behind) return within(limit);
        slopes.add(one.left, one.bottom);
        slopes.add(one.right, one.top);
    }
    return slopes.common(within(limit));
}

/// Slopes of the receivers ahead, within `limit`, and the greatest depth among them.
Slopes receiver_slopes(const Vec3& point_m, const Mat3& frame,
                       std::span<const glm::vec3> receivers_m, double limit, double& far_m) {
    Slopes slopes;
    const Mat3 to_map = glm::transpose(frame);
    far_m = 0.0;
    for (const glm::vec3& receiver : receivers_m) {
        const Vec3 local = to_map * (Vec3(receiver) - point_m);
        if (local.z <= near_m) continue;
        const double x = local.x / local.z, y = local.y / local.z;
        if (std::max(std::abs(x), std::abs(y)) > limit) continue;
        slopes.add(x, y);
        far_m = std::max(far_m, local.z);
    }
    return slopes;
}

ShadowView view_of(const Vec3& point_m, const Mat3& frame, const Slopes& slopes, double far_m,
                   int map_px) {
    // Room for the two-texel filter and for receivers between those that were looked at.
    const double wide = slopes.right - slopes.left, high = slopes.top - slopes.bottom;
    const double rim = 0.03 * std::max(wide, high) + 0.002;
    const double left = slopes.left - rim, right = slopes.right + rim;
    const double bottom = slopes.bottom - rim, top = slopes.top + rim;
    const double far_plane = std::max(1.2 * far_m, 4.0 * near_m);
    // Rows of the projection in the map's frame, x right, y up, z forward.
    const Vec3 x_row(2.0 / (right - left), 0.0, -(right + left) / (right - left));
    const Vec3 y_row(0.0, 2.0 / (top - bottom), -(top + bottom) / (top - bottom));
    const double depth_scale = (far_plane + near_m) / (far_plane - near_m);
    const double depth_shift = -2.0 * far_plane * near_m / (far_plane - near_m);
    const Vec3 rows[3] = {frame * x_row, frame * y_row, frame[2]};
    ShadowView view;
    for (int row = 0; row < 2; ++row)
        for (int column = 0; column < 3; ++column)
            view.clip_from_room[column][row] = static_cast<float>(rows[row][column]);
    for (int column = 0; column < 3; ++column) {
        view.clip_from_room[column][2] = static_cast<float>(depth_scale * frame[2][column]);
        view.clip_from_room[column][3] = static_cast<float>(frame[2][column]);
        view.depth_row[column] = static_cast<float>(frame[2][column]);
    }
    view.clip_from_room[3] =
        glm::vec4(static_cast<float>(-glm::dot(rows[0], point_m)),
                  static_cast<float>(-glm::dot(rows[1], point_m)),
                  static_cast<float>(depth_shift - depth_scale * glm::dot(frame[2], point_m)),
                  static_cast<float>(-glm::dot(frame[2], point_m)));
    view.depth_row.w = view.clip_from_room[3].w;
    view.texel_slope = static_cast<float>(std::max(right - left, top - bottom) / map_px);
    return view;
}

Vec3 mean_direction(const Vec3& point_m, std::span<const glm::vec3> receivers_m) {
    Vec3 sum(0.0);
    for (const glm::vec3& receiver : receivers_m) {
        const Vec3 toward = Vec3(receiver) - point_m;
        const double distance = glm::length(toward);
        if (distance > near_m) sum += toward / distance;
    }
    return sum;
}

/// The receivers a light that shines to the side of `axis` can reach.
std::vector<glm::vec3> in_front(const glm::vec3& point_m, const glm::vec3& axis,
                                std::span<const glm::vec3> receivers_m) {
    std::vector<glm::vec3> front;
    front.reserve(receivers_m.size());
    for (const glm::vec3& receiver : receivers_m)
        if (axis == glm::vec3(0.0F) || glm::dot(receiver - point_m, axis) > 0.0F)
            front.push_back(receiver);
    return front;
}

void add_fitted(std::vector<ShadowView>& views, const Vec3& point_m, const Mat3& frame,
                std::span<const glm::vec3> receivers_m, std::span<const Box> casters, double limit,
                int map_px) {
    double far_m = 0.0;
    const Slopes seen = receiver_slopes(point_m, frame, receivers_m, limit, far_m);
    if (far_m <= 0.0) return;
    // A single receiver spans nothing: give every rectangle some width.
    Slopes wide = seen;
    wide.add(seen.left - 1e-3, seen.bottom - 1e-3);
    wide.add(seen.right + 1e-3, seen.top + 1e-3);
    const Slopes both = wide.common(caster_slopes(point_m, frame, casters, 1.5 * limit));
    if (!both.empty()) views.push_back(view_of(point_m, frame, both, far_m, map_px));
}

} // namespace

std::vector<ShadowView> fit_shadow_views(const glm::vec3& point_m, const glm::vec3& axis,
                                         std::span<const glm::vec3> receivers_m,
                                         std::span<const Box> casters, int map_px) {
    std::vector<ShadowView> views;
    const std::vector<glm::vec3> front = in_front(point_m, axis, receivers_m);
    const Vec3 point(point_m);
    const Vec3 mean = mean_direction(point, front);
    if (front.empty() || casters.empty()) return views;
    if (glm::length(mean) > 0.2 * static_cast<double>(front.size())) {
        const Mat3 frame = frame_along(glm::normalize(mean));
        double far_m = 0.0;
        const Slopes all = receiver_slopes(point, frame, front, 1e6, far_m);
        const bool ahead = std::all_of(front.begin(), front.end(), [&](const glm::vec3& r) {
            return glm::dot(frame[2], Vec3(r) - point) > near_m;
        });
        if (ahead && all.widest() <= widest_single) {
            add_fitted(views, point, frame, front, casters, widest_single, map_px);
            return views;
        }
    }
    const Vec3 forward = axis == glm::vec3(0.0F) ? Vec3(0, 0, 1) : glm::normalize(Vec3(axis));
    const Mat3 cube = frame_along(forward);
    const std::array<Vec3, 6> faces{cube[2], cube[0], -cube[0], cube[1], -cube[1], -cube[2]};
    for (const Vec3& face : faces)
        add_fitted(views, point, frame_along(face), front, casters, 1.0, map_px);
    return views;
}

bool may_see(const glm::mat4& clip_from_room, const Box& box) {
    std::array<glm::vec4, 8> clip;
    for (unsigned i = 0; i < 8; ++i)
        clip[i] = clip_from_room * glm::vec4((i & 1U) != 0 ? box.high_m.x : box.low_m.x,
                                             (i & 2U) != 0 ? box.high_m.y : box.low_m.y,
                                             (i & 4U) != 0 ? box.high_m.z : box.low_m.z, 1.0F);
    const auto all_beyond = [&](int axis, float side) {
        return std::all_of(clip.begin(), clip.end(),
                           [&](const glm::vec4& p) { return side * p[axis] > p.w; });
    };
    for (int axis = 0; axis < 3; ++axis)
        if (all_beyond(axis, 1.0F) || all_beyond(axis, -1.0F)) return false;
    return true;
}

} // namespace keystead
