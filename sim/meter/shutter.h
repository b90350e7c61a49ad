// What the shutter does to the exposure: room light and modelling lamps that leak into a flash
// picture, the band that a curtain darkens, and the tail of a slow flash that it cuts off.
#pragma once

#include "sim/meter/point_reading.h"

#include <optional>
#include <string>
#include <vector>

namespace keystead {

/// Halogen modelling lamps give about so much light, of about that colour (common practice; the
/// document has only their watts). Other kinds differ several times over.
inline constexpr double modelling_lm_per_w = 20.0;
inline constexpr double modelling_k = 3000.0;

/// Light that is not flash, against all the flash on the face.
struct Leak {
    double stops_from_flash = 0.0; ///< negative: below it
    double stops_added = 0.0;      ///< to the exposure
};

struct TailLoss {
    std::string light;
    double worst_stops = 0.0; ///< on the row that closes first, of those the flash still reaches
    double best_stops = 0.0;  ///< on the row that closes last
};

struct ShutterReading {
    bool flash = false; ///< any flash reaches the face; the rest is empty without
    std::optional<Leak> room_light, modelling;
    double dark_share = 0.0; ///< of the frame's short side, covered before the flash fired
    std::string dark_edge;   ///< in words; empty without a band
    bool beyond_sync = false;
    std::vector<TailLoss> tails;            ///< every flash that is on
    std::optional<double> flash_k, mixed_k; ///< colour on the face: of flash alone, of all light
};

/// `face` is the reading at the face (the first of `read_points`).
ShutterReading read_shutter(const Set& set, const PointReading& face);

/// "1/125 s", "0.5 s".
std::string shutter_words(double shutter_s);

/// The mark of the shutter's scale at or next above a time: 1/200, 1/160, 1/125 … (thirds of a
/// stop, common practice).
double shutter_mark_at_least_s(double time_s);

} // namespace keystead
