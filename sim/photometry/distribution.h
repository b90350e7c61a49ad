// A measured luminous-intensity distribution, whatever file it came from.
//
// Angles follow IES LM-63 type C: V = 0 along the beam axis (nadir of a ceiling luminaire), H
// counts about it from the luminaire's length direction. Types A and B keep their own grid (see
// `type`).
#pragma once

#include "sim/base/vec.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace keystead {

/// Goniometer geometry. Local frame: z along the beam, x along the length direction, y up from it.
/// C: x = sin V cos H, y = sin V sin H, z = cos V. B: x = sin H, y = cos H sin V, z = cos H cos V.
/// A: x = cos V sin H, y = sin V, z = cos V cos H (A and B from memory of LM-75's definitions).
enum class Goniometer : std::uint8_t { type_c, type_b, type_a };

struct Distribution {
    Goniometer type = Goniometer::type_c;
    std::string format; ///< "IES LM-63-2002", "EULUMDAT", …
    std::string name;   ///< what the file says it is; may be empty
    /// Strictly increasing. Type C: V within 0..180, H from 0 to 360 with both ends (a single 0
    /// where the beam is the same all round). A and B: V and H within -90..90.
    std::vector<double> vertical_deg, horizontal_deg;
    std::vector<double> candela;         ///< [horizontal][vertical], all factors applied
    std::optional<double> stated_lumens; ///< of the lamps; absent in absolute photometry
    double watts = 0.0;
    /// Luminous opening: across (x), along the other side (y), deep (z); zero: a point. A round one
    /// gives its diameter as both.
    double width_m = 0.0, length_m = 0.0, height_m = 0.0;
    bool round = false;
    std::vector<std::string> notes; ///< what was assumed or mended; a sentence each

    double at(std::size_t h, std::size_t v) const { return candela[h * vertical_deg.size() + v]; }
};

/// Intensity by bilinear interpolation at the file's own angles; H wraps (type C). Zero outside the
/// range of V (and of H, for A and B): never extrapolated.
double candela_at(const Distribution& distribution, double vertical_deg, double horizontal_deg);

/// Intensity toward a unit direction of the local frame.
double candela_toward(const Distribution& distribution, const Vec3& direction);

/// Luminous flux: the integral of the interpolated distribution over the sphere. Type C in closed
/// form for each zone, A and B by 1° steps.
double lumens_of(const Distribution& distribution);

/// The zonal-lumen sum of the handbooks: 2 pi (cos a - cos b) I(mid-zone), mean over H.
double zonal_lumens(const Distribution& distribution, double zone_deg);

/// Largest intensity and the whole angle within which it stays above a share of that, in the plane
/// H = `horizontal_deg` and its opposite (0.5: beam angle; 0.1: field angle). Type C.
double peak_candela(const Distribution& distribution);
double beam_angle_deg(const Distribution& distribution, double horizontal_deg, double share);

} // namespace keystead
