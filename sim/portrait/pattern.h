// Which shadow pattern a light makes on a face: topology of lit and shadowed regions on a fixed
// chart of the face. Direct light of one lamp only; the camera plays no part.
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
    butterfly, loop, rembrandt, split, rim, underlight, toplight, flat, crossed, none
};
const char* name_of(Pattern pattern); ///< lower case, as in the report

/// Cylindrical chart of a face in the head frame: built once a form and hair, millimetres inside.
struct FaceChart;
std::shared_ptr<const FaceChart> make_face_chart(const SubjectForm& form, double cell_mm = 2.0);

/// The lit triangle of a Rembrandt pattern.
struct LitPatch {
    double area_mm2 = 0.0, width_mm = 0.0, height_mm = 0.0;
    double peak = 0.0;            ///< of a plate facing the lamp
    double ring_stops = 0.0;      ///< how far its surrounding ring lies below it
};

struct PatternReading {
    Pattern pattern = Pattern::none;
    std::string note;              ///< one sentence: what decided, and how close
    Angles face_angles;            ///< direction to the lamp in the head frame
    double near_lit = 0.0, far_lit = 0.0, front_lit = 0.0, side_lit = 0.0; ///< area fractions
    double far_faint = 0.0;        ///< far-half area above 10 %
    double lost_light_mm2 = 0.0;   ///< full key the nose takes away
    double tip_shift_mm = 0.0;     ///< nose shadow's sideways shift below the nose, + subject's left
    double ring_stops = 0.0;       ///< joined at 2 or more
    double chin_dark = 0.0, forehead_lit = 0.0;
    double eye_visible[2] = {0.0, 0.0}; ///< left, right: fraction of the emitter each pupil sees
    bool lip_touched = false;
    bool patch_wide = false;
    std::optional<LitPatch> patch;
};

/// Reads the pattern of `emitter` on the face posed by `head_axes`, `head_origin_m`.
/// Small emitters are widened to a 0.1 m disc (a mathematical point flickers).
PatternReading read_pattern(const FaceChart& chart, const Emitter& emitter, const Mat3& head_axes,
                            const Vec3& head_origin_m);

/// The name when several lights are on: crossed when two like lights throw shadows to both sides.
/// `strength` are relative exposures at the face; `key` indexes the named light.
struct CombinedPattern {
    Pattern pattern = Pattern::none;
    int key = -1;
    int other = -1;                ///< the second light of a crossed pair
    std::string note;
};
CombinedPattern read_combined_pattern(const FaceChart& chart, const std::vector<Emitter>& emitters,
                                      const Mat3& head_axes, const Vec3& head_origin_m);

/// How far the head may turn before the name changes, degrees, and the names beyond.
struct PatternHold {
    double turn_min_deg = 0.0, turn_max_deg = 0.0;
    Pattern below = Pattern::none, above = Pattern::none;
};
PatternHold pattern_hold(const FaceChart& chart, const Emitter& emitter, double head_turn_deg,
                         double head_nod_deg, double head_roll_deg, const Vec3& head_origin_m,
                         double limit_deg = 24.0);

enum class Side { short_side, broad_side, front };
const char* name_of(Side side); ///< "short", "broad", "front"

/// Short or broad from where the lamp and the camera stand about the nose (both needed).
Side lit_side(const Vec3& to_light, const Vec3& to_camera, const Mat3& head_axes);

} // namespace keystead
