// Pieces of one light's gear. Each function adds closed solids to a part list; all of them follow
// the document's numbers and the posed points, nothing here decides where things are.
#pragma once

#include "sim/light/emitter.h"
#include "sim/set/set.h"
#include "sim/shape/build/frame.h"
#include "sim/shape/part_list.h"
#include "sim/support/pose.h"

#include <vector>

namespace keystead::gear {

/// One leg's centre line, from the column to just above its foot.
struct Leg {
    std::vector<Vec3> path_m;
    double radius_m = 0.01;
};
std::vector<Leg> legs_of(const Support& support, const SupportPose& pose);
/// Height of a leg's upper side at a horizontal distance from the column's axis.
double leg_top_m(const Leg& leg, const Vec3& axis_m, double distance_m);

/// Chrome for grip and wheeled stands, black for the light ones.
Material stand_material(SupportKind kind);

/// Legs with their hub, braces, feet or wheels. Part "legs".
void add_legs(PartList& list, const Support& support, const SupportPose& pose);

/// Telescoping tubes with collars and knobs up to `top_m`. Part "column".
void add_column(PartList& list, const Support& support, const SupportPose& pose, double top_m);

/// Rod or boom tube, at most `free_m` long before the pivot and linked to the yoke's socket at
/// `end_m`, and the grip head it turns in. Parts "arm", "clamp".
void add_arm(PartList& list, const Support& support, const SupportPose& pose, const Vec3& end_m,
             double free_m);

/// A small handle that tightens a joint: stem and crossbar, pointing along `outward`.
void add_tee_knob(PartList& list, const char* part, const Vec3& root_m, const Vec3& outward,
                  const Vec3& bar_direction, double size);

/// Part "counterweight".
void add_counterweight(PartList& list, const Support& support, const SupportPose& pose);
/// All bags. Part "bag".
void add_bags(PartList& list, const Support& support, const SupportPose& pose);

/// Where the lamp's body sits.
struct HeadPlace {
    build::Frame front; ///< centre of the front plate; z is the way the lamp faces
    double radius_m = 0.06;
    double length_m = 0.30;
    Vec3 pivot_m{0.0};             ///< on the lamp's axis, between the yoke's ends
    Vec3 across{1, 0, 0};          ///< unit, the yoke's hinge line
    Vec3 stem_m{0.0};              ///< middle of the yoke's crossbar: where the support ends
    Vec3 stem_direction{0, -1, 0}; ///< unit, from the crossbar into the support
    double socket_m = 0.058;       ///< length of the yoke's socket, from the crossbar
};
HeadPlace place_head(const Light& light, const SupportPose& pose, const Emitter& emitter);
/// Lamp body and yoke. Part "head".
void add_head(PartList& list, const HeadPlace& place);

/// Everything of the modifier but its emitting face. Part "shell".
void add_shell(PartList& list, const Light& light, const Emitter& emitter, const HeadPlace& place);
void add_umbrella(PartList& list, const Emitter& emitter, const HeadPlace& place);
/// Bowls and dishes, the latter with deflector or sock; tubes that cut the beam off; ring lights.
/// The rim stands `rim_m` before the face.
void add_dish(PartList& list, const Light& light, const Emitter& emitter, const HeadPlace& place,
              double rim_m);
void add_snoot(PartList& list, const Light& light, const Emitter& emitter, const HeadPlace& place,
               double rim_m);
void add_ring(PartList& list, const Light& light, const Emitter& emitter, double rim_m);
/// Barn doors, where the emitter has them. Part "doors".
void add_doors(PartList& list, const Emitter& emitter);

/// The emitting face itself, with the emitter's area.
Mesh face_mesh(const Emitter& emitter);

/// Mains lead from the lamp's back down to the floor and away. Part "cable".
void add_cable(PartList& list, const Support& support, const SupportPose& pose,
               const HeadPlace& place);

} // namespace keystead::gear
