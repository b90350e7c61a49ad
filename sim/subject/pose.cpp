// Posing: the head turns about the neck pivot, the neck follows, the body stands or sits.
#include "sim/subject/complexion.h"
#include "sim/subject/gaze.h"
#include "sim/subject/landmarks.h"
#include "sim/subject/paint.h"

#include <glm/gtc/quaternion.hpp>
#include <optional>
#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>

namespace keystead {

namespace {

using glm::dquat;

struct Pose {
    Mat3 head{1.0}, body{1.0};
    dquat bend{1, 0, 0, 0}; ///< head against body
    Vec3 pivot_room{0.0};
};

double tragion_height(const SubjectForm& form, const Subject& subject) {
    if (subject.posture == Posture::standing) return form.standing_tragion_height_m;
    return subject.seat_height_m + form.seated_tragion_height_above_seat_m;
}

Pose pose_of(const SubjectForm& form, const Subject& subject) {
    Pose pose;
    pose.head = head_rotation(subject.head_turn_deg, subject.head_nod_deg, subject.head_roll_deg);
    pose.body = head_rotation(subject.body_turn_deg, 0.0, 0.0);
    pose.bend = glm::normalize(glm::quat_cast(glm::transpose(pose.body) * pose.head));
    if (pose.bend.w < 0.0) pose.bend = -pose.bend;
    pose.pivot_room = Vec3(0.0, tragion_height(form, subject), 0.0) + form.neck_pivot_m;
    return pose;
}

// 1 on the head, falling to 0 along the neck, measured from the plane under the jaw.
double head_share(const SubjectForm& form, const Vec3& p) {
    const double below = -0.906 * (p.y - form.jaw_m.y) - 0.423 * (p.z - form.jaw_m.z);
    const double t = below / form.neck_bend_m;
    return 1.0 - sculpt::smooth_step(0.0, 1.0, t);
}

// The same for long hair: with the head down to the jaw, with the shoulders where it rests on them.
double hanging_share(const SubjectForm& form, const Vec3& p) {
    return sculpt::smooth_step(form.jaw_m.y - 0.09, form.jaw_m.y + 0.03, p.y);
}

enum class Follow { neck, head, body, hanging };

Follow hair_follow(HairStyle style) {
    if (style == HairStyle::bob || style == HairStyle::curly) return Follow::head;
    return sculpt::falls(style) ? Follow::hanging : Follow::neck;
}

double share_of(Follow follow, const SubjectForm& form, const Vec3& p) {
    switch (follow) {
    case Follow::head:
        return 1.0;
    case Follow::body:
        return 0.0;
    case Follow::hanging:
        return hanging_share(form, p);
    default:
        return head_share(form, p);
    }
}

Follow follow_of(std::uint8_t region, Follow hair) {
    switch (static_cast<Region>(region)) {
    case Region::hair:
        return hair;
    case Region::hat:
    case Region::glasses:
        return Follow::head;
    default:
        return Follow::neck;
    }
}

/// Every vertex by `follow`, or each by its region where none is given.
Mesh posed(const Mesh& mesh, const SubjectForm& form, const Pose& pose,
           std::optional<Follow> follow, Follow hair = Follow::neck) {
    Mesh out = mesh;
    const dquat body = glm::quat_cast(pose.body), still(1, 0, 0, 0);
    const auto move = [&](std::size_t i) {
        const Vec3 p(mesh.positions_m[i]);
        const std::uint8_t region = mesh.regions.empty() ? std::uint8_t{0} : mesh.regions[i];
        const double share = share_of(follow ? *follow : follow_of(region, hair), form, p);
        const Mat3 turn = share == 1.0 ? pose.head
                          : share == 0.0
                              ? pose.body
                              : glm::mat3_cast(body * glm::slerp(still, pose.bend, share));
        out.positions_m[i] = glm::vec3(pose.pivot_room + turn * (p - form.neck_pivot_m));
        out.normals[i] = glm::vec3(turn * Vec3(mesh.normals[i]));
        if (!mesh.tangents.empty()) out.tangents[i] = glm::vec3(turn * Vec3(mesh.tangents[i]));
    };
    using Range = tbb::blocked_range<std::size_t>;
    tbb::parallel_for(Range(0, out.positions_m.size(), 4096), [&](const Range& range) {
        for (std::size_t i = range.begin(); i != range.end(); ++i) move(i);
    });
    return out;
}

void tint(Mesh& mesh, const Vec3& wanted, const Vec3& painted_for) {
    const glm::vec3 ratio(wanted / painted_for);
    for (glm::vec3& colour : mesh.colours) colour = glm::min(colour * ratio, glm::vec3(0.95F));
}

/// Eyeballs turned in the head, still in the form's frame, and the pupils with them.
Mesh turned_eyes(Mesh eyes, const SubjectForm& form, const std::array<Mat3, 2>& turns) {
    for (std::size_t i = 0; i < eyes.positions_m.size(); ++i) {
        const bool left = eyes.positions_m[i].x > 0.0F;
        const Vec3 centre = left ? form.landmarks.eye_left : form.landmarks.eye_right;
        const Mat3& turn = turns[left ? 0 : 1];
        eyes.positions_m[i] = glm::vec3(centre + turn * (Vec3(eyes.positions_m[i]) - centre));
        eyes.normals[i] = glm::vec3(turn * Vec3(eyes.normals[i]));
    }
    return eyes;
}

std::array<Mat3, 2> gaze_of(const SubjectForm& form, const Subject& subject, const Pose& pose,
                            const Vec3& camera_m) {
    const auto in_room = [&](const Vec3& p) {
        return pose.pivot_room + pose.head * (p - form.neck_pivot_m);
    };
    return eye_turns(subject.gaze, pose.head,
                     {in_room(form.landmarks.eye_left), in_room(form.landmarks.eye_right)},
                     camera_m);
}

void turn_pupils(Landmarks& landmarks, const std::array<Mat3, 2>& turns) {
    landmarks.pupil_left =
        landmarks.eye_left + turns[0] * (landmarks.pupil_left - landmarks.eye_left);
    landmarks.pupil_right =
        landmarks.eye_right + turns[1] * (landmarks.pupil_right - landmarks.eye_right);
}

std::shared_ptr<const Mesh> posed_worn(const std::shared_ptr<const Mesh>& mesh,
                                       const SubjectForm& form, const Pose& pose,
                                       const Vec3& reflectance) {
    if (mesh == nullptr) return nullptr;
    Mesh out = posed(*mesh, form, pose, Follow::head);
    tint(out, reflectance, Vec3(1.0));
    return std::make_shared<const Mesh>(std::move(out));
}

void pose_worn(PosedSubject& out, const SubjectForm& form, const Subject& subject,
               const Pose& pose) {
    if (subject.hat) out.hat = posed_worn(form.hat, form, pose, subject.hat->reflectance.rgb);
    if (!subject.glasses) return;
    out.frame = posed_worn(form.frame, form, pose, subject.glasses->frame.rgb);
    out.lenses = posed_worn(form.lenses, form, pose, Vec3(1.0));
    out.lens_surfaces = form.lens_surfaces;
    for (LensSurface& lens : out.lens_surfaces) {
        lens.axes = pose.head * lens.axes;
        for (Vec3* p : {&lens.middle_m, &lens.sphere_centre_m})
            *p = out.head_origin_m + pose.head * *p;
    }
}

} // namespace

PosedSubject pose_subject(const SubjectForm& form, const Subject& subject, const Vec3& camera_m) {
    const Pose pose = pose_of(form, subject);
    const Follow hair_too = hair_follow(subject.hair_style);
    Mesh skin = posed(*form.skin, form, pose, Follow::neck);
    Mesh hair = posed(*form.hair, form, pose, hair_too);
    Mesh cloth = posed(*form.clothing, form, pose, Follow::body);
    tint(skin, subject.skin.rgb, sculpt::base_skin);
    tint(hair, subject.hair.rgb, sculpt::base_hair);
    tint(cloth, subject.clothing.rgb, sculpt::base_cloth);
    const std::array<Mat3, 2> turns = gaze_of(form, subject, pose, camera_m);
    Mesh eyes = *form.eyes;
    apply_iris(eyes, form, subject.iris.rgb);
    eyes = posed(turned_eyes(std::move(eyes), form, turns), form, pose, Follow::head);
    apply_oil(skin, subject.skin_oil);
    apply_finish(cloth, subject.clothing_finish);
    Mesh strands;
    if (form.strands != nullptr) strands = posed(*form.strands, form, pose, hair_too);
    tint(strands, subject.hair.rgb, sculpt::base_hair);
    if (subject.grey_card)
        for (Mesh* mesh : {&skin, &hair, &strands, &cloth, &eyes}) make_grey_card(*mesh);
    PosedSubject out;
    out.skin = std::make_shared<const Mesh>(std::move(skin));
    out.hair = std::make_shared<const Mesh>(std::move(hair));
    if (form.strands != nullptr) out.strands = std::make_shared<const Mesh>(std::move(strands));
    out.clothing = std::make_shared<const Mesh>(std::move(cloth));
    out.eyes = std::make_shared<const Mesh>(std::move(eyes));
    out.caster =
        std::make_shared<const Mesh>(posed(*form.caster, form, pose, std::nullopt, hair_too));
    out.head_axes = pose.head;
    out.head_origin_m = pose.pivot_room - pose.head * form.neck_pivot_m;
    pose_worn(out, form, subject, pose);
    out.landmarks = form.landmarks;
    turn_pupils(out.landmarks, turns);
    out.lines = form.lines;
    sculpt::transform_landmarks(out.landmarks, pose.head, out.head_origin_m, pose.body,
                                pose.pivot_room - pose.body * form.neck_pivot_m);
    return out;
}

} // namespace keystead
