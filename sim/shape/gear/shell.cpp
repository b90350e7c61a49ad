// Modifiers without their emitting face: fabric boxes on ribs, flat panels, balls, bare lamps;
// which kind a modifier's numbers make it.

#include "sim/shape/build/finish.h"
#include "sim/shape/build/solids.h"
#include "sim/shape/build/sweep.h"
#include "sim/shape/gear/gear.h"
#include "sim/shape/materials.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead::gear {

namespace {

using build::Frame;

constexpr double dish_up_to_m = 0.32; ///< wider discs are beauty dishes or round boxes
constexpr double beauty_dish_up_to_m = 0.80;
constexpr double flat_up_to_m = 0.12; ///< shallower rectangles are LED panels
constexpr int facet_pieces = 3;       ///< cloth between two ribs sags in this many pieces
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

/// An LED panel: a flat housing with cooling ribs on its back and a frame round its face.
void add_flat_panel(PartList& list, const Light& light, const Emitter& emitter) {
    const build::Frame frame{emitter.centre_m, emitter.axes};
    const double w = 0.5 * emitter.width_m, h = 0.5 * emitter.height_m;
    const double depth = std::max(0.02, light.modifier.depth_m), rim = rim_m(light);
    const auto plate = [&](double x, double y, double z, const Vec3& half, double chamfer_m) {
        list.add("shell", materials::black_metal(),
                 build::chamfered_box(frame.moved(x, y, z), half, chamfer_m));
    };
    const double thick = 0.5 * (depth - backing_m);
    plate(0, 0, -backing_m - thick, {w + 0.006, h + 0.006, thick}, std::min(0.006, 0.4 * thick));
    const double bar = 0.007, tall = 0.5 * (backing_m + rim);
    for (const double side : {-1.0, 1.0}) {
        plate(side * (w + bar + 0.001), 0, rim - tall, {bar, h + 2.0 * bar, tall}, 0.001);
        plate(0, side * (h + bar + 0.001), rim - tall, {w, bar, tall}, 0.001);
    }
    const int ribs = std::max(2, static_cast<int>(w / 0.03));
    for (int rib = 0; rib < ribs; ++rib) {
        const double x = w * (2.0 * (rib + 0.5) / ribs - 1.0);
        plate(x, 0, -depth - 0.006, {0.0015, 0.8 * h, 0.007}, 0.0005);
    }
}

void add_socket(PartList& list, const Emitter& emitter, const HeadPlace& place) {
    const double bulb = 0.5 * emitter.width_m;
    const double ahead = glm::dot(emitter.centre_m - place.front.origin_m, place.front.z());
    const double end = std::max(0.006, ahead - bulb + 0.002);
    const double radius = std::min(0.8 * place.radius_m, bulb);
    list.add("shell", materials::white_paint(),
             build::lathe(place.front, {{0, 0}, {radius, 0}, {0.7 * radius, end}, {0, end}}, 20));
}

/// The skirt that holds a cloth ball: from the lamp's front over the ball's back.
void add_skirt(PartList& list, const Emitter& emitter, const HeadPlace& place) {
    const double ball = 0.5 * emitter.width_m;
    const double ahead = glm::dot(emitter.centre_m - place.front.origin_m, place.front.z());
    // Up to where the ball is as wide as twice the lamp, at most 30 degrees from its pole.
    const double reach = std::min(2.0 * place.radius_m, 0.5 * ball);
    const double along = ahead - std::sqrt(ball * ball - reach * reach);
    if (along <= 0.012) return add_socket(list, emitter, place);
    const double neck = 1.1 * place.radius_m;
    list.add("shell", materials::box_fabric(),
             build::lathe(place.front,
                          {{0, 0.001},
                           {neck, 0.001},
                           {neck, 0.010},
                           {reach + 0.004, along},
                           {reach - 0.002, along - 0.004},
                           {0, std::max(0.004, ahead - ball - 0.006)}},
                          32),
             30.0);
}

/// Wider discs are round boxes.
bool is_dish(const Modifier& modifier) {
    const bool shallow = modifier.depth_m < 0.45 * modifier.width_m;
    return modifier.width_m <= dish_up_to_m || modifier.deflector_width_m > 0.0 ||
           (modifier.width_m <= beauty_dish_up_to_m && shallow);
}

bool is_snoot(const Modifier& modifier, const HeadPlace& place) {
    return modifier.cutoff_half_deg < 90.0 && modifier.width_m < 2.0 * place.radius_m;
}

} // namespace

void add_shell(PartList& list, const Light& light, const Emitter& emitter, const HeadPlace& place) {
    const Modifier& modifier = light.modifier;
    add_doors(list, emitter);
    switch (modifier.shape) {
    case ModifierShape::bare:
        return add_socket(list, emitter, place);
    case ModifierShape::sphere:
        return add_skirt(list, emitter, place);
    case ModifierShape::ring:
        return add_ring(list, light, emitter, rim_m(light));
    case ModifierShape::umbrella:
        return add_umbrella(list, emitter, place);
    case ModifierShape::disc:
        if (is_snoot(modifier, place)) return add_snoot(list, light, emitter, place, rim_m(light));
        if (is_dish(modifier)) return add_dish(list, light, emitter, place, rim_m(light));
        return add_fabric_box(list, light, emitter, place);
    case ModifierShape::rectangle:
        if (modifier.depth_m <= flat_up_to_m) return add_flat_panel(list, light, emitter);
        return add_fabric_box(list, light, emitter, place);
    case ModifierShape::octagon:
        return add_fabric_box(list, light, emitter, place);
    }
}

} // namespace keystead::gear
