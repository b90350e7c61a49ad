// How a seen picture is kept; for the kernels that make it and read it only.
#pragma once

#include "sim/transport/seen.h"
#include "sim/transport/surface_lanes.h"

#include <array>
#include <cstdint>
#include <vector>

namespace keystead {

inline constexpr std::size_t block_lanes = 16;

/// A part's number of a lane that sees nothing.
inline constexpr std::uint16_t no_part = 0xFFFF;

/// Sixteen pixels. Distances are in lengths of the line of sight as `SightLines` has it. Normals
/// are octahedral, sixteen bits a number; colours the square root of half the albedo.
struct alignas(32) SeenBlock {
    float distance[block_lanes];
    std::uint32_t geometric[block_lanes], normal[block_lanes];
    std::uint16_t red[block_lanes], green[block_lanes], blue[block_lanes];
    std::uint16_t roughness[block_lanes];
    std::uint16_t part[block_lanes];
};

/// Where in its part each lane's place is: for what is kept at the vertices.
struct alignas(32) SeenPlace {
    std::uint32_t triangle[block_lanes];
    std::uint16_t u[block_lanes], v[block_lanes]; ///< of 65535
};

/// Direction of the grain of hair, octahedral; 0 where there is none.
struct TangentBlock {
    std::uint32_t tangent[block_lanes];
};

/// Lenses of glasses in front of a block and eyes in it, and what they mirror there.
struct alignas(64) LensBlock {
    /// Sent back by the lens, 0 = no lens; negative: by a cornea, which takes nothing from what is
    /// seen behind it.
    std::array<float, block_lanes> share;
    std::array<float, block_lanes> from_x, from_y, from_z; ///< place on the lens
    std::array<float, block_lanes> x, y, z;                ///< what is mirrored
    SeenBlock mirrored;                                    ///< `distance` is not used
    SeenPlace place;
};

/// What a block need not be looked at for.
struct BlockFacts {
    bool sees = false;     ///< any lane
    bool one_part = false; ///< all lanes see the same part
    bool shining = false;  ///< some lane sees a light's face
    bool eyes = false;
    int tangents = -1; ///< number in the row's list, -1 = no hair
    int lens = -1;     ///< number in the row's list, -1 = no lens
};

/// Lists of a row of blocks, so that rows can be made at the same time.
struct SeenRow {
    std::vector<TangentBlock> tangents;
    std::vector<LensBlock> lenses;
};

/// Lines of sight of a view: from the eye along `corner` + x `right` + y `down` for pixel (x, y)
/// from the top left; their unit is the depth before the eye.
struct SightLines {
    glm::vec3 eye{0.0F}, corner{0.0F}, right{0.0F}, down{0.0F};
    float pixel_slope = 0.0F; ///< height of a pixel at unit depth
};

SightLines sight_lines(const View& view, PictureSize size, glm::vec2 offset_px);

struct SeenPicture::Data {
    PictureSize size;
    SightLines lines;
    std::shared_ptr<const SurfaceTable> table;
    std::unique_ptr<SeenBlock[]> blocks;
    std::unique_ptr<SeenPlace[]> places;
    std::vector<BlockFacts> facts;
    std::vector<SeenRow> rows;
};

} // namespace keystead
