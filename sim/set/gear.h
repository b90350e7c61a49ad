// The document's lights and panels: head, modifier, support, aim. Each gear struct is complete in
// itself (see set.h on `from`).
#pragma once

#include "sim/set/values.h"

namespace keystead {

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
    /// What fixes a flash's output instead of energy and efficacy: a reading before a beam
    /// intensity before a guide number. All with the modifier as fitted, full power.
    std::optional<CalibrationReading> calibration;
    std::optional<double> beam_cd_s;
    std::optional<double> guide_number_m; ///< at ISO 100
    double flash_t05_s = 1.0 / 900.0;     ///< at full power, width at half the peak
    Extras extras;
};

/// `sphere` is a diffusing ball about the lamp; `bare` the lamp itself.
enum class ModifierShape { bare, disc, ring, rectangle, octagon, umbrella, sphere };
/// Reflecting: the lamp looks away from the subject into the canopy, whose back is opaque. Shoot
/// through: the lamp looks at the subject through white cloth.
enum class UmbrellaKind { reflective, shoot_through };
enum class GridCell { round, square };
/// What a grid's printed degrees mean; `cells`: width and depth are given instead.
enum class GridReading { cells, full_cutoff, half_intensity };

/// Black-walled cells in front of the emitting face.
struct Grid {
    std::string from;
    GridCell cell = GridCell::round;
    double cell_width_m = 0.006;
    double cell_depth_m = 0.012;
    double open_fraction = 0.92;   ///< open area
    double wall_reflection = 0.02; ///< share of the light on the walls that still gets out
    GridReading reading = GridReading::cells;
    double nominal_deg = 40.0; ///< the whole angle, where `reading` is not `cells`
    double mass_kg = 0.2;
    Extras extras;
};

struct Gel {
    double mired_shift = 0.0;
    double transmission = 1.0; ///< luminous
    /// Free colour: what passes of each linear sRGB primary, scaled to `transmission`.
    std::optional<Reflectance> colour;
    Extras extras;
};

/// Four flaps at the edge of a reflector; angles between flap and beam: 90 = wide open, 0 =
/// straight ahead, below that leaning into the beam. Left and right as the subject sees them.
struct BarnDoors {
    double top_deg = 90.0, bottom_deg = 90.0, left_deg = 90.0, right_deg = 90.0;
    double length_m = 0.15;
    Extras extras;
};

/// A measured distribution (IES LM-63 or EULUMDAT) in place of the computed one.
struct PhotometricFile {
    std::string path;             ///< relative to the set's folder, or absolute
    double turn_deg = 0.0;        ///< about the beam
    std::optional<double> lumens; ///< instead of the file's own flux
    Extras extras;
};

struct Modifier {
    std::string from;
    ModifierShape shape = ModifierShape::octagon;
    double width_m = 0.90;      ///< emitting face, horizontal (diameter; octagon: across flats)
    double height_m = 0.90;     ///< emitting face, vertical
    double inner_width_m = 0.0; ///< ring: inner diameter
    UmbrellaKind umbrella = UmbrellaKind::reflective;
    double depth_m = 0.45; ///< speed ring to emitting face (umbrella: sagitta of the cap)
    double lip_m = 0.0;    ///< how far the face is recessed behind the rim
    double mass_kg = 1.4;
    double com_ahead_m = 0.25;  ///< centre of mass ahead of the tilt bracket
    double transmission = 0.45; ///< fraction of the lamp's light that leaves the face
    double hot_spot = 0.15; ///< exitance 1 + hot_spot·(1/2 - r²)·2, r = 0 centre, 1 rim; mean 1
    double turn_deg = 0.0;  ///< about the beam axis, lays a strip on its side
    /// Cloth between lamp and subject. `hot_spot` is what one layer leaves of it, each further one
    /// halves it. 0 on a dish: no sock, so that its deflector shows.
    int diffusion_layers = 1;
    /// Radiance off the axis goes with cos^(beam_exponent - 1): 1 is a matt diffuser, more a
    /// reflector that gathers. What leaves the face is the same.
    double beam_exponent = 1.0;
    /// Snoot or optical spot: nothing leaves further from the axis than this; 90 = no cut-off.
    double cutoff_half_deg = 90.0;
    double cutoff_edge_deg = 2.0; ///< over how many degrees the edge falls from full to none
    /// Dish: opaque disc before the middle. What it turns back leaves the dish around it.
    double deflector_width_m = 0.0;
    std::optional<BarnDoors> barn_doors;
    std::optional<PhotometricFile> photometric;
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

enum class PanelKind { reflector, flag, v_flat, scrim, cutter };
enum class PanelFinish { matte, silver };

/// A flat surface, or two hinged ones (v_flat), standing on the floor or hung on a support.
struct Panel {
    std::string id;
    PanelKind kind = PanelKind::v_flat;
    double width_m = 1.2; ///< of each leaf
    double height_m = 2.4;
    Vec3 position_m{1.2, 0.0, 0.0}; ///< bottom of the hinge, or of the middle
    double turn_deg = -90.0;        ///< azimuth the working side faces
    double roll_deg = 0.0;          ///< about the working side's normal
    double fold_deg = 60.0;         ///< v_flat: how far each leaf folds back, 0 = flat
    double tilt_deg = 0.0;          ///< + leans the working side upward
    Reflectance reflectance{Vec3(0.035)};
    PanelFinish finish = PanelFinish::matte;
    double transmission = 0.0; ///< scrim: share of the light that goes through, diffused
    double mass_kg = 1.5;
    /// Where it is given, the panel's middle hangs at the support's tip and `position_m` is unused.
    std::optional<Support> support;
    Extras extras;
};

} // namespace keystead
