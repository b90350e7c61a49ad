// Light that a lens scatters: a look, never measured.
#pragma once

#include "engine/render/filler.h"

namespace keystead {

/// Spreads 2 % of the light over three bells of 0.6, 2.2 and 8 % of the picture's width (shares .5,
/// .3, .2): bright faces of lights read as sources. Judged on pictures, not taken from a lens.
/// Light is kept: what leaves a pixel arrives at others, and at the edges what would leave the
/// picture comes back into it.
void add_glare(LinearImage& picture);

} // namespace keystead
