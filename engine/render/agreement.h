// A picture against the reference: where they agree, by how much they differ, and where most.
#pragma once

#include "engine/render/filler.h"
#include "sim/transport/reference.h"

#include <cstdint>
#include <string>
#include <vector>

namespace keystead {

/// Sums over a region. `error` is what the reference's noise alone may put between them.
struct RegionMean {
    std::size_t pixels = 0;
    double picture = 0.0, reference = 0.0; ///< mean luminance, cd·s/m²
    double error = 0.0;                    ///< standard error of `reference`
    /// How much brighter the picture is than the reference, 0.01 = one per cent.
    double excess() const { return reference > 0.0 ? picture / reference - 1.0 : 0.0; }
    double excess_error() const { return reference > 0.0 ? error / reference : 0.0; }
};

/// A tile of the picture that differs.
struct Place {
    int x_px = 0, y_px = 0; ///< its middle
    std::string owner, part;
    RegionMean mean;
    double off_grey = 0.0; ///< difference as shares of a metered 18 % grey
};

struct Agreement {
    RegionMean face;           ///< skin of the head: empty where it is not in the picture
    RegionMean picture;        ///< everything that is seen
    double within_error = 0.0; ///< share of pixels within three standard errors of the reference
    double within_loose = 0.0; ///< share within three standard errors or two per cent
    std::vector<Place> worst;  ///< the largest differences that noise does not explain
};

/// Scene part that each pixel's middle sees, rows from the top; `ray_miss` where nothing is.
struct SeenParts {
    std::vector<std::uint32_t> parts;
    std::vector<char> face; ///< is it skin of the head?
};
SeenParts parts_seen(const Studio& studio, const View& view, int width_px, int height_px);

/// Both pictures of one size. `exposure` maps radiance so that 0.18 is grey; `worst`: how many.
Agreement agreement(const LinearImage& picture, const ReferencePicture& reference,
                    const Studio& studio, const SeenParts& seen, double exposure, int worst = 5);

/// Grey where they agree, red where the picture is brighter, blue where it is darker, full colour
/// at half a stop; noise of the reference is smoothed over three pixels.
RgbaImage difference_map(const LinearImage& picture, const ReferencePicture& reference);

} // namespace keystead
