// Where one lamp's shadows lie on a face, and what throws them: for drawing and naming them. The
// pattern's own measures stay with measure.h; here is the half-way line, the middle of a penumbra.
#pragma once

#include "sim/portrait/face_light.h"

#include <optional>
#include <vector>

namespace keystead {

/// What keeps most of the lamp from a place that sees less than half of it.
enum class ShadowCause : std::uint8_t {
    nothing, ///< at least half of the lamp is seen
    turned_away,
    nose,
    brow,
    lid,
    hair,
    hat,
    glasses,
    ear,
    lip,
    cheek,
    chin,
    body, ///< of the sitter: neck, shoulder, hand
    room  ///< a panel, a stand, another lamp
};
inline constexpr std::size_t shadow_cause_count = 14;

/// What else stands in the room, and where the head is in it. No rays: an empty room.
struct RoomAround {
    const RayScene* rays = nullptr;
    std::uint32_t mask = ray_mask::gear | ray_mask::panel;
    Mat3 head_axes{1.0};
    Vec3 head_origin_m{0.0};
};

/// By cell of the chart's fine grid.
struct FaceShadows {
    std::vector<double>
        seen; ///< share of the lamp seen past head and room, blurred as measures are
    std::vector<ShadowCause> cause; ///< `nothing` off the face, too
    /// The brightest place of a patch on the far cheek that shadows close off by the pattern's own
    /// limits (joined_stops, patch_level); nothing where there is no such patch.
    std::optional<std::size_t> patch;
};

/// `lamp` is in the head's frame (see in_head_frame), `light` is what it does to `chart.fine`.
FaceShadows shadows_on_face(const FaceChart& chart, const Emitter& lamp, const FaceLight& light,
                            const RoomAround& around = {});

/// Cells of one cause that touch by a side.
struct ShadowArea {
    ShadowCause cause = ShadowCause::nothing;
    std::vector<std::size_t> cells;
    double area_mm2 = 0.0;
    Region mostly = Region::other; ///< what most of it lies on
    bool is_patch = false;         ///< the lit patch of `FaceShadows::patch`
};
/// Largest first; hair counts as off the face.
std::vector<ShadowArea> shadow_areas(const ChartGrid& grid, const FaceShadows& shadows);

/// Skin, lids, lips, ears and eyes: where an outline means something.
bool on_skin(const ChartGrid& grid, std::size_t cell);

} // namespace keystead
