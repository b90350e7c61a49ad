#include "sim/light/emission_lanes.h"

namespace keystead {

namespace {

float of(double value) {
    return static_cast<float>(value);
}

glm::vec4 four(const std::array<double, 4>& values) {
    return {of(values[0]), of(values[1]), of(values[2]), of(values[3])};
}

emission_lanes::FaceFront lane_front(const FaceFront& front) {
    return {{of(front.half_width_m), of(front.half_height_m)},
            of(front.lip_m),
            of(front.door_length_m),
            four(front.door_sine),
            four(front.door_cosine),
            of(front.lamp_ahead_m),
            of(front.lamp_radius_m)};
}

} // namespace

emission_lanes::EmitterFace lane_face(const Emitter& e) {
    emission_lanes::EmitterFace face{};
    face.shape = static_cast<int>(e.shape);
    face.centre = glm::vec3(e.centre_m);
    face.across = glm::vec3(e.axes[0]);
    face.upward = glm::vec3(e.axes[1]);
    face.outward = glm::vec3(e.axes[2]);
    face.half_size = {0.5F * of(e.width_m), 0.5F * of(e.height_m)};
    face.inner = e.width_m > 0.0 ? of(e.inner_width_m / e.width_m) : 0.0F;
    face.depth = of(e.depth_m);
    face.bulges = e.bulges;
    face.deflector = of(e.deflector);
    face.hot_spot = of(e.hot_spot);
    face.measured = e.measured != nullptr;
    face.profiled = !e.beam.plain();
    face.exponent = of(e.beam.exponent);
    face.cutoff = of(radians(e.beam.cutoff_half_deg));
    face.cutoff_edge = of(radians(e.beam.cutoff_edge_deg));
    face.gain = of(e.beam.gain);
    const Grid grid = e.grid.value_or(Grid{});
    if (e.grid)
        face.cell = grid.cell == GridCell::square ? emission::cell_square : emission::cell_round;
    face.grid_width = of(grid.cell_width_m);
    face.grid_depth = of(grid.cell_depth_m);
    face.grid_open = of(grid.open_fraction);
    face.grid_wall = of(grid.wall_reflection);
    face.fronted = !e.front.empty();
    face.front = lane_front(e.front);
    return face;
}

} // namespace keystead
