#include "sim/studio/studio.h"

#include "sim/shape/content_key.h"
#include "sim/shape/gear_parts.h"
#include "sim/shape/materials.h"
#include "sim/shape/part_list.h"
#include "sim/shape/prop.h"
#include "sim/studio/own_subject.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <map>
#include <tbb/parallel_for.h>
#include <utility>

namespace keystead {

namespace {

using Parts = std::vector<ScenePart>;

template <class T>
bool same_values(const std::vector<T>& a, const std::vector<T>& b) {
    return a.size() == b.size() &&
           (a.empty() || std::memcmp(a.data(), b.data(), a.size() * sizeof(T)) == 0);
}

bool same_mesh(const Mesh& a, const Mesh& b) {
    return &a == &b ||
           (same_values(a.positions_m, b.positions_m) && same_values(a.triangles, b.triangles) &&
            same_values(a.normals, b.normals) && same_values(a.colours, b.colours) &&
            same_values(a.roughness, b.roughness) && same_values(a.regions, b.regions) &&
            same_values(a.tangents, b.tangents));
}

/// New parts take over the meshes of the previous scene that are equal to theirs: an edit of a
/// colour rebuilds neither buffers nor the ray scene.
void share_meshes(Parts& parts, const Studio* previous) {
    if (previous == nullptr) return;
    for (ScenePart& part : parts)
        for (const ScenePart& old : previous->scene.parts)
            if (old.owner == part.owner && old.part == part.part &&
                same_mesh(*old.mesh, *part.mesh)) {
                part.mesh = old.mesh;
                break;
            }
}

/// The run of parts in the previous scene that begins with `key`, as long as its owner lasts.
Parts donated(const Studio* previous, const std::string& owner, std::uint64_t key) {
    Parts parts;
    if (previous == nullptr) return parts;
    const Parts& old = previous->scene.parts;
    auto part = std::find_if(old.begin(), old.end(), [&](const ScenePart& one) {
        return one.owner == owner && one.key == key;
    });
    for (; part != old.end() && part->owner == owner; ++part) parts.push_back(*part);
    return parts;
}

void add_parts(Scene& scene, Parts parts, const Studio* previous) {
    share_meshes(parts, previous);
    std::move(parts.begin(), parts.end(), std::back_inserter(scene.parts));
}

std::uint64_t pose_key(const Subject& subject, const Camera& camera) {
    ContentKey key;
    key.add(static_cast<int>(subject.gaze.kind));
    if (subject.gaze.kind == GazeKind::camera) key.add(camera.position_m);
    if (subject.gaze.kind == GazeKind::angles)
        key.add(subject.gaze.azimuth_deg).add(subject.gaze.elevation_deg);
    return key.add(static_cast<int>(subject.posture))
        .add(subject.stature_m)
        .add(subject.seat_height_m)
        .add(subject.body_turn_deg)
        .add(subject.head_turn_deg)
        .add(subject.head_nod_deg)
        .add(subject.head_roll_deg)
        .value();
}

std::uint64_t colour_key(const Subject& subject) {
    return ContentKey()
        .add(subject.skin.rgb)
        .add(subject.hair.rgb)
        .add(subject.clothing.rgb)
        .add(subject.skin_oil)
        .add(static_cast<double>(subject.clothing_finish))
        .add(subject.hat ? subject.hat->reflectance.rgb : Vec3(-1.0))
        .add(subject.glasses ? subject.glasses->frame.rgb : Vec3(-1.0))
        .add(subject.iris.rgb)
        .add(static_cast<double>(subject.grey_card))
        .value();
}

/// The previous form, the previous body in another hat, or a new one.
std::shared_ptr<const SubjectForm> form_of(const Subject& subject, std::uint64_t key,
                                           const Studio* previous) {
    if (previous != nullptr && previous->form_key == key) return previous->form;
    if (previous != nullptr && !previous->set.subject.file &&
        body_key(previous->set.subject) == body_key(subject))
        return std::make_shared<const SubjectForm>(dressed(*previous->form, subject));
    return std::make_shared<const SubjectForm>(build_subject(subject));
}

/// What need not be read again.
StoredMeshes kept_files(const Studio* previous, const StoredMeshes& at_hand) {
    StoredMeshes kept = at_hand;
    if (previous != nullptr)
        kept.insert(kept.end(), previous->files.begin(), previous->files.end());
    return kept;
}

/// The subject's file as a form, or nothing where it cannot even be shown. Why not is noted.
std::shared_ptr<const SubjectForm> form_from_file(Studio& studio, const Studio* previous,
                                                  const StoredMeshes& kept) {
    const Subject& subject = studio.set.subject;
    MeshRequest request{subject.file->path, studio.folder, subject.file->unit, subject.file->up};
    request.find_face = true;
    const auto stored = stored_mesh(request, kept);
    studio.files.push_back(stored);
    const Outcome problem = own_problem(*stored, subject);
    if (problem) studio.problems.push_back(*problem);
    if (problem && !can_be_shown(*stored)) return nullptr;
    studio.form_key = ContentKey()
                          .add(own_form_key(*stored, subject))
                          .add(problem ? "not placed" : "placed")
                          .value();
    if (previous != nullptr && previous->form_key == studio.form_key) return previous->form;
    const SubjectForm form = problem ? unplaced_form(*stored, subject) : own_form(*stored, subject);
    return std::make_shared<const SubjectForm>(dressed(form, subject));
}

void make_form(Studio& studio, const Studio* previous, const StoredMeshes& kept) {
    const Subject& subject = studio.set.subject;
    if (subject.file) studio.form = form_from_file(studio, previous, kept);
    if (studio.form != nullptr) return;
    studio.form_key = form_key(subject);
    studio.form = form_of(subject, studio.form_key, previous);
}

void make_subject(Studio& studio, const Studio* previous, const StoredMeshes& kept) {
    const Subject& subject = studio.set.subject;
    make_form(studio, previous, kept);
    const Camera& camera = studio.set.camera;
    const std::uint64_t pose = pose_key(subject, camera);
    studio.subject_key =
        ContentKey().add(studio.form_key).add(pose).add(colour_key(subject)).value();
    const bool same_pose = previous != nullptr && previous->form == studio.form &&
                           pose_key(previous->set.subject, previous->set.camera) == pose &&
                           colour_key(previous->set.subject) == colour_key(subject);
    studio.subject = same_pose ? previous->subject
                               : std::make_shared<const PosedSubject>(
                                     pose_subject(*studio.form, subject, camera.position_m));
}

/// Dry skin has an index of about 1.40, oily skin comes near the 1.55 of its dry outer layer, and
/// its film is smoother (Ding et al. 2006 and Yoshida et al. 2013, after summaries).
Material skin_material(const Subject& subject) {
    const auto oil = static_cast<float>(subject.skin_oil);
    Material skin = materials::painted(subject.skin, 0.46F * (1.0F - 0.30F * oil), Finish::skin);
    skin.f0 = 0.028F + 0.0185F * oil;
    return skin;
}

Parts subject_parts(const Studio& studio) {
    const PosedSubject& posed = *studio.subject;
    const Subject& subject = studio.set.subject;
    struct Piece {
        const char* part;
        const std::shared_ptr<const Mesh>& mesh;
        Material material;
    };
    // Specular lobes of skin and hair belong to the renderer; these are their base values.
    // Clear lenses are left out: they throw no shadow and are drawn as glass, not as a surface.
    const glm::vec3 felt(subject.hat ? subject.hat->reflectance.rgb : Vec3(0.0));
    const glm::vec3 rims(subject.glasses ? subject.glasses->frame.rgb : Vec3(0.0));
    const std::array<Piece, 7> pieces{
        {{"skin", posed.skin, skin_material(subject)},
         {"hair", posed.hair, materials::painted(subject.hair, 0.45F, Finish::hair)},
         {"wisps", posed.strands, materials::painted(subject.hair, 0.45F, Finish::hair)},
         {"clothing", posed.clothing,
          materials::painted(subject.clothing,
                             subject.clothing_finish == ClothFinish::satin ? 0.52F : 0.80F,
                             Finish::cloth)},
         {"eyes", posed.eyes, {glm::vec3(0.62F, 0.60F, 0.57F), 0.12F, 0.04F, false, Finish::eye}},
         {"hat", posed.hat, {felt, 0.90F, 0.04F, false, Finish::plain}},
         {"glasses", posed.frame, {rims, 0.30F, 0.04F, false, Finish::plain}}}};
    Parts parts;
    for (const Piece& piece : pieces) {
        if (piece.mesh == nullptr || piece.mesh->triangles.empty()) continue;
        ScenePart part;
        part.owner = "subject";
        part.part = piece.part;
        part.mesh = piece.mesh;
        const bool worn = piece.mesh == posed.hat || piece.mesh == posed.frame;
        part.material = subject.grey_card && !worn ? materials::grey_card() : piece.material;
        part.casts = piece.mesh != posed.strands;
        part.mask = part.casts ? ray_mask::subject : ray_mask::strands;
        part.key = ContentKey().add(studio.subject_key).add(piece.part).value();
        parts.push_back(std::move(part));
    }
    return parts;
}

/// Lets the last light made shine as its file says; a file that cannot be used is noted and the
/// light shines as computed.
void measure_light(Studio& studio, const Studio* previous) {
    static const StoredDistributions none;
    const std::size_t index = studio.emitters.size() - 1;
    const Light& light = studio.set.lights[index];
    const auto stored = stored_distribution(*light.modifier.photometric, studio.folder,
                                            previous != nullptr ? previous->measured : none);
    studio.measured.push_back(stored);
    if (stored->problem) {
        Problem problem = *stored->problem;
        problem.path =
            "lights[" + std::to_string(index) + "].modifier.photometric.path: " + problem.path;
        studio.problems.push_back(std::move(problem));
        return;
    }
    fit_measured(studio.emitters[index], light, stored->table, studio.set.meter);
    studio.light_keys[index] = ContentKey().add(studio.light_keys[index]).add(stored->key).value();
}

/// Poses and emitters of all lights; keys tell which of them moved.
void pose_lights(Studio& studio, const Studio* previous) {
    for (const Light& light : studio.set.lights) {
        const AimTarget target = resolve_aim(light, studio.subject->landmarks);
        studio.supports.push_back(pose_support(light, target));
        studio.emitters.push_back(make_emitter(light, studio.supports.back(), studio.set.meter));
        studio.light_keys.push_back(light_key(light, studio.supports.back()));
        if (light.modifier.photometric) measure_light(studio, previous);
    }
}

/// Meshes of every light; those of lights that did not move are the previous ones.
std::vector<Parts> make_lights(const Studio& studio, const Studio* previous) {
    std::vector<Parts> lights(studio.set.lights.size());
    tbb::parallel_for(std::size_t{0}, lights.size(), [&](std::size_t i) {
        const Light& light = studio.set.lights[i];
        const int index = static_cast<int>(i);
        const std::uint64_t first_key = first_part_key(light, studio.supports[i], index);
        lights[i] = donated(previous, light.id, first_key);
        if (lights[i].empty())
            lights[i] = light_parts(light, studio.supports[i], studio.emitters[i], index);
    });
    return lights;
}

void add_props(Studio& studio, const Studio* previous, const StoredMeshes& kept) {
    for (std::size_t i = 0; i < studio.set.props.size(); ++i) {
        const Prop& prop = studio.set.props[i];
        const auto stored = stored_mesh({prop.path, studio.folder, prop.unit, prop.up}, kept);
        studio.files.push_back(stored);
        if (stored->problem) {
            Problem problem = *stored->problem;
            problem.path = "props[" + std::to_string(i) + "].path: " + problem.path;
            studio.problems.push_back(std::move(problem));
            continue;
        }
        const std::uint64_t key = prop_key(prop, stored->key);
        Parts parts = donated(previous, prop.id, part_key(key, 0));
        if (parts.empty()) parts = prop_parts(prop, stored->mesh, key);
        add_parts(studio.scene, std::move(parts), previous);
    }
}

void make_scene(Studio& studio, const Studio* previous, const StoredMeshes& kept) {
    const Set& set = studio.set;
    const auto add = [&](const std::string& owner, std::uint64_t first_key, auto&& build) {
        Parts parts = donated(previous, owner, first_key);
        if (!parts.empty())
            std::move(parts.begin(), parts.end(), std::back_inserter(studio.scene.parts));
        else
            add_parts(studio.scene, build(), previous);
    };
    add("room", first_part_key(set.room), [&] { return room_parts(set.room); });
    add("background", first_part_key(set.background),
        [&] { return background_parts(set.background); });
    add_parts(studio.scene, subject_parts(studio), nullptr);
    add("subject", first_seat_key(set.subject), [&] { return seat_parts(set.subject); });
    for (const Panel& panel : set.panels)
        add(panel.id, first_part_key(panel), [&] { return panel_parts(panel); });
    add_props(studio, previous, kept);
    for (Parts& light : make_lights(studio, previous))
        add_parts(studio.scene, std::move(light), previous);
    add("camera", first_part_key(set.camera), [&] { return camera_parts(set.camera); });
}

bool same_for_rays(const Scene& a, const Scene& b) {
    return std::equal(a.parts.begin(), a.parts.end(), b.parts.begin(), b.parts.end(),
                      [](const ScenePart& one, const ScenePart& other) {
                          return one.mesh == other.mesh && one.mask == other.mask;
                      });
}

/// The previous ray scene where nothing moved, else a new one: others may still be asking the old.
/// What did not move is shared between the two.
void make_rays(Studio& studio, const Studio* previous) {
    if (previous == nullptr) {
        studio.rays = scene_rays(studio.scene, {}, nullptr);
        return;
    }
    studio.movers = previous->movers;
    studio.rays = previous->rays;
    if (same_for_rays(studio.scene, previous->scene)) return;
    studio.movers = movers_after(previous->scene, studio.scene, previous->movers);
    studio.rays = scene_rays(studio.scene, studio.movers, previous->rays.get());
}

} // namespace

AimTarget resolve_aim(const Light& light, const Landmarks& landmarks) {
    AimTarget target;
    target.feather_deg = light.aim.feather_deg;
    switch (light.aim.kind) {
    case AimKind::angles:
        target.is_direction = true;
        target.direction = direction_from({light.aim.azimuth_deg, light.aim.elevation_deg});
        break;
    case AimKind::point:
        target.point_m = light.aim.point_m;
        break;
    case AimKind::landmark:
        // A name that no landmark has was refused when the document was read.
        if (!find_landmark(landmarks, light.aim.landmark, target.point_m))
            target.point_m = landmarks.face;
        break;
    }
    return target;
}

std::shared_ptr<const Studio> make_studio(const Set& set,
                                          const std::shared_ptr<const Studio>& previous,
                                          const std::filesystem::path& folder,
                                          const StoredMeshes& at_hand) {
    const StoredMeshes kept = kept_files(previous.get(), at_hand);
    auto studio = std::make_shared<Studio>();
    studio->set = set;
    studio->folder = folder;
    make_subject(*studio, previous.get(), kept);
    pose_lights(*studio, previous.get());
    make_scene(*studio, previous.get(), kept);
    make_rays(*studio, previous.get());
    return studio;
}

} // namespace keystead
