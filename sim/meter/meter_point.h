// Where a hand meter is held, and which way it faces.
#pragma once

#include "sim/light/meter.h"
#include "sim/studio/studio.h"

#include <cstddef>
#include <optional>
#include <string>

namespace keystead {

/// The point that every set has: at the sitter's face.
inline constexpr const char* face_point = "face";

/// Index of the light with that id.
std::optional<std::size_t> light_index(const Set& set, const std::string& id);

/// The receptor of a point of the set; empty where it is to face a light that the set lacks.
/// Subject, gear, panels and background shade it.
std::optional<Probe> probe_of(const Studio& studio, const MeterPoint& point);

/// Dome a hand's breadth in front of the nose tip, toward the camera: what an exposure is set by.
Probe dome_at_face(const Studio& studio);

/// Flat receptor at the nose root toward one light, read as if the sitter held it: gear and panels
/// shade it, the sitter's own head does not.
Probe flat_at_face(const Studio& studio, std::size_t light);

/// Flat receptor before the face, turned 60° from it to the side that the light does not come from:
/// what fill and bounce give the shadow side.
Probe flat_to_shadow(const Studio& studio, std::size_t light);

/// Unit direction from a place to the middle of a light's face.
Vec3 way_to_light(const Studio& studio, std::size_t light, const Vec3& from_m);

/// Flash counts as it is, in lx·s (factor 1); continuous light over the camera's shutter time.
double counted_time_s(const Emitter& emitter, const Camera& camera);

/// What one light gives a probe at its present power, lx·s: flash as it is, continuous light over
/// the camera's shutter time; 0 for a light that is off.
double light_exposure_lx_s(const Studio& studio, std::size_t light, const Probe& probe,
                           int points = 128);

/// Room light over the camera's shutter time, lx·s. The document gives one figure for the whole
/// set: taken as coming alike from everywhere, it reads the same on any receptor.
double room_light_lx_s(const Set& set);

/// f-number that a receptor of that kind shows at the camera's ISO.
double f_number_on(const Set& set, Receptor receptor, double exposure_lx_s);

} // namespace keystead
