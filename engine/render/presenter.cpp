#include "engine/render/presenter.h"

#include "engine/gl/binding_guard.h"
#include "engine/render/packet_filler.h"
#include "engine/render/renderer.h"

#include <glad/gl.h>

namespace keystead {

Presenter::Presenter(FillerKind kind) {
    if (kind == FillerKind::opengl)
        renderer_ = std::make_unique<Renderer>();
    else
        packets_ = std::make_unique<PacketFiller>();
}

Presenter::~Presenter() = default;

Filler& Presenter::filler() {
    if (renderer_) return *renderer_;
    return *packets_;
}

void Presenter::develop(const Display& display) {
    if (renderer_)
        presented_ = renderer_->present(display);
    else
        packets_->develop(display, true, developed_);
}

unsigned Presenter::upload() {
    if (renderer_) return presented_;
    if (developed_.width <= 0) return 0;
    const bool same = width_px_ == developed_.width && height_px_ == developed_.height;
    if (!same) {
        texture_ = make_texture(GL_RGBA8, developed_.width, developed_.height);
        width_px_ = developed_.width;
        height_px_ = developed_.height;
    }
    glBindTexture(GL_TEXTURE_2D, texture_.id());
    if (!same) {
        // Shown by a user interface at other sizes, too.
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
    }
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glTexSubImage2D(GL_TEXTURE_2D, 0, 0, 0, width_px_, height_px_, GL_RGBA, GL_UNSIGNED_BYTE,
                    developed_.pixels.data());
    return texture_.id();
}

} // namespace keystead
