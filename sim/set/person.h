// The document's subject, and things from the user's own files.
#pragma once

#include "sim/set/values.h"

namespace keystead {

enum class Posture { standing, seated };
enum class HairStyle { none, cropped, bob, tied, long_hair, curly };
enum class ArmPose { hanging, left_on_hip, right_on_hip, both_on_hips, crossed };
enum class ClothFinish { matte, satin };

/// Body measures, millimetres. Unset values come from `preset` scaled to the stature where a body
/// length scales with it. Definitions: ISO 7250-1; means in tests/data/anthropometry.
struct Proportions {
    /// mean-male, mean-female; small-… and large-… are two standard deviations below and above.
    std::string preset = "mean-male";
    std::optional<double> head_length_mm, head_breadth_mm, bizygomatic_mm, bigonial_mm,
        menton_sellion_mm, nose_protrusion_mm, nose_breadth_mm, interpupillary_mm, neck_girth_mm,
        biacromial_mm, bideltoid_mm;
    std::optional<double> tragion_top_mm, nose_length_mm, lip_length_mm, philtrum_mm, ear_length_mm,
        ear_breadth_mm;
    double brow_depth_mm = 0.0; ///< added to the preset's brow ridge, -4..+4
    double eye_depth_mm = 0.0;  ///< added to the preset's socket depth, -4..+4
    Extras extras;
};

enum class GazeKind { ahead, camera, angles };

/// Where the eyes look. They turn at most 35° in the head; the rest is left out.
struct Gaze {
    GazeKind kind = GazeKind::ahead;
    double azimuth_deg = 0.0; ///< from the camera axis, + toward camera right
    double elevation_deg = 0.0;
    Extras extras;
};

struct Hat {
    double brim_mm = 75.0; ///< how far the brim stands out
    double crown_mm = 105.0;
    double tilt_deg = 0.0; ///< + lifts the front of the brim
    Reflectance reflectance{Vec3(0.06, 0.055, 0.05)};
    Extras extras;
};

/// Two lenses, each part of a sphere about a point behind it.
struct Glasses {
    double lens_width_mm = 50.0;
    double lens_height_mm = 40.0;
    double bridge_mm = 18.0;
    double lens_radius_mm = 132.0; ///< of the front surface
    double tilt_deg = 8.0;         ///< the lens's normal points so far down
    double wrap_deg = 5.0;         ///< and so far outward
    Reflectance frame{Vec3(0.03)};
    Extras extras;
};

/// The user's own head or figure in place of the generated one. Points left out are looked for.
struct SubjectFile {
    std::string path; ///< relative to the set's folder, or absolute
    LengthUnit unit = LengthUnit::metre;
    UpAxis up = UpAxis::y;
    PersonPart part = PersonPart::head;
    double turn_deg = 0.0; ///< added to where the face was found to look
    /// Placed by hand: metres, Y up, in the converted file's own frame.
    std::optional<Vec3> nose_tip_m, pupil_left_m, pupil_right_m, chin_m, top_m;
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
    Reflectance iris{Vec3(0.10, 0.06, 0.035)};
    double skin_oil = 0.0; ///< 0 dry to 1 oily: how glossy
    ClothFinish clothing_finish = ClothFinish::matte;
    bool grey_card = false; ///< all of the subject a matte uniform 18 %, for teaching and metering
    ArmPose arms = ArmPose::hanging;
    Gaze gaze;
    std::optional<Hat> hat;
    std::optional<Glasses> glasses;
    std::optional<SubjectFile> file;
    Extras extras;
};

/// Something from a file placed in the room. It weighs nothing: it is no part of any support.
struct Prop {
    std::string id;
    std::string path; ///< relative to the set's folder, or absolute
    LengthUnit unit = LengthUnit::metre;
    UpAxis up = UpAxis::y;
    Vec3 position_m{0.0}; ///< of the middle of its box's underside
    double turn_deg = 0.0;
    double scale = 1.0;
    Reflectance reflectance{Vec3(0.4)};
    Extras extras;
};

} // namespace keystead
