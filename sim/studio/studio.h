// A set made concrete: posed subject, posed supports, emitters, scene and ray caster. Everything
// the review and the renderer start from. An update reuses what an edit did not touch.
#pragma once

#include "sim/light/emitter.h"
#include "sim/set/set.h"
#include "sim/shape/scene.h"
#include "sim/studio/scene_rays.h"
#include "sim/studio/stored_distribution.h"
#include "sim/studio/stored_mesh.h"
#include "sim/subject/subject.h"
#include "sim/support/pose.h"
#include "sim/transport/ray_scene.h"

#include <filesystem>
#include <memory>
#include <vector>

namespace keystead {

struct Studio {
    Set set;
    std::filesystem::path folder; ///< the set's own: what relative paths in it start from
    StoredMeshes files;           ///< meshes of the subject's file and of the props
    StoredDistributions measured; ///< of the lights that have a photometric file
    /// Files that could not be used, by document path. A generated sitter stands in for a subject
    /// whose file is unusable, so that the rest can still be seen; one whose points are not all
    /// known is shown where it will about be, so that they can be placed. No verdict is about the
    /// subject meant.
    std::vector<Problem> problems;
    std::shared_ptr<const SubjectForm> form;
    std::uint64_t form_key = 0;
    std::shared_ptr<const PosedSubject> subject;
    std::uint64_t subject_key = 0;         ///< changes with the form, the pose or its materials
    std::vector<SupportPose> supports;     ///< one a light
    std::vector<Emitter> emitters;         ///< one a light
    std::vector<std::uint64_t> light_keys; ///< changes when a light's geometry does, not its power
    Scene scene;
    Movers movers;                  ///< owners that stand apart in `rays`
    std::shared_ptr<RayScene> rays; ///< all of `scene`, mesh ids in `scene` order
};

/// Where `light` looks in this set with this subject.
AimTarget resolve_aim(const Light& light, const Landmarks& landmarks);

/// Builds everything; `previous` (may be null) donates what is unchanged. `folder` is the set's.
/// Meshes `at_hand` are not read again.
std::shared_ptr<const Studio> make_studio(const Set& set,
                                          const std::shared_ptr<const Studio>& previous = nullptr,
                                          const std::filesystem::path& folder = {},
                                          const StoredMeshes& at_hand = {});

} // namespace keystead
