// What the pixels of a view see, kept compactly so that lights can be added again and again without
// casting rays from the eye: the processor's counterpart of a G-buffer.
#pragma once

#include "sim/studio/studio.h"
#include "sim/transport/picture_size.h"
#include "sim/transport/view.h"

#include <glm/glm.hpp>
#include <memory>

namespace keystead {

/// About 30 bytes a pixel: distance, both normals, colour and gloss, part, triangle and place in
/// it; more only where hair or lenses of glasses are.
class SeenPicture {
public:
    struct Data;
    explicit SeenPicture(std::unique_ptr<Data> data);
    ~SeenPicture();

    PictureSize size() const;
    std::size_t bytes() const; ///< of memory
    const Data& data() const { return *data_; }

private:
    std::unique_ptr<Data> data_;
};

/// Casts a ray a pixel, moved by `offset_px` from the pixel's middle (as OpenGL moves its picture:
/// to the right and up). `reuse` (may be null) donates what the scene has in common with an earlier
/// one; it may be of any set, view and size. The same bytes at any number of threads.
std::shared_ptr<SeenPicture> see_picture(const Studio& studio, const View& view, PictureSize size,
                                         glm::vec2 offset_px, const SeenPicture* reuse = nullptr);

/// Room position that a pixel (from the top left) sees; w: number of the part in the scene plus
/// one, 0 = nothing.
glm::vec4 seen_position(const SeenPicture& picture, int x_px, int y_px);

/// The part that a pixel sees, -1 = nothing.
int seen_part(const SeenPicture& picture, int x_px, int y_px);

} // namespace keystead
