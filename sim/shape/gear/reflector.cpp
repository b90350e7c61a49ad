// Rigid modifiers of revolution: bowls, dishes with their deflector or sock, snoots, rings.

#include "sim/shape/build/finish.h"
#include "sim/shape/build/solids.h"
#include "sim/shape/gear/gear.h"
#include "sim/shape/materials.h"
#include "sim/transport/ray_scene.h"

#include <algorithm>
#include <cmath>

namespace keystead::gear {

namespace {

using build::Frame;

constexpr double backing_m = 0.004; ///< the closed backing lies this far behind the face

/// Frame of a face of revolution; an elliptical one is stretched.
Frame face_frame(const Emitter& emitter) {
    Frame frame{emitter.centre_m, emitter.axes};
    frame.axes[1] *= emitter.height_m / emitter.width_m;
    return frame;
}

/// The rolled edge at the mouth and the closed backing just behind the face.
void close_at_mouth(std::vector<Vec2>& profile, double mouth_m, double rim_m) {
    profile.insert(profile.end(), {{mouth_m + 0.003, rim_m - 0.008},
                                   {mouth_m + 0.006, rim_m - 0.006},
                                   {mouth_m + 0.006, rim_m},
                                   {mouth_m + 0.001, rim_m},
                                   {mouth_m + 0.001, -backing_m},
                                   {0, -backing_m}});
}

/// How the wall bends from neck to mouth: below 1 it bellies out like a bowl, above it flares like
/// a trumpet. Deep ones gather, so they are bowls; shallow wide ones flare.
double flare_of(const Modifier& modifier) {
    const double slenderness = modifier.depth_m / std::max(modifier.width_m, 0.01);
    return std::clamp(1.45 - 0.85 * slenderness, 0.5, 1.25);
}

/// Disc with three legs before a dish's middle, as wide as the document's deflector. It lies in the
/// face's plane, where the emitting ring leaves room for it, so it shades nothing a second time.
void add_deflector(PartList& list, const Emitter& emitter, double radius_m) {
    const Frame frame{emitter.centre_m, emitter.axes};
    Mesh disc =
        build::lathe(frame, {{0, 0.002}, {radius_m, 0.002}, {radius_m, 0.006}, {0, 0.012}}, 28);
    for (int leg = 0; leg < 3; ++leg) {
        const double angle = 2.0 * pi * (leg + 0.25) / 3;
        const Vec2 out(std::cos(angle), std::sin(angle));
        const Vec2 from = out * (0.9 * radius_m), to = out * (0.49 * emitter.width_m);
        append(disc,
               build::bar(frame.at(from.x, from.y, 0.004), frame.at(to.x, to.y, 0.003), 0.0025, 6));
    }
    ScenePart& part = list.add_alone("shell", materials::aluminium(), build::finished(disc));
    part.mask = ray_mask::emitter;
    part.casts = false;
}

/// The elastic hem of the cloth over a dish's mouth.
void add_sock_hem(PartList& list, const Emitter& emitter) {
    const double r = 0.5 * emitter.width_m + 0.006;
    list.add("shell", materials::box_fabric(),
             build::lathe(face_frame(emitter),
                          {{r, -0.045}, {r + 0.004, -0.040}, {r + 0.004, 0.0}, {r, 0.001}}, 48,
                          true),
             40.0);
}

} // namespace

void add_dish(PartList& list, const Light& light, const Emitter& emitter, const HeadPlace& place,
              double rim_m) {
    const Modifier& modifier = light.modifier;
    const double depth = std::max(0.02, modifier.depth_m);
    const double neck = 1.05 * place.radius_m;
    const double mouth = 0.5 * emitter.width_m;
    const double flare = flare_of(modifier);
    std::vector<Vec2> profile{{0, -depth}, {neck, -depth}, {neck, -0.80 * depth}};
    constexpr int steps = 8;
    for (int step = 1; step <= steps; ++step) {
        const double part = static_cast<double>(step) / steps;
        profile.emplace_back(glm::mix(neck, mouth + 0.003, std::pow(part, flare)),
                             -0.80 * depth * (1.0 - part));
    }
    close_at_mouth(profile, mouth, rim_m);
    // Large dishes are painted, small reflectors are spun metal.
    const Material material =
        modifier.width_m > 0.35 ? materials::white_paint() : materials::black_metal();
    list.add("shell", material, build::lathe(face_frame(emitter), profile, 40), 35.0);
    if (emitter.deflector > 0.0)
        add_deflector(list, emitter, 0.5 * modifier.deflector_width_m);
    else if (modifier.deflector_width_m > 0.0)
        add_sock_hem(list, emitter);
}

void add_snoot(PartList& list, const Light& light, const Emitter& emitter, const HeadPlace& place,
               double rim_m) {
    const double depth = std::max(0.02, light.modifier.depth_m);
    const double neck = 1.05 * place.radius_m;
    const double mouth = 0.5 * emitter.width_m;
    // A cone to the mouth's width, then a straight tube.
    std::vector<Vec2> profile{{0, -depth},
                              {neck, -depth},
                              {neck, -0.86 * depth},
                              {mouth + 0.004, -0.40 * depth},
                              {mouth + 0.003, -0.38 * depth}};
    close_at_mouth(profile, mouth, rim_m);
    list.add("shell", materials::black_metal(), build::lathe(face_frame(emitter), profile, 32),
             35.0);
    // An optical spot focuses: a knurled ring about its barrel.
    if (light.modifier.cutoff_edge_deg >= 2.0) return;
    const double r = mouth + 0.004;
    list.add("shell", materials::rubber(),
             build::lathe(face_frame(emitter),
                          {{r, -0.26 * depth},
                           {r + 0.007, -0.25 * depth},
                           {r + 0.007, -0.13 * depth},
                           {r, -0.12 * depth}},
                          32, true),
             35.0);
}

void add_ring(PartList& list, const Light& light, const Emitter& emitter, double rim_m) {
    const double outer = 0.5 * emitter.width_m;
    const double inner = 0.5 * emitter.inner_width_m;
    const double depth = std::max(0.025, light.modifier.depth_m);
    list.add("shell", materials::plastic(),
             build::lathe({emitter.centre_m, emitter.axes},
                          {{inner - 0.008, -depth},
                           {outer - 0.010, -depth},
                           {outer + 0.010, -0.7 * depth},
                           {outer + 0.010, rim_m},
                           {outer + 0.001, rim_m},
                           {outer + 0.001, -backing_m},
                           {inner - 0.001, -backing_m},
                           {inner - 0.001, rim_m},
                           {inner - 0.008, rim_m}},
                          40, true),
             40.0);
}

} // namespace keystead::gear
