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

    /// Filler and `develop` need no OpenGL: another thread may use them, one at a time.
    bool on_processor() const { return packets_ != nullptr; }

    /// Develops the picture as it stands.
    void develop(const Display& display);
    /// What was developed last: a texture (RGBA8, the bottom row first), 0 if there is none. Valid
    /// until the next call; needs the context.
    unsigned upload();

private:
    std::unique_ptr<Renderer> renderer_; ///< one of the two
    std::unique_ptr<PacketFiller> packets_;
    RgbaImage developed_;
    unsigned presented_ = 0; ///< the renderer's own texture
    Texture texture_;
    int width_px_ = 0, height_px_ = 0; ///< of the texture
};

} // namespace keystead
