#include "engine/render/choose_filler.h"

#include "engine/render/packet_filler.h"
#include "engine/render/renderer.h"

namespace keystead {

std::optional<FillerKind> filler_kind(const std::string& word) {
    if (word == "automatic") return FillerKind::automatic;
    if (word == "opengl") return FillerKind::opengl;
    if (word == "processor") return FillerKind::processor;
    return std::nullopt;
}

FillerKind resolved(FillerKind wanted, bool has_opengl, bool opengl_is_software) {
    if (wanted != FillerKind::automatic) return wanted;
    return has_opengl && !opengl_is_software ? FillerKind::opengl : FillerKind::processor;
}

std::unique_ptr<Filler> make_filler(FillerKind kind) {
    if (kind == FillerKind::opengl) return std::make_unique<Renderer>();
    return std::make_unique<PacketFiller>();
}

} // namespace keystead
