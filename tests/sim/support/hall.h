// A room whose walls and ceiling are in nothing's way.
#pragma once

#include "sim/set/set.h"

namespace keystead {

inline Room hall() {
    Room room;
    room.width_m = room.depth_m = 12.0;
    room.left_of_subject_m = room.behind_subject_m = 6.0;
    room.ceiling_m = 5.0;
    return room;
}

} // namespace keystead
