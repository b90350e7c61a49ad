// Modifiers without their emitting face: fabric boxes on ribs, dishes, rings, bare lamps.

#include "sim/shape/build/finish.h"
#include "sim/shape/build/solids.h"
#include "sim/shape/build/sweep.h"
#include "sim/shape/gear/gear.h"
#include "sim/shape/materials.h"
#include "sim/transport/ray_scene.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead::gear {

namespace {

using build::Frame;

constexpr double dish_up_to_m = 0.32; ///< wider discs are beauty dishes or round boxes
constexpr double beauty_dish_up_to_m = 0.80;
constexpr int facet_pieces = 3; ///< cloth between two ribs sags in this many pieces
constexpr double sag = 0.05;
constexpr double rib_radius_m = 0.003;
constexpr double backing_m = 0.004; ///< the closed backing lies this far behind the face
constexpr double least_lip_m = 0.002;

/// One ring of a fabric box, from the back to the front.
struct ShellRing {
    double place;     ///< of the depth, 0 at the face, -1 at the speed ring
    double size;      ///< of the face
    double roundness; ///< 0 the face's outline, 1 the speed ring's circle
    double sagging;
};
constexpr std::array<ShellRing, 5> box_rings{{{-1.00, 0.16, 1.00, 0.0},
                                              {-0.85, 0.42, 0.55, 0.7},
                                              {-0.55, 0.74, 0.16, 1.0},
                                              {-0.25, 0.93, 0.03, 0.6},
                                              {0.00, 1.022, 0.00, 0.0}}};

/// Corners of the face in half widths and half heights.
std::vector<Vec2> corners_of(ModifierShape shape) {
    if (shape == ModifierShape::rectangle) return {{1, -1}, {1, 1}, {-1, 1}, {-1, -1}};
    const int sides = shape == ModifierShape::octagon ? 8 : 16;
    std::vector<Vec2> corners;
    corners.reserve(static_cast<std::size_t>(sides));
    for (int side = 0; side < sides; ++side) {
        const double angle = 2.0 * pi * (side + 0.5) / sides;
        corners.push_back(Vec2(std::cos(angle), std::sin(angle)) / std::cos(pi / sides));
    }
    return corners;
}

class FabricBox {
public:
    FabricBox(const Emitter& emitter, double depth_m, double lip_m, double ring_radius_m)
        : emitter_(emitter)
        , depth_m_(depth_m)
        , lip_m_(lip_m)
        , ring_radius_m_(ring_radius_m)
        , corners_(corners_of(emitter.shape)) {}

    Mesh cloth() const {
        std::vector<std::vector<Vec3>> rings;
        rings.reserve(box_rings.size() + 3);
        for (const ShellRing& ring : box_rings)
            rings.push_back(points(ring, depth_m_ * ring.place));
        rings.push_back(points({0, 1.018, 0, 0}, lip_m_));
        rings.push_back(points({0, 1.004, 0, 0}, lip_m_));
        rings.push_back(points({0, 1.004, 0, 0}, -backing_m));
        return build::joined(rings);
    }

    /// Along the corners, just under the cloth's edge so that half of the tube stands out.
    Mesh ribs() const {
        Mesh mesh;
        for (std::size_t corner = 0; corner < corners_.size(); ++corner) {
            std::vector<Vec3> path;
            path.reserve(box_rings.size());
            for (const ShellRing& ring : box_rings)
                path.push_back(points(ring, depth_m_ * ring.place)[corner * facet_pieces]);
            append(mesh, build::rod(build::smooth_path(path, 2), rib_radius_m, 6));
        }
        return mesh;
    }

private:
    std::vector<Vec3> points(const ShellRing& ring, double z_m) const {
        std::vector<Vec3> result;
        result.reserve(corners_.size() * facet_pieces);
        for (std::size_t corner = 0; corner < corners_.size(); ++corner)
            for (int piece = 0; piece < facet_pieces; ++piece) {
                const double part = static_cast<double>(piece) / facet_pieces;
                const Vec2 flat =
                    glm::mix(corners_[corner], corners_[(corner + 1) % corners_.size()], part);
                const double hollow = 1.0 - sag * ring.sagging * 4.0 * part * (1.0 - part);
                const Vec2 face = flat * Vec2(0.5 * emitter_.width_m, 0.5 * emitter_.height_m);
                const Vec2 on_box = face * (ring.size * hollow);
                const Vec2 on_ring = glm::normalize(face) * ring_radius_m_;
                const Vec2 point = glm::mix(on_box, on_ring, ring.roundness);
                result.push_back(emitter_.centre_m + emitter_.axes * Vec3(point, z_m));
            }
        return result;
    }

    const Emitter& emitter_;
    double depth_m_, lip_m_, ring_radius_m_;
    std::vector<Vec2> corners_;
};

/// How far the rim stands in front of the face: the document's lip. A grid has no rim of its own
/// here, since its cut-off is already that of its cells.
double rim_m(const Light& light) {
    return std::max(light.modifier.lip_m, least_lip_m);
}

void add_fabric_box(PartList& list, const Light& light, const Emitter& emitter,
                    const HeadPlace& place) {
    const FabricBox box(emitter, light.modifier.depth_m, rim_m(light), 1.18 * place.radius_m);
    list.add("shell", materials::box_fabric(), box.cloth(), 21.0);
    list.add("shell", materials::plastic(), box.ribs());
    list.add("shell", materials::aluminium(),
             build::lathe(place.front,
                          {{0, 0.001},
                           {1.22 * place.radius_m, 0.001},
                           {1.22 * place.radius_m, 0.014},
                           {1.10 * place.radius_m, 0.018},
                           {0, 0.018}},
                          24));
}

/// A metal reflector: a wall of revolution closed just behind its face. `flare` bends the wall.
void add_dish(PartList& list, const Light& light, const Emitter& emitter, const HeadPlace& place,
              double flare) {
    const double depth = std::max(0.02, light.modifier.depth_m);
    const double neck = 1.05 * place.radius_m;
    const double mouth = 0.5 * emitter.width_m;
    const double rim = rim_m(light);
    std::vector<Vec2> profile{{0, -depth}, {neck, -depth}, {neck, -0.80 * depth}};
    for (int step = 1; step <= 6; ++step) {
        const double part = step / 6.0;
        profile.emplace_back(glm::mix(neck, mouth + 0.003, std::pow(part, flare)),
                             -0.80 * depth * (1.0 - part));
    }
    profile.insert(profile.end(), {{mouth + 0.003, rim - 0.008},
                                   {mouth + 0.006, rim - 0.006},
                                   {mouth + 0.006, rim},
                                   {mouth + 0.001, rim},
                                   {mouth + 0.001, -backing_m},
                                   {0, -backing_m}});
    Frame frame{emitter.centre_m, emitter.axes};
    frame.axes[1] *= emitter.height_m / emitter.width_m;
    list.add("shell", materials::black_metal(), build::lathe(frame, profile, 40), 35.0);
}

/// The small disc that hides the lamp of a beauty dish. It is behind the face as far as light is
/// concerned (the face's output is what leaves the dish), so it shades nothing.
void add_deflector(PartList& list, const Emitter& emitter) {
    const double radius = 0.15 * emitter.width_m;
    const Frame frame{emitter.centre_m, emitter.axes};
    Mesh disc = build::lathe(frame, {{0, 0.002}, {radius, 0.002}, {radius, 0.006}, {0, 0.012}}, 24);
    for (int leg = 0; leg < 3; ++leg) {
        const double angle = 2.0 * pi * (leg + 0.25) / 3;
        const Vec2 out(std::cos(angle), std::sin(angle));
        const Vec2 from = out * (0.6 * radius);
        const Vec2 to = out * (0.49 * emitter.width_m);
        append(disc,
               build::bar(frame.at(from.x, from.y, 0.004), frame.at(to.x, to.y, 0.003), 0.0025, 6));
    }
    ScenePart& part = list.add_alone("shell", materials::aluminium(), build::finished(disc));
    part.mask = ray_mask::emitter;
    part.casts = false;
}

void add_ring(PartList& list, const Light& light, const Emitter& emitter) {
    const double outer = 0.5 * emitter.width_m;
    const double inner = 0.5 * emitter.inner_width_m;
    const double depth = std::max(0.025, light.modifier.depth_m);
    const double rim = rim_m(light);
    list.add("shell", materials::plastic(),
             build::lathe({emitter.centre_m, emitter.axes},
                          {{inner - 0.008, -depth},
                           {outer - 0.010, -depth},
                           {outer + 0.010, -0.7 * depth},
                           {outer + 0.010, rim},
                           {outer + 0.001, rim},
                           {outer + 0.001, -backing_m},
                           {inner - 0.001, -backing_m},
                           {inner - 0.001, rim},
                           {inner - 0.008, rim}},
                          40, true),
             40.0);
}

void add_socket(PartList& list, const Emitter& emitter, const HeadPlace& place) {
    const double bulb = 0.5 * emitter.width_m;
    const double ahead = glm::dot(emitter.centre_m - place.front.origin_m, place.front.z());
    const double end = std::max(0.006, ahead - bulb + 0.002);
    const double radius = std::min(0.8 * place.radius_m, bulb);
    list.add("shell", materials::white_paint(),
             build::lathe(place.front, {{0, 0}, {radius, 0}, {0.7 * radius, end}, {0, end}}, 20));
}

} // namespace

void add_shell(PartList& list, const Light& light, const Emitter& emitter, const HeadPlace& place) {
    const bool shallow = light.modifier.depth_m < 0.45 * emitter.width_m;
    switch (emitter.shape) {
    case ModifierShape::bare:
    case ModifierShape::sphere:
        return add_socket(list, emitter, place);
    case ModifierShape::ring:
        return add_ring(list, light, emitter);
    case ModifierShape::umbrella:
        return add_umbrella(list, emitter, place);
    case ModifierShape::disc:
        if (emitter.width_m <= dish_up_to_m) return add_dish(list, light, emitter, place, 0.75);
        if (emitter.width_m <= beauty_dish_up_to_m && shallow) {
            add_dish(list, light, emitter, place, 0.62);
            return add_deflector(list, emitter);
        }
        return add_fabric_box(list, light, emitter, place);
    case ModifierShape::rectangle:
    case ModifierShape::octagon:
        return add_fabric_box(list, light, emitter, place);
    }
}

} // namespace keystead::gear
