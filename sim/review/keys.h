// Keys that say whether an earlier result still holds.
#pragma once

#include "sim/studio/shades.h"
#include "sim/studio/studio.h"

#include <cstddef>
#include <cstdint>

namespace keystead {

/// Of the statics of light `index`: its posed mass points, feet, ratings and the thresholds.
std::uint64_t statics_key(const Studio& studio, std::size_t index);

/// Of light `index` alone on the face: its geometry, the subject, and everything that can shade it.
std::uint64_t alone_key(const Studio& studio, std::size_t index);

/// Of the shadows that the head itself throws on its face under light `index`: the light's geometry
/// and the subject.
std::uint64_t open_face_key(const Studio& studio, std::size_t index);

/// Of all shadows there: what stands between them too.
std::uint64_t face_key(const Studio& studio, std::size_t index, const Shades& shades);

/// Of how far the head may turn under light `index`: its geometry and the subject.
std::uint64_t hold_key(const Studio& studio, std::size_t index);

/// Of what the camera sees: every part of the scene, and the camera.
std::uint64_t sight_key(const Studio& studio);

} // namespace keystead
