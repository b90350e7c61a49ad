#include "engine/ui/kept_prints.h"

#include "engine/gl/binding_guard.h"

#include <algorithm>

namespace keystead::ui {

namespace {

Texture copy_of(unsigned texture, int width, int height) {
    const BindingGuard guard;
    const Framebuffer source = make_framebuffer({texture}, 0);
    glBindFramebuffer(GL_READ_FRAMEBUFFER, source.id());
    Texture copy = make_texture(GL_RGBA8, width, height);
    glBindTexture(GL_TEXTURE_2D, copy.id());
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
    glCopyTexSubImage2D(GL_TEXTURE_2D, 0, 0, 0, 0, 0, width, height);
    return copy;
}

bool usable(const PictureShown& picture) {
    return picture.texture != 0 && picture.samples > 0 && picture.width > 0 && picture.height > 0;
}

} // namespace

RgbaImage read_texture(unsigned texture, int width, int height) {
    const BindingGuard guard;
    const Framebuffer source = make_framebuffer({texture}, 0);
    glBindFramebuffer(GL_READ_FRAMEBUFFER, source.id());
    const std::size_t row = 4U * static_cast<std::size_t>(width);
    std::vector<std::uint8_t> upward(row * static_cast<std::size_t>(height));
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glReadPixels(0, 0, width, height, GL_RGBA, GL_UNSIGNED_BYTE, upward.data());
    RgbaImage image{width, height, {}};
    image.pixels.reserve(upward.size());
    for (int y = height - 1; y >= 0; --y) {
        const auto from = upward.begin() + static_cast<std::ptrdiff_t>(row) * y;
        image.pixels.insert(image.pixels.end(), from, from + static_cast<std::ptrdiff_t>(row));
    }
    return image;
}

void KeptPrints::keep_up(const KeptStates& kept, const std::shared_ptr<const Studio>& studio,
                         const PictureShown& lens) {
    std::erase_if(prints_, [&](const Print& each) {
        const KeptState* state = kept.with(each.number);
        return state == nullptr || state->studio != each.studio;
    });
    if (studio == nullptr || !usable(lens)) return;
    for (const KeptState& state : kept.list)
        if (state.studio == studio && of(state).texture == 0) replace(state.number, studio, lens);
}

void KeptPrints::replace(int number, const std::shared_ptr<const Studio>& studio,
                         const PictureShown& picture) {
    if (!usable(picture)) return;
    std::erase_if(prints_, [&](const Print& each) { return each.number == number; });
    Print print{number, studio, copy_of(picture.texture, picture.width, picture.height), picture};
    print.shown.texture = print.texture.id();
    print.shown.noise_percent.reset();
    prints_.push_back(std::move(print));
}

PictureShown KeptPrints::of(const KeptState& state) const {
    for (const Print& each : prints_)
        if (each.number == state.number && each.studio == state.studio) return each.shown;
    return {};
}

} // namespace keystead::ui
