// The one list of fields of every struct of the document. Reading, writing, range checks and the
// JSON Schema all walk these lists, so a field is named once.
#pragma once

#include "sim/set/fields_gear.h"
#include "sim/set/fields_person.h"

namespace keystead {

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
        a.field("ambient_lx", room.ambient_lx, between(0, 100000),
                "room light on the face beside the lights");
        a.field("ambient_k", room.ambient_k, between(1500, 20000), "");
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
        a.field("white_balance_k", c.white_balance_k, between(1500, 20000), "");
        a.field("sync_s", c.sync_s, between(1e-5, 1), "shortest time with the whole frame open");
        a.field("curtain_s", c.curtain_s, between(1e-5, 0.1), "travel of one shutter curtain");
        a.field("soft_shoulder", c.soft_shoulder, {}, "highlights roll off instead of clipping");
        a.extras(c.extras);
    }
};

template <>
struct FieldList<MeterPoint> {
    static constexpr const char* name = "meter_point";
    static void list(auto& a, auto& v) {
        a.field("id", v.id, at_most(64), "unique among lights, panels, props and meter points");
        a.field("position_m", v.position_m, between(-60, 60), "");
        a.field("toward", v.toward, at_most(64), "a light's id, camera, or empty for the angles");
        a.field("azimuth_deg", v.azimuth_deg, between(-360, 360), "");
        a.field("elevation_deg", v.elevation_deg, between(-90, 90), "");
        a.field("receptor", v.receptor, {}, "");
        a.extras(v.extras);
    }
};

template <>
struct FieldList<MeasuredReading> {
    static constexpr const char* name = "measured";
    static void list(auto& a, auto& v) {
        a.field("light", v.light, at_most(64), "id");
        a.field("at", v.at, at_most(64), "a meter point's id, or face");
        a.field("f_number", v.f_number, between(0.5, 256), "exact, of this light alone");
        a.field("receptor", v.receptor, {}, "");
        a.extras(v.extras);
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
        a.field("props", set.props, at_most(64), "things from files");
        a.field("meter_points", set.meter_points, at_most(64), "");
        a.field("measured", set.measured, at_most(512), "readings of a real meter");
        a.field("meter", set.meter, {}, "receptor constants; contested, hence settings");
        a.field("limits", set.limits, {}, "thresholds of the stability verdict");
        a.extras(set.extras);
    }
};

} // namespace keystead
