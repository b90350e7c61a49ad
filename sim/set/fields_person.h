// Fields of the subject and of props.
#pragma once

#include "sim/set/field_list.h"

namespace keystead {

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
        a.field("tragion_top_mm", p.tragion_top_mm, between(90, 180), "ear hole to crown");
        a.field("nose_length_mm", p.nose_length_mm, between(30, 75), "nose root to its base");
        a.field("lip_length_mm", p.lip_length_mm, between(30, 75), "mouth corner to corner");
        a.field("philtrum_mm", p.philtrum_mm, between(6, 30), "nose base to the upper lip");
        a.field("ear_length_mm", p.ear_length_mm, between(40, 90), "");
        a.field("ear_breadth_mm", p.ear_breadth_mm, between(20, 55), "");
        a.field("brow_depth_mm", p.brow_depth_mm, between(-4, 4), "added to the preset's");
        a.field("eye_depth_mm", p.eye_depth_mm, between(-4, 4), "added to the preset's");
        a.extras(p.extras);
    }
};

template <>
struct FieldList<Gaze> {
    static constexpr const char* name = "gaze";
    static void list(auto& a, auto& v) {
        a.field("kind", v.kind, {}, "");
        a.field("azimuth_deg", v.azimuth_deg, between(-180, 180),
                "from the camera axis, + toward camera right");
        a.field("elevation_deg", v.elevation_deg, between(-90, 90), "");
        a.extras(v.extras);
    }
};

template <>
struct FieldList<Hat> {
    static constexpr const char* name = "hat";
    static void list(auto& a, auto& v) {
        a.field("brim_mm", v.brim_mm, between(10, 300), "how far the brim stands out");
        a.field("crown_mm", v.crown_mm, between(40, 300), "height of the crown");
        a.field("tilt_deg", v.tilt_deg, between(-30, 40), "+ lifts the front of the brim");
        a.field("reflectance", v.reflectance, {}, "");
        a.extras(v.extras);
    }
};

template <>
struct FieldList<Glasses> {
    static constexpr const char* name = "glasses";
    static void list(auto& a, auto& v) {
        a.field("lens_width_mm", v.lens_width_mm, between(20, 80), "");
        a.field("lens_height_mm", v.lens_height_mm, between(15, 75), "");
        a.field("bridge_mm", v.bridge_mm, between(8, 35), "between the lenses");
        a.field("lens_radius_mm", v.lens_radius_mm, between(50, 2000), "of the front surface");
        a.field("tilt_deg", v.tilt_deg, between(-10, 30), "the normal points so far down");
        a.field("wrap_deg", v.wrap_deg, between(-5, 30), "and so far outward");
        a.field("frame", v.frame, {}, "reflectance");
        a.extras(v.extras);
    }
};

template <>
struct FieldList<SubjectFile> {
    static constexpr const char* name = "file";
    static void list(auto& a, auto& v) {
        a.field("path", v.path, at_most(1024), "glTF or OBJ, relative to the set");
        a.field("unit", v.unit, {}, "of its numbers");
        a.field("up", v.up, {}, "its axis that points up");
        a.field("part", v.part, {}, "what it shows");
        a.field("turn_deg", v.turn_deg, between(-360, 360),
                "added to where its face was found to look");
        a.field("nose_tip_m", v.nose_tip_m, between(-60, 60), "placed by hand");
        a.field("pupil_left_m", v.pupil_left_m, between(-60, 60), "placed by hand");
        a.field("pupil_right_m", v.pupil_right_m, between(-60, 60), "placed by hand");
        a.field("chin_m", v.chin_m, between(-60, 60), "placed by hand");
        a.field("top_m", v.top_m, between(-60, 60), "placed by hand");
        a.extras(v.extras);
    }
};

template <>
struct FieldList<Prop> {
    static constexpr const char* name = "prop";
    static void list(auto& a, auto& v) {
        a.field("id", v.id, at_most(64), "unique among lights, panels and props");
        a.field("path", v.path, at_most(1024), "glTF or OBJ, relative to the set");
        a.field("unit", v.unit, {}, "of its numbers");
        a.field("up", v.up, {}, "its axis that points up");
        a.field("position_m", v.position_m, between(-60, 60), "middle of its underside");
        a.field("turn_deg", v.turn_deg, between(-360, 360), "");
        a.field("scale", v.scale, between(0.001, 1000), "");
        a.field("reflectance", v.reflectance, {}, "");
        a.extras(v.extras);
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
        a.field("iris", s.iris, {}, "reflectance");
        a.field("skin_oil", s.skin_oil, between(0, 1), "0 dry, 1 oily");
        a.field("clothing_finish", s.clothing_finish, {}, "");
        a.field("grey_card", s.grey_card, {}, "all of the subject a uniform 18 %");
        a.field("arms", s.arms, {}, "");
        a.field("gaze", s.gaze, {}, "where the eyes look");
        a.field("hat", s.hat, {}, "");
        a.field("glasses", s.glasses, {}, "");
        a.field("file", s.file, {}, "an own head or figure instead of the generated one");
        a.extras(s.extras);
    }
};

} // namespace keystead
