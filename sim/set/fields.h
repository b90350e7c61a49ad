// The one list of fields of every struct of the document. Reading, writing, range checks and the
// JSON Schema all walk these lists, so a field is named once.
//
// An archive `a` offers `a.header()`, `a.field(name, member, rule, about)` for each member, and
// `a.extras(member)` for the unknown fields of a file.
#pragma once

#include "sim/set/field_rules.h"

#include <concepts>

namespace keystead {

/// True for the structs that have a list below.
template <class T>
struct FieldList;
template <class T>
concept Listed = requires {
    FieldList<T>::name;
};
/// Gear that may start from a catalogue entry.
template <class T>
concept Gear = Listed<T> && requires(T gear) {
    { gear.from } -> std::same_as<std::string&>;
};

template <>
struct FieldList<Room> {
    static constexpr const char* name = "room";
    static void list(auto& a, auto& room) {
        a.field("width_m", room.width_m, between(1, 60), "left wall to right wall");
        a.field("depth_m", room.depth_m, between(1, 60), "back wall to the wall behind the camera");
        a.field("ceiling_m", room.ceiling_m, between(1.8, 20), "floor to ceiling");
        a.field("left_of_subject_m", room.left_of_subject_m, between(0.2, 59),
                "subject to the camera-left wall");
        a.field("behind_subject_m", room.behind_subject_m, between(0.2, 59),
                "subject to the back wall");
        a.field("walls", room.walls, {}, "reflectance");
        a.field("ceiling", room.ceiling, {}, "reflectance");
        a.field("floor", room.floor, {}, "reflectance");
        a.extras(room.extras);
    }
};

template <>
struct FieldList<Background> {
    static constexpr const char* name = "background";
    static void list(auto& a, auto& b) {
        a.field("kind", b.kind, {}, "");
        a.field("width_m", b.width_m, between(0.3, 30), "");
        a.field("height_m", b.height_m, between(0.3, 15), "floor to its top edge");
        a.field("distance_m", b.distance_m, between(0.2, 50), "behind the subject");
        a.field("offset_m", b.offset_m, between(-20, 20), "of its centre, toward camera right");
        a.field("sweep_m", b.sweep_m, between(0, 30), "how far it runs forward on the floor");
        a.field("reflectance", b.reflectance, {}, "");
        a.extras(b.extras);
    }
};

template <>
struct FieldList<Proportions> {
    static constexpr const char* name = "proportions";
    static void list(auto& a, auto& p) {
        a.field("preset", p.preset, one_of(preset_words), "where unset measures come from");
        a.field("head_length_mm", p.head_length_mm, between(150, 240), "");
        a.field("head_breadth_mm", p.head_breadth_mm, between(110, 190), "");
        a.field("bizygomatic_mm", p.bizygomatic_mm, between(100, 180), "cheekbone to cheekbone");
        a.field("bigonial_mm", p.bigonial_mm, between(75, 160), "jaw corner to jaw corner");
        a.field("menton_sellion_mm", p.menton_sellion_mm, between(80, 160), "chin to nose root");
        a.field("nose_protrusion_mm", p.nose_protrusion_mm, between(8, 40), "");
        a.field("nose_breadth_mm", p.nose_breadth_mm, between(20, 60), "");
        a.field("interpupillary_mm", p.interpupillary_mm, between(48, 80), "");
        a.field("neck_girth_mm", p.neck_girth_mm, between(240, 560), "");
        a.field("biacromial_mm", p.biacromial_mm, between(260, 520), "shoulder bone to bone");
        a.field("bideltoid_mm", p.bideltoid_mm, between(300, 680), "shoulder muscle to muscle");
        a.field("brow_depth_mm", p.brow_depth_mm, between(-4, 4), "added to the preset's");
        a.field("eye_depth_mm", p.eye_depth_mm, between(-4, 4), "added to the preset's");
        a.extras(p.extras);
    }
};

template <>
struct FieldList<Subject> {
    static constexpr const char* name = "subject";
    static void list(auto& a, auto& s) {
        a.field("posture", s.posture, {}, "");
        a.field("stature_m", s.stature_m, between(0.9, 2.3), "standing height");
        a.field("seat_height_m", s.seat_height_m, between(0.2, 1.1), "");
        a.field("body_turn_deg", s.body_turn_deg, between(-180, 180),
                "shoulders, + toward camera right");
        a.field("head_turn_deg", s.head_turn_deg, between(-180, 180),
                "nose from the camera axis, + toward camera right");
        a.field("head_nod_deg", s.head_nod_deg, between(-60, 60), "+ chin up");
        a.field("head_roll_deg", s.head_roll_deg, between(-60, 60),
                "+ top of the head toward camera right");
        a.field("proportions", s.proportions, {}, "");
        a.field("skin", s.skin, {}, "reflectance");
        a.field("hair", s.hair, {}, "reflectance");
        a.field("clothing", s.clothing, {}, "reflectance");
        a.field("hair_style", s.hair_style, {}, "");
        a.extras(s.extras);
    }
};

template <>
struct FieldList<Camera> {
    static constexpr const char* name = "camera";
    static void list(auto& a, auto& c) {
        a.field("position_m", c.position_m, between(-60, 60), "entrance pupil");
        a.field("aim_m", c.aim_m, between(-60, 60), "");
        a.field("focal_length_mm", c.focal_length_mm, between(8, 800), "");
        a.field("sensor_width_mm", c.sensor_width_mm, between(4, 120), "long side");
        a.field("sensor_height_mm", c.sensor_height_mm, between(3, 120), "short side");
        a.field("orientation", c.orientation, {}, "");
        a.field("f_number", c.f_number, between(0.7, 90), "nominal");
        a.field("shutter_s", c.shutter_s, between(1e-5, 60), "");
        a.field("iso", c.iso, between(3, 409600), "arithmetic speed");
        a.extras(c.extras);
    }
};

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
        a.extras(g.extras);
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
        a.field("tilt_deg", p.tilt_deg, between(-90, 90), "+ leans the working side upward");
        a.field("reflectance", p.reflectance, {}, "");
        a.extras(p.extras);
    }
};

template <>
struct FieldList<MeterSettings> {
    static constexpr const char* name = "meter";
    static void list(auto& a, auto& m) {
        a.field("flat_c_lx_s", m.flat_c_lx_s, between(150, 600), "flat receptor constant");
        a.field("dome_c_lx_s", m.dome_c_lx_s, between(150, 600), "dome receptor constant");
        a.field("reflected_k", m.reflected_k, between(8, 20), "reflected-light constant");
        a.extras(m.extras);
    }
};

template <>
struct FieldList<StabilityLimits> {
    static constexpr const char* name = "limits";
    static void list(auto& a, auto& l) {
        a.field("unstable_tilt_deg", l.unstable_tilt_deg, between(0, 45), "");
        a.field("caution_tilt_deg", l.caution_tilt_deg, between(0, 45), "");
        a.field("caution_push_n", l.caution_push_n, between(0, 1000), "at the load's height");
        a.field("caution_load_fraction", l.caution_load_fraction, between(0.05, 1), "");
        a.field("caution_grip_fraction", l.caution_grip_fraction, between(0.05, 1), "");
        a.field("mass_uncertainty", l.mass_uncertainty, between(0, 0.5), "fraction");
        a.extras(l.extras);
    }
};

template <>
struct FieldList<Set> {
    static constexpr const char* name = "set";
    static void list(auto& a, auto& set) {
        a.header();
        a.field("name", set.name, at_most(200), "");
        a.field("notes", set.notes, at_most(20000), "");
        a.field("room", set.room, {}, "");
        a.field("background", set.background, {}, "");
        a.field("subject", set.subject, {}, "");
        a.field("camera", set.camera, {}, "");
        a.field("lights", set.lights, at_most(64), "");
        a.field("panels", set.panels, at_most(64), "");
        a.field("meter", set.meter, {}, "receptor constants; contested, hence settings");
        a.field("limits", set.limits, {}, "thresholds of the stability verdict");
        a.extras(set.extras);
    }
};

} // namespace keystead
