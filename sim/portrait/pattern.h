// Which shadow pattern a light makes on a face: topology of lit and shadowed regions on a fixed
// chart of the face. Direct light of one lamp only; the camera plays no part.
//
// What the names mean is the trade's; where one ends and the next begins is measured on the face
// and judged by the named limits of thresholds.h. Names are least sure above 65 degrees of
// elevation off the midline, and loop against Rembrandt with a large lamp has an honest border some
// ten degrees wide: the notes give the numbers. Judged on generated heads only.
#pragma once

#include "sim/light/emitter.h"
#include "sim/subject/subject.h"
#include "sim/transport/ray_scene.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace keystead {

enum class Pattern {
    butterfly,
    loop,
    rembrandt,
    split,
    rim,
    underlight,
    toplight,
    flat,
    crossed,
    none
};
const char* name_of(Pattern pattern); ///< lower case, as in the report

/// Cylindrical chart of a face in the head frame: built once a form and hair, millimetres inside.
/// Safe to read from several threads. The torso does not turn with the chart's head.
struct FaceChart;
std::shared_ptr<const FaceChart> make_face_chart(const SubjectForm& form, double cell_mm = 2.0);

/// The lit triangle of a Rembrandt pattern.
struct LitPatch {
    double area_mm2 = 0.0, width_mm = 0.0, height_mm = 0.0;
    double peak = 0.0;       ///< of a plate facing the lamp
    double ring_stops = 0.0; ///< how far its surrounding ring lies below it
};

struct PatternReading {
    Pattern pattern = Pattern::none;
    std::string note;   ///< one sentence: what decided, and how close
    Angles face_angles; ///< direction to the lamp in the head frame
    double near_lit = 0.0, far_lit = 0.0, front_lit = 0.0, side_lit = 0.0; ///< area fractions
    double far_faint = 0.0;      ///< far-half area above 10 %
    double lost_light_mm2 = 0.0; ///< full key the nose takes away
    double tip_shift_mm = 0.0;   ///< nose shadow's sideways shift below the nose, + subject's left
    double ring_stops = 0.0;     ///< far enough under: joined
    double chin_dark = 0.0, forehead_lit = 0.0;
    double eye_visible[2] = {0.0, 0.0}; ///< left, right: fraction of the emitter each pupil sees
    bool lip_touched = false;
    bool patch_wide = false;
    std::optional<LitPatch> patch;
    double shadow_height_mm = 0.0; ///< centroid of the nose's shadow above the pupils
    double nose_core = 0.0;        ///< share of the lamp hidden where the nose's shadow is deepest
    double hair_lost_mm2 = 0.0;    ///< full key that hair keeps off the front of the face
    double eye_by_brow[2] = {0.0, 0.0}; ///< left, right: fraction that brow and lids hide
    double eye_by_nose[2] = {0.0, 0.0}; ///< what is neither seen nor hidden lies behind the eye
    double eye_by_hair[2] = {0.0, 0.0};
    Vec2 tip_fall_mm{
        0.0}; ///< shadow of the nose tip on a flat face: aside (+ away from the lamp), down
    bool near_border = false; ///< butterfly, loop, Rembrandt: close to one another
};

/// Reads the pattern of `emitter` on the face posed by `head_axes`, `head_origin_m`. The direction
/// is taken from the nose root (Landmarks::face) to the emitter's centre.
/// Small emitters are widened to a 0.1 m disc (a mathematical point flickers).
PatternReading read_pattern(const FaceChart& chart, const Emitter& emitter, const Mat3& head_axes,
                            const Vec3& head_origin_m);

/// The name when several lights are on: crossed when two like lights throw shadows to both sides.
/// `key` indexes the light that the pattern is named after: the one whose nose shadow shows most,
/// else the one that gives the front of the face most.
struct CombinedPattern {
    Pattern pattern = Pattern::none;
    int key = -1;
    int other = -1; ///< the second light of a crossed pair
    std::string note;
    std::vector<PatternReading> alone; ///< by light, each on its own
};
/// Strengths are the exposures at the face at the emitters' present power; continuous light counts
/// for `shutter_s`. Fill and bounce enter here only, never a light's own reading.
CombinedPattern read_combined_pattern(const FaceChart& chart, const std::vector<Emitter>& emitters,
                                      const Mat3& head_axes, const Vec3& head_origin_m,
                                      double shutter_s = 1.0 / 125.0);

/// The same in two steps, for callers that keep what a change of power leaves alone: what one light
/// does to the face at any power, then all of them at their present powers. `faces` belong to
/// `emitters` one by one, read from the same chart and pose.
struct LightOnFace;
std::shared_ptr<const LightOnFace> read_light_on_face(const FaceChart& chart,
                                                      const Emitter& emitter, const Mat3& head_axes,
                                                      const Vec3& head_origin_m);
CombinedPattern combine_lights(const FaceChart& chart, const std::vector<Emitter>& emitters,
                               const std::vector<std::shared_ptr<const LightOnFace>>& faces,
                               double shutter_s = 1.0 / 125.0);

/// How far the head may turn before the name changes, degrees from where it is (min <= 0 <= max),
/// and the names beyond. Where the limit came first, the name beyond is the pattern itself.
struct PatternHold {
    double turn_min_deg = 0.0, turn_max_deg = 0.0;
    Pattern below = Pattern::none, above = Pattern::none;
};
/// Walks in steps of 3 degrees (a sliver of another name narrower than that can be missed), then
/// halves down to 0.4. The head turns where it is: its origin stays.
PatternHold pattern_hold(const FaceChart& chart, const Emitter& emitter, double head_turn_deg,
                         double head_nod_deg, double head_roll_deg, const Vec3& head_origin_m,
                         double limit_deg = 24.0);

/// The same of anything that can be changed alone: how much less and how much more of it keeps the
/// name, and the names beyond.
struct HoldRange {
    double least = 0.0, most = 0.0;
    Pattern below = Pattern::none, above = Pattern::none;
};
struct PatternHolds {
    HoldRange turn_deg;        ///< of the head, from where it is; + nose toward camera right
    HoldRange nod_deg;         ///< of the head, from where it is; + chin up
    HoldRange key_azimuth_deg; ///< of the key round the face, from where it is; + to sitter's left
    HoldRange key_height_deg;  ///< of the key's elevation over the face, from where it is
    HoldRange key_distance_m; ///< from the nose root, as it would be: half to twice as far is tried
};
/// Walks as pattern_hold does, distance in steps of a fifth. A key that moves keeps its turn to the
/// face.
PatternHolds pattern_holds(const FaceChart& chart, const Emitter& emitter, double head_turn_deg,
                           double head_nod_deg, double head_roll_deg, const Vec3& head_origin_m,
                           double limit_deg = 24.0);

enum class Side { short_side, broad_side, front };
const char* name_of(Side side); ///< "short", "broad", "front"

/// Short where the lamp stands on the side of the face that is turned away from the camera, broad
/// where it stands on the side turned toward it: sign of the lamp's side of the nose against the
/// camera's. Front where no side is meant: the camera within `front_camera_deg` of the nose's
/// azimuth, or the lamp within `front_lamp_deg` of the plane through nose and crown.
/// Vectors from the face, room frame, any length.
Side lit_side(const Vec3& to_light, const Vec3& to_camera, const Mat3& head_axes);
inline constexpr double front_camera_deg = 5.0;
inline constexpr double front_lamp_deg = 8.0;

/// A room direction as the face sees it: azimuth from the nose, + toward the subject's left.
Angles face_angles(const Vec3& direction, const Mat3& head_axes);

/// Where the tip of a nose that stands `protrusion_mm` proud of a flat face throws its shadow, lamp
/// in front and far: p tan(azimuth) to the side away from the lamp, p tan(elevation)/cos(azimuth)
/// down. Millimetres {aside, down}; aside is positive for a lamp at positive azimuth.
Vec2 tip_shadow_mm(double protrusion_mm, Angles face_relative);

} // namespace keystead
