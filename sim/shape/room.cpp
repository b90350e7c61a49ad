// The room as a box seen from inside, with a skirting board and wall sockets.

#include "sim/shape/build/sheet.h"
#include "sim/shape/build/solids.h"
#include "sim/shape/content_key.h"
#include "sim/shape/materials.h"
#include "sim/shape/part_list.h"
#include "sim/transport/ray_scene.h"

#include <algorithm>

namespace keystead {

namespace {

/// Cells small enough that light stored at the corners follows a lamp's pool on the wall.
constexpr double wall_cell_m = 0.18;
constexpr double skirting_height_m = 0.09;
constexpr double skirting_thickness_m = 0.014;

struct Walls {
    double left_m, right_m, back_m, front_m, ceiling_m;
};

Walls walls_of(const Room& room) {
    return {-room.left_of_subject_m, room.width_m - room.left_of_subject_m, -room.behind_subject_m,
            room.depth_m - room.behind_subject_m, room.ceiling_m};
}

/// A rectangle from `corner` along two edges, facing edge_u × edge_v.
Mesh rectangle(const Vec3& corner_m, const Vec3& edge_u_m, const Vec3& edge_v_m) {
    return build::sheet(build::cells(glm::length(edge_u_m), wall_cell_m),
                        build::cells(glm::length(edge_v_m), wall_cell_m),
                        [&](double u, double v) { return corner_m + edge_u_m * u + edge_v_m * v; });
}

/// One wall: where it starts at the floor, and where it runs; run × up points into the room.
struct Side {
    Vec3 start_m, run_m;
};

std::vector<Side> sides_of(const Walls& w) {
    const double width = w.right_m - w.left_m;
    const double depth = w.front_m - w.back_m;
    return {{{w.left_m, 0, w.back_m}, {width, 0, 0}},
            {{w.right_m, 0, w.back_m}, {0, 0, depth}},
            {{w.right_m, 0, w.front_m}, {-width, 0, 0}},
            {{w.left_m, 0, w.front_m}, {0, 0, -depth}}};
}

/// x into the room, y along the wall, z up.
build::Frame wall_frame(const Side& side, double along_m, double height_m) {
    const Vec3 along = glm::normalize(side.run_m);
    const Vec3 up(0, 1, 0);
    return {side.start_m + along * along_m + up * height_m, Mat3(glm::cross(along, up), along, up)};
}

Mesh skirting(const Side& side) {
    const double half_run = 0.5 * glm::length(side.run_m);
    const build::Frame frame = wall_frame(side, half_run, 0.5 * skirting_height_m);
    return build::chamfered_box(frame.moved(0.5 * skirting_thickness_m, 0, 0),
                                {0.5 * skirting_thickness_m, half_run, 0.5 * skirting_height_m},
                                0.004);
}

Mesh socket(const Side& side, double along_m) {
    constexpr double half_m = 0.0425;
    return build::chamfered_box(wall_frame(side, along_m, 0.30).moved(0.005, 0, 0),
                                {0.005, half_m, half_m}, 0.003);
}

std::uint64_t key_of(const Room& room) {
    return ContentKey()
        .add("room")
        .add(room.width_m)
        .add(room.depth_m)
        .add(room.ceiling_m)
        .add(room.left_of_subject_m)
        .add(room.behind_subject_m)
        .add(room.walls.rgb)
        .add(room.ceiling.rgb)
        .add(room.floor.rgb)
        .value();
}

} // namespace

std::uint64_t first_part_key(const Room& room) {
    return part_key(key_of(room), 0);
}

std::vector<ScenePart> room_parts(const Room& room) {
    const Walls w = walls_of(room);
    const Vec3 width(w.right_m - w.left_m, 0, 0);
    const Vec3 depth(0, 0, w.front_m - w.back_m);
    PartList list("room", ray_mask::room);
    list.add("floor", materials::painted(room.floor, 0.34F, Finish::floor),
             rectangle({w.left_m, 0, w.front_m}, width, -depth));
    list.add("ceiling", materials::painted(room.ceiling, 0.80F),
             rectangle({w.left_m, w.ceiling_m, w.back_m}, width, depth));
    for (const Side& side : sides_of(w)) {
        list.add("walls", materials::painted(room.walls, 0.75F),
                 rectangle(side.start_m, side.run_m, {0, w.ceiling_m, 0}));
        list.add("skirting", materials::white_paint(), skirting(side));
        const double run = glm::length(side.run_m);
        list.add("socket", materials::white_paint(), socket(side, 0.31 * run));
        list.add("socket", materials::white_paint(), socket(side, 0.31 * run + 0.087));
    }
    std::vector<ScenePart> parts = list.take(key_of(room));
    for (ScenePart& part : parts) part.casts = false;
    return parts;
}

} // namespace keystead
