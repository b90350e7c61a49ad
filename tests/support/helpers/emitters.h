// Emitting faces with known exitance for tests: at the origin, beam along +Z.
#pragma once

#include "sim/light/emitter.h"
#include "sim/light/emitter_face.h"

namespace emitters {

inline keystead::Emitter face(keystead::ModifierShape shape, double width_m, double height_m,
                              double exitance) {
    keystead::Emitter emitter;
    emitter.light = "test";
    emitter.shape = shape;
    emitter.width_m = width_m;
    emitter.height_m = height_m;
    emitter.area_m2 = keystead::face_area_m2(emitter);
    emitter.exitance = exitance;
    return emitter;
}

} // namespace emitters
