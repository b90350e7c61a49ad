// Barn doors: four flaps on a square frame at the rim, where the readings cut the beam (beam.glsl).

#include "sim/light/emission_text.h"
#include "sim/shape/build/solids.h"
#include "sim/shape/gear/gear.h"
#include "sim/shape/materials.h"

#include <array>

namespace keystead::gear {

namespace {

constexpr double sheet_m = 0.0012; ///< thickness of a flap
constexpr double clear_m = 0.0015; ///< the flap stays this far outside the plane that cuts

/// One flap in its own terms: hinge at `hinge_m` along `out`, wide along `along`.
struct Flap {
    Vec3 out, along;
    double hinge_m, half_width_m;
    double sine, cosine;
};

Mesh flap_mesh(const Flap& flap, const Emitter& emitter, double length_m) {
    const Vec3 beam = emitter.axes[2];
    const Vec3 run = flap.sine * flap.out + flap.cosine * beam;
    const Vec3 outside = flap.cosine * flap.out - flap.sine * beam;
    const Vec3 hinge =
        emitter.centre_m + emitter.front.lip_m * beam + (flap.hinge_m + clear_m) * flap.out;
    const double tip = flap.half_width_m + emission::door_flare * length_m;
    // x along the hinge, y out along the flap, z through it.
    const build::Frame frame{hinge, Mat3(glm::cross(run, outside), run, outside)};
    return build::extruded(
        frame,
        {{-flap.half_width_m, 0.0}, {flap.half_width_m, 0.0}, {tip, length_m}, {-tip, length_m}},
        sheet_m);
}

} // namespace

void add_doors(PartList& list, const Emitter& emitter) {
    const FaceFront& front = emitter.front;
    if (front.door_length_m <= 0.0) return;
    const Vec3 x = emitter.axes[0], y = emitter.axes[1], beam = emitter.axes[2];
    const double w = front.half_width_m, h = front.half_height_m;
    const std::array<Flap, 4> flaps{{{y, x, h, w, front.door_sine[0], front.door_cosine[0]},
                                     {-y, x, h, w, front.door_sine[1], front.door_cosine[1]},
                                     {-x, y, w, h, front.door_sine[2], front.door_cosine[2]},
                                     {x, y, w, h, front.door_sine[3], front.door_cosine[3]}}};
    for (const Flap& flap : flaps) {
        list.add("doors", materials::black_metal(), flap_mesh(flap, emitter, front.door_length_m));
        // The hinge rod, part of a square frame around the rim.
        const Vec3 middle =
            emitter.centre_m + (front.lip_m - 0.004) * beam + (flap.hinge_m + 0.006) * flap.out;
        const Vec3 half = (flap.half_width_m + 0.006) * flap.along;
        list.add("doors", materials::black_metal(),
                 build::bar(middle - half, middle + half, 0.004, 8));
    }
}

} // namespace keystead::gear
