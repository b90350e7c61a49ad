// The simulation's map of a face against a rendered picture: do both call the same places lit?
//
// The simulation (sim/portrait) traces each light over a chart of the generated head in its own
// frame, with its own lattice of short cuts, and then asks what else of the room is in the way. The
// picture (PacketFiller) shades what pixels see of the posed scene, with all of it in the way. They
// share the ray caster (Embree), the head's mesh before it is posed, and the text of how a face of
// a light emits; neither the points of the lights, nor the frame, nor the code that asks rays.
//
// How much of a light a place of the picture sees is read from two pictures of one light alone,
// direct and matt: as it is, and with nothing that throws a shadow. Their ratio needs no
// reflectance.
#pragma once

#include "engine/render/filler.h"
#include "sim/portrait/face_chart.h"

#include <optional>
#include <string>
#include <vector>

namespace keystead {

/// What is left out, and why.
namespace face_agreement_limit {
/// The simulation's share of the light that is seen (of what would arrive with nothing in the way)
/// between these is penumbra: there "lit or not" has no answer. It knows the share from 8 to 32
/// points of the light, so that one point more or less stays within.
inline constexpr double shadow = 0.05, lit = 0.95;
/// A surface that gets less than this of what a plate facing the light gets (6 degrees off edge-on)
/// counts as penumbra too, of the terminator: whether light grazes it is up to a triangle's tilt.
inline constexpr double grazing = 0.10;
/// The picture's verdict: half of the light seen. Of open light less than this share of the plate's
/// is none: a pixel's mixture must not make a place that faces away lit.
inline constexpr double half = 0.5, none = 0.02;
/// A pixel stands for a place if all nine pixels about it see the same part within this many pixel
/// widths of the place: no outlines, no lids' edges, nothing seen more edge-on than some 20
/// degrees.
inline constexpr double spread_px = 4.0;
/// The camera sees the chart's place if its ray ends this near to it. The neck bends with the head
/// and eyeballs turn: there the posed mesh is not the chart's.
inline constexpr double near_m = 1.5e-3;
} // namespace face_agreement_limit

/// What became of a place of the chart that the camera sees.
enum class FaceVerdict : std::uint8_t {
    both_lit,
    both_dark,
    only_picture_lit, ///< the simulation says shadow
    only_map_lit,     ///< the picture shows shadow
    penumbra,         ///< left out by the simulation's share, or grazing
    mixed             ///< left out by the picture: its pixel mixes
};

struct FacePlace {
    std::size_t cell = 0; ///< of the chart's fine grid
    int x_px = 0, y_px = 0;
    FaceVerdict verdict = FaceVerdict::mixed;
    double map_seen = 0.0, picture_seen = 0.0; ///< share of the light
    std::string blocker; ///< only_map_lit: what stands before the light's middle
};

/// One light's.
struct FaceAgreement {
    std::string light;
    std::vector<FacePlace> places;
    std::size_t count(FaceVerdict verdict) const;
    std::size_t compared() const;
    std::size_t agreed() const;
    double share() const; ///< agreed of compared; 1 where nothing was
};

struct FaceComparison {
    View view; ///< through the set's camera, closely around the face
    int width_px = 0, height_px = 0;
    std::size_t covered = 0;           ///< places of the chart
    std::size_t seen = 0;              ///< of which the camera sees
    std::vector<FaceAgreement> lights; ///< those that are on and reach the face's plate
};

struct FaceComparisonOptions {
    double pixel_mm = 1.0; ///< at the face
    int samples = 64;      ///< points of each light
};

/// Empty without a generated or imported head in sight.
std::optional<FaceComparison> compare_face(const std::shared_ptr<const Studio>& studio,
                                           const FaceChart& chart,
                                           const FaceComparisonOptions& options = {});

/// As the camera sees it: light grey both lit, dark grey both in shadow, blue left out as penumbra,
/// black left out as mixed; red where only the picture is in shadow, yellow where only the map is.
RgbaImage face_map(const FaceComparison& comparison, const FaceAgreement& light);

} // namespace keystead
