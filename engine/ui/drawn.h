// What the drawing views and the side panel show at once, on the window's own thread: poses and
// statics of every support. Closed forms on a small document, some tens of microseconds, so a
// dragged stand and its verdict never lag behind the pointer. Light and portrait come from the
// workshop thread.
#pragma once

#include "sim/set/set.h"
#include "sim/subject/subject.h"
#include "sim/support/pose.h"
#include "sim/support/stability.h"

#include <vector>

namespace keystead::ui {

struct Drawn {
    Set set;
    bool has_subject = false; ///< the landmarks are a real subject's
    Landmarks landmarks;
    std::vector<SupportPose> poses; ///< one a light
    std::vector<Stability> stability;
};

/// `landmarks` may be null while the subject is being shaped: aims at a landmark then use the
/// stature alone.
Drawn draw_set(const Set& set, const Landmarks* landmarks);

} // namespace keystead::ui
