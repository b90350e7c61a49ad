// The window as a whole: on screen, or once into a file.
#pragma once

#include "engine/render/choose_filler.h"

#include <string>

namespace keystead {

struct WindowOptions {
    std::string set_file;   ///< empty: an empty set
    std::string theme;      ///< "dark", "light"; empty: as last time
    double scale = 0.0;     ///< size of the interface; 0: what the screen says
    std::string screenshot; ///< write the settled window to this PNG and leave; needs no screen
    std::string frame_log;  ///< one JSON line a frame goes there: what took how long; empty: none
    int width_px = 1280, height_px = 720;
    bool learn = false; ///< shadows named, patterns charted
    std::string view;   ///< "upright", "landscape", "row", "room"; empty: by the frame
    std::string select; ///< id of a light or panel, "subject", "camera", "room"; screenshot only
    FillerKind filler = FillerKind::automatic;
    double settle_s = 60.0; ///< screenshot: longest wait for picture and review
};

/// Runs until it is closed. Messages go to stderr. Returns the exit code: 0 done, 2 the set cannot
/// be read or the log not written, 3 no screen or no OpenGL 4.1.
int run_window(const WindowOptions& options);

} // namespace keystead
