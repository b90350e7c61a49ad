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

FillerKind resolved_for_window(FillerKind wanted, bool opengl_is_software, unsigned threads) {
    // Sixteen threads beside a data centre's card: 4 ms a frame and a picture after 55 ms, where
    // the card itself took 40 ms and 90 ms (keystead-bench --window).
    constexpr unsigned some = 6;
    if (wanted == FillerKind::automatic && threads >= some) return FillerKind::processor;
    return resolved(wanted, true, opengl_is_software);
}

std::unique_ptr<Filler> make_filler(FillerKind kind) {
    if (kind == FillerKind::opengl) return std::make_unique<Renderer>();
    return std::make_unique<PacketFiller>();
}

} // namespace keystead
