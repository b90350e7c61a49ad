// The set: the one document. Plain values, every field with its unit; nothing here is computed.
//
// JSON keys are the member names. Each gear struct is complete in itself: `from` names the
// catalogue entry its values came from (for labels and "back to the catalogue's value"), but a
// saved set carries its own numbers and does not change when the catalogue does.
#pragma once

#include "sim/set/gear.h"
#include "sim/set/person.h"
#include "sim/set/values.h"

namespace keystead {

inline constexpr int set_version = 1;

struct Room {
    double width_m = 5.0;
    double depth_m = 6.0;
    double ceiling_m = 2.8;
    double left_of_subject_m = 2.5; ///< subject to the camera-left wall
    double behind_subject_m = 2.4;  ///< subject to the back wall
    Reflectance walls{Vec3(0.56, 0.545, 0.52)};
    Reflectance ceiling{Vec3(0.70)};
    Reflectance floor{Vec3(0.23, 0.225, 0.215)};
    double ambient_lx = 0.0; ///< room light on the face that the flash does not make
    double ambient_k = 3000.0;
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
    double white_balance_k = 5600.0;
    double sync_s = 1.0 / 200.0; ///< shortest time with the whole frame open at once
    double curtain_s = 0.004;    ///< travel of one curtain over the frame's short side
    bool soft_shoulder = true;   ///< of the picture: highlights roll off instead of clipping
    Extras extras;
};

enum class ReceptorKind { flat, dome };

/// A meter held somewhere in the set.
struct MeterPoint {
    std::string id;
    Vec3 position_m{0.0, 1.5, 0.1};
    /// Toward a light's id, "camera", or the angles below when empty.
    std::string toward = "camera";
    double azimuth_deg = 0.0, elevation_deg = 0.0;
    ReceptorKind receptor = ReceptorKind::dome;
    Extras extras;
};

/// What a hand meter really read of one light alone.
struct MeasuredReading {
    std::string light;
    std::string at = "face"; ///< a meter point's id, or the face
    double f_number = 8.0;   ///< exact, at the camera's ISO (and shutter, continuous light)
    ReceptorKind receptor = ReceptorKind::flat; ///< flat: held toward the light; dome: as the point
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
    std::vector<Prop> props;
    std::vector<MeterPoint> meter_points;
    std::vector<MeasuredReading> measured;
    MeterSettings meter;
    StabilityLimits limits;
    Extras extras;
};

} // namespace keystead
