// A filler whose pictures are textures, for a window's OpenGL context.
#pragma once

#include "engine/gl/objects.h"
#include "engine/render/choose_filler.h"

namespace keystead {

class PacketFiller;
class Renderer;

class Presenter {
public:
    /// Needs the window's context current for its whole life; `kind` must be resolved.
    explicit Presenter(FillerKind kind);
    ~Presenter();
    Presenter(const Presenter&) = delete;
    Presenter& operator=(const Presenter&) = delete;

    Filler& filler();

    /// The picture as it stands, developed: a texture (RGBA8, the bottom row first), 0 if there is
    /// none. Valid until the next call.
    unsigned present(const Display& display);

private:
    std::unique_ptr<Renderer> renderer_; ///< one of the two
    std::unique_ptr<PacketFiller> packets_;
    RgbaImage developed_;
    Texture texture_;
    int width_px_ = 0, height_px_ = 0; ///< of the texture
};

} // namespace keystead
