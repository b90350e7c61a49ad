// Copies of lens pictures as they were when their states were kept, so that flipping to one shows
// a finished picture at once.
#pragma once

#include "engine/gl/objects.h"
#include "engine/render/filler.h"
#include "engine/ui/kept_states.h"
#include "engine/ui/lens_view.h"

#include <vector>

namespace keystead::ui {

/// A texture's content, rows from the top.
RgbaImage read_texture(unsigned texture, int width, int height);

/// Needs its OpenGL context current for its whole life.
class KeptPrints {
public:
    /// Copies the lens picture for every state it belongs to that has no print yet, and throws away
    /// prints of states that are gone.
    void keep_up(const KeptStates& kept, const std::shared_ptr<const Studio>& studio,
                 const PictureShown& lens);
    /// A better picture of a state than its print was.
    void replace(int number, const std::shared_ptr<const Studio>& studio,
                 const PictureShown& picture);
    /// Its texture is 0 where there is none.
    PictureShown of(const KeptState& state) const;

private:
    struct Print {
        int number = 0;
        std::shared_ptr<const Studio> studio;
        Texture texture;
        PictureShown shown;
    };
    std::vector<Print> prints_;
};

} // namespace keystead::ui
