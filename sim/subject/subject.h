// The sitter: proportions -> surface, landmarks, regions; then a pose in the room.
//
// Canonical frame of a form: metres, origin midway between the tragions, x to the subject's left,
// y up, z forward, looking straight ahead, standing; the torso hangs below at its own height.
#pragma once

#include "sim/base/frames.h"
#include "sim/base/mesh.h"
#include "sim/set/set.h"

#include <array>
#include <cstdint>
#include <memory>
#include <string>

namespace keystead {

/// Painted on the skin's vertices (Mesh::regions): who throws a shadow, and what a place is.
enum class Region : std::uint8_t {
    other = 0,
    nose, ///< ends at subnasale: the upper lip is not nose
    brow, ///< brow ridge and forehead
    lid,  ///< upper and lower lids
    lip,
    cheek,
    chin,
    ear,
    neck,
    hair,
    eye,
    clothing,
    body,
    hat,
    glasses
};

/// The front surface of a spectacle lens: the part of a sphere within its outline. Frame and
/// origin as of what it belongs to.
struct LensSurface {
    Vec3 middle_m{0.0};
    Mat3 axes{1.0}; ///< columns: to the subject's left, up, normal at the middle
    Vec3 sphere_centre_m{0.0};
    double radius_m = 0.132;
    double half_width_m = 0.025, half_height_m = 0.020;
};

/// Named points, metres. In the form's canonical frame, or in the room once posed.
struct Landmarks {
    Vec3 vertex{0.0}, glabella{0.0}, sellion{0.0}, pronasale{0.0}, subnasale{0.0}, stomion{0.0},
        menton{0.0};
    Vec3 pupil_left{0.0}, pupil_right{0.0}; ///< front of the cornea; left = the subject's left
    Vec3 eye_left{0.0}, eye_right{0.0};     ///< eyeball centres
    Vec3 zygion_left{0.0}, zygion_right{0.0}, gonion_left{0.0}, gonion_right{0.0};
    Vec3 tragion_left{0.0}, tragion_right{0.0}, alare_left{0.0}, alare_right{0.0};
    Vec3 cheilion_left{0.0}, cheilion_right{0.0};
    Vec3 cheek_left{0.0}, cheek_right{0.0}; ///< front of the cheek, below the pupil
    Vec3 acromion_left{0.0}, acromion_right{0.0};
    Vec3 hair_top{0.0}, hair_left{0.0}, hair_right{0.0}; ///< outermost hair, else skin; a hat's top
    Vec3 chest{0.0};
    Vec3 face{0.0}; ///< where the face is metered and distances are taken: the nose root
};

/// Heights of the face chart's lines, millimetres above the pupils, head frame (PATTERN tests).
struct FaceLines {
    double lid_mm = -11.0; ///< just under the lower lid
    double nose_tip_mm = -42.0;
    double nose_base_mm = -47.0; ///< just below subnasale
    double mouth_mm = -72.0;     ///< stomion
    double eye_width_mm = 32.0;
    double nose_length_mm = 50.0;
    double eye_x_mm = 32.0; ///< pupil, from the midline
};

/// One subject's shape, independent of pose. Built once per proportions and hair style.
struct SubjectForm {
    std::shared_ptr<const Mesh> skin; ///< head, neck, shoulders, arms; regions and colours set
    std::shared_ptr<const Mesh> hair; ///< may be empty
    /// Single strands on the hair (sim/subject/wisps.h), posed with it; null: none.
    std::shared_ptr<const Mesh> strands;
    std::shared_ptr<const Mesh> clothing;
    std::shared_ptr<const Mesh> eyes;   ///< both eyeballs with cornea
    std::shared_ptr<const Mesh> caster; ///< coarse surface of all of it, unposed
    std::shared_ptr<const Mesh> hat;    ///< null: none; colours are shares of its reflectance
    std::shared_ptr<const Mesh> frame;  ///< of the glasses, likewise
    /// Front surfaces of both lenses, clear glass (sim/subject/lens.h): no part of the scene, as
    /// they throw no shadow; the renderer dims what is behind them and adds what they mirror.
    std::shared_ptr<const Mesh> lenses;
    std::array<LensSurface, 2> lens_surfaces;     ///< left, right; where `lenses` is not null
    std::shared_ptr<const SubjectForm> undressed; ///< the form without hat and glasses, if worn
    Landmarks landmarks;
    FaceLines lines;
    double standing_tragion_height_m = 1.56;
    double seated_tragion_height_above_seat_m = 0.73;
    Vec3 neck_pivot_m{0.0};         ///< the head turns about this point
    Vec3 jaw_m{0.0, -0.101, 0.080}; ///< below the plane through here the neck begins to bend
    double neck_bend_m = 0.085;     ///< from that plane to where the neck is all body
};

/// A posed subject in the room frame.
struct PosedSubject {
    std::shared_ptr<const Mesh> skin, hair, clothing, eyes;
    std::shared_ptr<const Mesh> strands; ///< on the hair; null: none. For the eye only
    std::shared_ptr<const Mesh> caster;  ///< coarser closed surface of all of it, for shadow maps
    std::shared_ptr<const Mesh> hat, frame, lenses; ///< null: not worn; see SubjectForm
    std::array<LensSurface, 2> lens_surfaces;
    Landmarks landmarks;
    FaceLines lines;
    Mat3 head_axes{1.0};     ///< head frame to room
    Vec3 head_origin_m{0.0}; ///< mid-tragion in the room
};

/// Builds the surface: about a second cold; deterministic.
SubjectForm build_subject(const Subject& subject);

/// The same body with this subject's hat and glasses, or without: some milliseconds. `form` may
/// itself be dressed; its `body_key` must be the subject's.
SubjectForm dressed(const SubjectForm& form, const Subject& subject);

/// Same form, this pose: some milliseconds. Eyes that look at the camera look at `camera_m`.
/// Gaze turns the eyeballs and moves the pupils; the lids stay.
PosedSubject pose_subject(const SubjectForm& form, const Subject& subject,
                          const Vec3& camera_m = Vec3(0.0, 1.6, 2.5));

/// Hash of what `build_subject` depends on, so that callers can keep a form while only the pose
/// or a colour changes.
std::uint64_t form_key(const Subject& subject);
/// The part of it that takes the time: all but what `dressed` adds.
std::uint64_t body_key(const Subject& subject);

/// A landmark by its document name (face, nose, chin, hair_top, chest, left_cheek, …); false if
/// the name is unknown.
bool find_landmark(const Landmarks& landmarks, const std::string& name, Vec3& point_m);

} // namespace keystead
