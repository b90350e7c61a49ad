// Fields of lights and panels.
#pragma once

#include "sim/set/field_list.h"

namespace keystead {

template <>
struct FieldList<CalibrationReading> {
    static constexpr const char* name = "calibration";
    static void list(auto& a, auto& r) {
        a.field("f_number", r.f_number, between(0.5, 256), "exact, flat receptor, on the axis");
        a.field("distance_m", r.distance_m, between(0.1, 30), "from the modifier's front");
        a.field("iso", r.iso, between(3, 409600), "");
        a.field("stops_below_full", r.stops_below_full, between(0, 12), "power it was read at");
        a.field("shutter_s", r.shutter_s, between(1e-5, 60), "continuous light only");
        a.extras(r.extras);
    }
};

template <>
struct FieldList<Head> {
    static constexpr const char* name = "head";
    static void list(auto& a, auto& h) {
        a.field("from", h.from, at_most(64), "catalogue entry its values came from");
        a.field("kind", h.kind, {}, "");
        a.field("energy_ws", h.energy_ws, between(1, 10000), "stored energy of a flash");
        a.field("lumens", h.lumens, between(1, 1e6), "flux of a continuous lamp");
        a.field("efficacy_lm_per_w", h.efficacy_lm_per_w, between(1, 100),
                "lm·s of flash for each W·s stored");
        a.field("power_stops_below", h.power_stops_below, between(0, 12), "below full");
        a.field("range_stops", h.range_stops, between(0, 12), "how far below full it can go");
        a.field("mass_kg", h.mass_kg, between(0.02, 40), "");
        a.field("length_m", h.length_m, between(0.02, 1.5), "");
        a.field("diameter_m", h.diameter_m, between(0.02, 1), "");
        a.field("colour_k", h.colour_k, between(1500, 20000), "colour temperature");
        a.field("modelling_w", h.modelling_w, between(0, 2000), "modelling lamp, or lamp power");
        a.field("calibration", h.calibration, {}, "one meter reading that fixes the output");
        a.field("beam_cd_s", h.beam_cd_s, between(1, 1e7),
                "axial intensity, as fitted, full power");
        a.field("guide_number_m", h.guide_number_m, between(0.1, 1000), "ISO 100, as fitted, full");
        a.field("flash_t05_s", h.flash_t05_s, between(1e-6, 0.1), "half-peak width at full power");
        a.extras(h.extras);
    }
};

template <>
struct FieldList<Grid> {
    static constexpr const char* name = "grid";
    static void list(auto& a, auto& g) {
        a.field("from", g.from, at_most(64), "catalogue entry its values came from");
        a.field("cell", g.cell, {}, "");
        a.field("cell_width_m", g.cell_width_m, between(0.001, 0.3), "");
        a.field("cell_depth_m", g.cell_depth_m, between(0.001, 0.5), "");
        a.field("open_fraction", g.open_fraction, between(0.1, 1), "open area");
        a.field("wall_reflection", g.wall_reflection, between(0, 0.2), "of the cells' walls");
        a.field("reading", g.reading, {}, "what a printed angle means");
        a.field("nominal_deg", g.nominal_deg, between(1, 170), "printed whole angle");
        a.field("mass_kg", g.mass_kg, between(0, 5), "");
        a.extras(g.extras);
    }
};

template <>
struct FieldList<Gel> {
    static constexpr const char* name = "gel";
    static void list(auto& a, auto& g) {
        a.field("mired_shift", g.mired_shift, between(-400, 500), "+ warms");
        a.field("transmission", g.transmission, between(0.001, 1), "luminous");
        a.field("colour", g.colour, {}, "what passes of each primary");
        a.extras(g.extras);
    }
};

template <>
struct FieldList<BarnDoors> {
    static constexpr const char* name = "barn_doors";
    static void list(auto& a, auto& v) {
        a.field("top_deg", v.top_deg, between(-80, 180), "flap to beam, 90 = wide open");
        a.field("bottom_deg", v.bottom_deg, between(-80, 180), "");
        a.field("left_deg", v.left_deg, between(-80, 180), "");
        a.field("right_deg", v.right_deg, between(-80, 180), "");
        a.field("length_m", v.length_m, between(0.02, 0.6), "");
        a.extras(v.extras);
    }
};

template <>
struct FieldList<PhotometricFile> {
    static constexpr const char* name = "photometric";
    static void list(auto& a, auto& v) {
        a.field("path", v.path, at_most(1024), "IES LM-63 or EULUMDAT, relative to the set");
        a.field("turn_deg", v.turn_deg, between(-360, 360), "about the beam");
        a.field("lumens", v.lumens, between(0.1, 1e7), "instead of the file's own flux");
        a.extras(v.extras);
    }
};

template <>
struct FieldList<Modifier> {
    static constexpr const char* name = "modifier";
    static void list(auto& a, auto& m) {
        a.field("from", m.from, at_most(64), "catalogue entry its values came from");
        a.field("shape", m.shape, {}, "of the emitting face");
        a.field("width_m", m.width_m, between(0.01, 4), "across; an octagon's across its flats");
        a.field("height_m", m.height_m, between(0.01, 4), "");
        a.field("inner_width_m", m.inner_width_m, between(0, 4), "inner diameter of a ring");
        a.field("umbrella", m.umbrella, {}, "which way its lamp looks");
        a.field("depth_m", m.depth_m, between(0, 2), "speed ring to face; umbrella: of the cap");
        a.field("lip_m", m.lip_m, between(0, 0.5), "face recessed behind the rim");
        a.field("mass_kg", m.mass_kg, between(0, 20), "");
        a.field("com_ahead_m", m.com_ahead_m, between(-0.5, 2),
                "centre of mass ahead of the tilt bracket");
        a.field("transmission", m.transmission, between(0.001, 1),
                "fraction of the lamp's light that leaves the face");
        a.field("hot_spot", m.hot_spot, between(-1, 1),
                "centre over rim; negative: darker in the middle");
        a.field("turn_deg", m.turn_deg, between(-180, 180), "about the beam");
        a.field("diffusion_layers", m.diffusion_layers, between(0, 4), "each more halves hot_spot");
        a.field("beam_exponent", m.beam_exponent, between(0.2, 400), "1 diffuser, more gathers");
        a.field("cutoff_half_deg", m.cutoff_half_deg, between(1, 90), "90: no cut-off");
        a.field("cutoff_edge_deg", m.cutoff_edge_deg, between(0.05, 40), "how soft its edge is");
        a.field("deflector_width_m", m.deflector_width_m, between(0, 2), "disc before the middle");
        a.field("barn_doors", m.barn_doors, {}, "");
        a.field("photometric", m.photometric, {}, "measured distribution");
        a.field("grid", m.grid, {}, "");
        a.field("gel", m.gel, {}, "");
        a.extras(m.extras);
    }
};

template <>
struct FieldList<Base> {
    static constexpr const char* name = "base";
    static void list(auto& a, auto& b) {
        a.field("position_m", b.position_m, between(-60, 60), "x, z of the column on the floor");
        a.field("turn_deg", b.turn_deg, between(-360, 360), "azimuth of leg 0");
        a.field("legs", b.legs, between(3, 8), "");
        a.field("foot_radius_m", b.foot_radius_m, between(0.05, 2.5), "column to foot");
        a.field("wheels", b.wheels, {}, "");
        a.field("caster_offset_m", b.caster_offset_m, between(0, 0.2), "pivot to wheel contact");
        a.field("locked", b.locked, {}, "");
        a.field("mass_kg", b.mass_kg, between(0.05, 200), "");
        a.field("com_height_m", b.com_height_m, between(0, 2), "");
        a.field("hub_height_m", b.hub_height_m, between(0, 3), "where legs meet the column");
        a.extras(b.extras);
    }
};

template <>
struct FieldList<Column> {
    static constexpr const char* name = "column";
    static void list(auto& a, auto& c) {
        a.field("height_m", c.height_m, between(0.02, 12), "floor to the mounting point");
        a.field("min_height_m", c.min_height_m, between(0.02, 12), "");
        a.field("max_height_m", c.max_height_m, between(0.02, 12), "");
        a.field("mass_kg", c.mass_kg, between(0, 200), "");
        a.field("tube_diameter_m", c.tube_diameter_m, between(0.005, 0.3), "lowest tube");
        a.field("sections", c.sections, between(1, 8), "");
        a.extras(c.extras);
    }
};

template <>
struct FieldList<Counterweight> {
    static constexpr const char* name = "counterweight";
    static void list(auto& a, auto& w) {
        a.field("from", w.from, at_most(64), "catalogue entry its values came from");
        a.field("mass_kg", w.mass_kg, between(0, 100), "");
        a.field("place_m", w.place_m, between(0, 5), "behind the pivot");
        a.extras(w.extras);
    }
};

template <>
struct FieldList<Arm> {
    static constexpr const char* name = "arm";
    static void list(auto& a, auto& arm) {
        a.field("from", arm.from, at_most(64), "catalogue entry its values came from");
        a.field("reach_m", arm.reach_m, between(0.02, 12), "pivot to the light's bracket");
        a.field("min_reach_m", arm.min_reach_m, between(0, 12), "");
        a.field("max_reach_m", arm.max_reach_m, between(0.02, 12), "");
        a.field("rise_deg", arm.rise_deg, between(-90, 90), "above the horizontal");
        a.field("min_rise_deg", arm.min_rise_deg, between(-90, 90), "");
        a.field("max_rise_deg", arm.max_rise_deg, between(-90, 90), "");
        a.field("turn_deg", arm.turn_deg, between(-360, 360), "from leg 0");
        a.field("length_m", arm.length_m, between(0.02, 12), "whole rod");
        a.field("mass_kg", arm.mass_kg, between(0, 60), "");
        a.field("clamp_mass_kg", arm.clamp_mass_kg, between(0, 30), "at the pivot");
        a.field("load_limit_kg", arm.load_limit_kg, between(0.1, 200), "at the tip");
        a.field("grip_limit_nm", arm.grip_limit_nm, between(0.1, 2000), "friction of the clamp");
        a.field("knob_on_right", arm.knob_on_right, {}, "seen from behind the tail");
        a.field("counterweight", arm.counterweight, {}, "");
        a.extras(arm.extras);
    }
};

template <>
struct FieldList<Bag> {
    static constexpr const char* name = "bag";
    static void list(auto& a, auto& b) {
        a.field("from", b.from, at_most(64), "catalogue entry its values came from");
        a.field("mass_kg", b.mass_kg, between(0, 100), "");
        a.field("place", b.place, {}, "");
        a.field("leg", b.leg, between(0, 7), "which leg, from 0");
        a.field("at_m", b.at_m, between(0, 5),
                "from the column along the leg, or behind the pivot");
        a.field("hanging", b.hanging, {}, "a bag resting on the floor counts as nothing");
        a.extras(b.extras);
    }
};

template <>
struct FieldList<Support> {
    static constexpr const char* name = "support";
    static void list(auto& a, auto& s) {
        a.field("from", s.from, at_most(64), "catalogue entry its values came from");
        a.field("kind", s.kind, {}, "");
        a.field("base", s.base, {}, "");
        a.field("column", s.column, {}, "");
        a.field("arm", s.arm, {}, "");
        a.field("bags", s.bags, at_most(16), "");
        a.field("load_limit_kg", s.load_limit_kg, between(0.1, 500), "on top of the column");
        a.field("measured_masses", s.measured_masses, {}, "false: masses may be off by limits'");
        a.extras(s.extras);
    }
};

template <>
struct FieldList<Aim> {
    static constexpr const char* name = "aim";
    static void list(auto& a, auto& aim) {
        a.field("kind", aim.kind, {}, "");
        a.field("landmark", aim.landmark, one_of(landmark_words), "of the subject");
        a.field("point_m", aim.point_m, between(-60, 60), "");
        a.field("azimuth_deg", aim.azimuth_deg, between(-360, 360), "the beam travels to");
        a.field("elevation_deg", aim.elevation_deg, between(-90, 90), "");
        a.field("feather_deg", aim.feather_deg, between(-90, 90), "+ toward camera right");
        a.extras(aim.extras);
    }
};

template <>
struct FieldList<Light> {
    static constexpr const char* name = "light";
    static void list(auto& a, auto& l) {
        a.field("id", l.id, at_most(64), "unique among lights and panels");
        a.field("role", l.role, at_most(64), "free label");
        a.field("on", l.on, {}, "");
        a.field("head", l.head, {}, "");
        a.field("modifier", l.modifier, {}, "");
        a.field("support", l.support, {}, "");
        a.field("aim", l.aim, {}, "");
        a.extras(l.extras);
    }
};

template <>
struct FieldList<Panel> {
    static constexpr const char* name = "panel";
    static void list(auto& a, auto& p) {
        a.field("id", p.id, at_most(64), "unique among lights and panels");
        a.field("kind", p.kind, {}, "");
        a.field("width_m", p.width_m, between(0.05, 6), "of each leaf");
        a.field("height_m", p.height_m, between(0.05, 6), "");
        a.field("position_m", p.position_m, between(-60, 60), "bottom of the hinge or the middle");
        a.field("turn_deg", p.turn_deg, between(-360, 360), "azimuth the working side faces");
        a.field("fold_deg", p.fold_deg, between(0, 90), "how far each leaf folds back");
        a.field("roll_deg", p.roll_deg, between(-180, 180), "about the working side's normal");
        a.field("tilt_deg", p.tilt_deg, between(-90, 90), "+ leans the working side upward");
        a.field("reflectance", p.reflectance, {}, "");
        a.field("finish", p.finish, {}, "");
        a.field("transmission", p.transmission, between(0, 1), "of a scrim, diffused");
        a.field("mass_kg", p.mass_kg, between(0.05, 60), "");
        a.field("support", p.support, {}, "hung at its tip instead of standing");
        a.extras(p.extras);
    }
};

} // namespace keystead
