// Which filler makes the picture on this machine.
#pragma once

#include "engine/render/filler.h"

#include <memory>
#include <optional>
#include <string>

namespace keystead {

enum class FillerKind {
    automatic, ///< OpenGL on a graphics card, else the processor
    opengl,
    processor
};

/// By its word: automatic, opengl, processor.
std::optional<FillerKind> filler_kind(const std::string& word);

/// What `automatic` comes to: a software OpenGL is slower than the processor filler (and none at
/// all is slower still).
FillerKind resolved(FillerKind wanted, bool has_opengl, bool opengl_is_software);

/// The same for a window, whose frames must not wait for a picture: with some threads to spare the
/// processor makes it beside the window, and a graphics card is left to draw the frames.
FillerKind resolved_for_window(FillerKind wanted, bool opengl_is_software, unsigned threads);

/// `kind` must be resolved; OpenGL needs its context current.
std::unique_ptr<Filler> make_filler(FillerKind kind);

} // namespace keystead
