// The set: the one document. Plain values, every field with its unit; nothing here is computed.
//
// JSON keys are the member names. Each gear struct is complete in itself: `from` names the
// catalogue entry its values came from (for labels and "back to the catalogue's value"), but a
// saved set carries its own numbers and does not change when the catalogue does.
#pragma once

#include "sim/base/vec.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace keystead {

inline constexpr int set_version = 1;

/// Fields of a file that this version does not know, kept for re-saving: name and JSON text.
using Extras = std::vector<std::pair<std::string, std::string>>;

/// Diffuse reflectance, linear sRGB primaries, 0..1. JSON: one number (grey) or three.
struct Reflectance {
    Vec3 rgb{0.18};
    /// Luminous reflectance (Rec. 709 weights).
    double luminous() const { return 0.2126 * rgb.r + 0.7152 * rgb.g + 0.0722 * rgb.b; }
};

struct Room {
    double width_m = 5.0;
    double depth_m = 6.0;
    double ceiling_m = 2.8;
    double left_of_subject_m = 2.5; ///< subject to the camera-left wall
    double behind_subject_m = 2.4;  ///< subject to the back wall
    Reflectance walls{Vec3(0.56, 0.545, 0.52)};
    Reflectance ceiling{Vec3(0.70)};
    Reflectance floor{Vec3(0.23, 0.225, 0.215)};
    Extras extras;
};

enum class BackgroundKind { none, paper, cloth };

/// Seamless paper or a hanging cloth, parallel to the camera's axis-facing wall.
struct Background {
    BackgroundKind kind = BackgroundKind::paper;
    double width_m = 2.72;
    double height_m = 2.5;
    double distance_m = 1.8; ///< behind the subject
    double offset_m = 0.0;   ///< centre, toward camera right
    double sweep_m = 1.5;    ///< how far it runs forward on the floor (0: hangs only)
    Reflectance reflectance{Vec3(0.36, 0.335, 0.305)};
    Extras extras;
};

enum class Posture { standing, seated };
enum class HairStyle { none, cropped, bob, tied };

/// Body measures, millimetres. Unset values come from `preset` scaled to the stature where a body
/// length scales with it. Definitions: ISO 7250-1; means in tests/data/anthropometry.
struct Proportions {
    std::string preset = "mean-male"; ///< mean-male, mean-female
    std::optional<double> head_length_mm, head_breadth_mm, bizygomatic_mm, bigonial_mm,
        menton_sellion_mm, nose_protrusion_mm, nose_breadth_mm, interpupillary_mm, neck_girth_mm,
        biacromial_mm, bideltoid_mm;
    double brow_depth_mm = 0.0; ///< added to the preset's brow ridge, -4..+4
    double eye_depth_mm = 0.0;  ///< added to the preset's socket depth, -4..+4
    Extras extras;
};

struct Subject {
    Posture posture = Posture::standing;
    double stature_m = 1.70;
    double seat_height_m = 0.50;
    double body_turn_deg = 0.0; ///< shoulders, from facing the camera axis; + toward camera right
    double head_turn_deg = 0.0; ///< nose, from the camera axis (not from the body); + camera right
    double head_nod_deg = 0.0;  ///< + chin up
    double head_roll_deg = 0.0; ///< + top of head toward camera right
    Proportions proportions;
    Reflectance skin{Vec3(0.50, 0.335, 0.26)};
    Reflectance hair{Vec3(0.055, 0.034, 0.022)};
    Reflectance clothing{Vec3(0.085, 0.095, 0.115)};
    HairStyle hair_style = HairStyle::cropped;
    Extras extras;
};

enum class Orientation { landscape, upright };

struct Camera {
    Vec3 position_m{0.0, 1.5, 2.5}; ///< entrance pupil
    Vec3 aim_m{0.0, 1.45, 0.0};
    double focal_length_mm = 85.0;
    double sensor_width_mm = 36.0;  ///< long side
    double sensor_height_mm = 24.0; ///< short side
    Orientation orientation = Orientation::landscape;
    double f_number = 8.0; ///< nominal; computed with the exact power of sqrt 2 (or third)
    double shutter_s = 1.0 / 125.0;
    double iso = 100.0;
    Extras extras;
};

enum class HeadKind { flash, continuous };

/// One meter reading that fixes a light's output: this head with its modifier, on its axis.
struct CalibrationReading {
    double f_number = 8.0;   ///< exact value, flat receptor facing the light
    double distance_m = 1.0; ///< from the modifier's front
    double iso = 100.0;
    double stops_below_full = 0.0; ///< power at which it was read
    double shutter_s = 1.0;        ///< continuous light only
    Extras extras;
};

struct Head {
    std::string from;
    HeadKind kind = HeadKind::flash;
    double energy_ws = 400.0;        ///< stored energy (flash)
    double lumens = 8000.0;          ///< luminous flux of the bare lamp (continuous)
    double efficacy_lm_per_w = 38.0; ///< lm·s per W·s of stored energy (flash)
    double power_stops_below = 0.0;  ///< 0 = full
    double range_stops = 7.0;        ///< how far below full this head can go
    double mass_kg = 2.6;
    double length_m = 0.30;
    double diameter_m = 0.13;
    double colour_k = 5600.0;
    double modelling_w = 150.0;
    std::optional<CalibrationReading> calibration;
    Extras extras;
};

enum class ModifierShape { bare, disc, ring, rectangle, octagon, umbrella };
enum class GridCell { round, square };

/// Black-walled cells in front of the emitting face.
struct Grid {
    std::string from;
    GridCell cell = GridCell::round;
    double cell_width_m = 0.006;
    double cell_depth_m = 0.012;
    double open_fraction = 0.92; ///< open area
    double mass_kg = 0.2;
    Extras extras;
};

struct Gel {
    double mired_shift = 0.0;
    double transmission = 1.0; ///< luminous
    Extras extras;
};

struct Modifier {
    std::string from;
    ModifierShape shape = ModifierShape::octagon;
    double width_m = 0.90;      ///< emitting face, horizontal (diameter; octagon: across flats)
    double height_m = 0.90;     ///< emitting face, vertical
    double inner_width_m = 0.0; ///< ring: inner diameter
    double depth_m = 0.45;      ///< speed ring to emitting face (umbrella: sagitta of the cap)
    double lip_m = 0.0;         ///< how far the face is recessed behind the rim
    double mass_kg = 1.4;
    double com_ahead_m = 0.25;  ///< centre of mass ahead of the tilt bracket
    double transmission = 0.45; ///< fraction of the lamp's light that leaves the face
    double hot_spot = 0.15; ///< exitance 1 + hot_spot·(1/2 - r²)·2, r = 0 centre, 1 rim; mean 1
    double turn_deg = 0.0;  ///< about the beam axis, lays a strip on its side
    std::optional<Grid> grid;
    std::optional<Gel> gel;
    Extras extras;
};

enum class SupportKind { low, standard, century, roller, boom };

/// Legs or wheels on the floor. Leg 0 points along `turn_deg`; the others follow evenly.
struct Base {
    Vec2 position_m{0.0};  ///< x, z of the column's axis on the floor
    double turn_deg = 0.0; ///< azimuth of leg 0
    int legs = 3;
    double foot_radius_m = 0.50; ///< column axis to foot contact (wheels: to the caster pivot)
    bool wheels = false;
    double caster_offset_m = 0.0; ///< pivot to wheel contact; the worst swing is taken
    bool locked = true;
    double mass_kg = 4.0;
    double com_height_m = 0.15;
    double hub_height_m = 0.30; ///< where the legs meet the column; bags hang below it
    Extras extras;
};

struct Column {
    double height_m = 2.0; ///< floor to the mounting point on top
    double min_height_m = 1.0;
    double max_height_m = 3.0;
    double mass_kg = 2.0; ///< spread evenly from the hub to the top
    double tube_diameter_m = 0.035;
    int sections = 3;
    Extras extras;
};

struct Counterweight {
    std::string from;
    double mass_kg = 0.0;
    double place_m = 0.8; ///< behind the pivot, along the tail
    Extras extras;
};

/// A rod clamped on top of the column. `turn_deg` is measured from leg 0: 0 = over the first leg.
struct Arm {
    std::string from;
    double reach_m = 0.8; ///< pivot to the light's bracket
    double min_reach_m = 0.3;
    double max_reach_m = 1.0;
    double rise_deg = 0.0; ///< above the horizontal
    double min_rise_deg = -60.0;
    double max_rise_deg = 75.0;
    double turn_deg = 0.0;
    double length_m = 1.0; ///< whole rod; what is not reach is tail
    double mass_kg = 1.3;
    double clamp_mass_kg = 0.75; ///< grip head or pivot, at the pivot
    double load_limit_kg = 4.0;  ///< at the tip
    double grip_limit_nm = 25.0; ///< friction torque of the clamp
    bool knob_on_right = true;   ///< seen from behind the tail, looking along the arm
    std::optional<Counterweight> counterweight;
    Extras extras;
    double tail_m() const { return length_m > reach_m ? length_m - reach_m : 0.0; }
};

enum class BagPlace { leg, column, tail };

struct Bag {
    std::string from;
    double mass_kg = 6.8;
    BagPlace place = BagPlace::leg;
    int leg = 0;
    double at_m = 0.30;  ///< leg: from the column's axis; tail: behind the pivot
    bool hanging = true; ///< a bag resting on the floor counts as nothing
    Extras extras;
};

struct Support {
    std::string from;
    SupportKind kind = SupportKind::standard;
    Base base;
    Column column;
    std::optional<Arm> arm;
    std::vector<Bag> bags;
    double load_limit_kg = 8.0;   ///< maker's rating on top of the column
    bool measured_masses = false; ///< false: the verdict takes masses at the bad end of ±10 %
    Extras extras;
};

enum class AimKind { landmark, point, angles };

struct Aim {
    AimKind kind = AimKind::landmark;
    std::string landmark = "face"; ///< face, nose, chin, hair_top, chest, left_cheek, right_cheek
    Vec3 point_m{0.0, 1.5, 0.0};
    double azimuth_deg = 0.0; ///< direction the beam travels
    double elevation_deg = 0.0;
    double feather_deg = 0.0; ///< then turned about the vertical, + toward camera right
    Extras extras;
};

struct Light {
    std::string id;
    std::string role;
    bool on = true;
    Head head;
    Modifier modifier;
    Support support;
    Aim aim;
    Extras extras;
};

enum class PanelKind { reflector, flag, v_flat, scrim };

/// A flat surface, or two hinged ones (v_flat), standing on the floor.
struct Panel {
    std::string id;
    PanelKind kind = PanelKind::v_flat;
    double width_m = 1.2; ///< of each leaf
    double height_m = 2.4;
    Vec3 position_m{1.2, 0.0, 0.0}; ///< bottom of the hinge, or of the middle
    double turn_deg = -90.0;        ///< azimuth the working side faces
    double fold_deg = 60.0;         ///< v_flat: how far each leaf folds back, 0 = flat
    double tilt_deg = 0.0;          ///< + leans the working side upward
    Reflectance reflectance{Vec3(0.035)};
    Extras extras;
};

/// Receptor constants, ISO 2720 practice; contested, hence settings.
struct MeterSettings {
    double flat_c_lx_s = 250.0;
    double dome_c_lx_s = 330.0;
    double reflected_k = 12.5;
    Extras extras;
};

/// Named thresholds of the stability verdict, shown beside it.
struct StabilityLimits {
    double unstable_tilt_deg = 6.0;
    double caution_tilt_deg = 10.0;
    double caution_push_n = 20.0;
    double caution_load_fraction = 0.8;
    double caution_grip_fraction = 0.7;
    double mass_uncertainty = 0.10;
    Extras extras;
};

struct Set {
    std::string name;
    std::string notes;
    Room room;
    Background background;
    Subject subject;
    Camera camera;
    std::vector<Light> lights;
    std::vector<Panel> panels;
    MeterSettings meter;
    StabilityLimits limits;
    Extras extras;
};

} // namespace keystead
