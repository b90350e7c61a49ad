// What readings are taken with beside the studio: panels as they are lit, what was read before, and
// whether light by way of walls and floor counts. All values are lx·s at a light's present power:
// flash as it is, continuous light over the camera's shutter time; 0 for a light that is off.
#pragma once

#include "sim/meter/panel_share.h"
#include "sim/meter/probe_memory.h"

#include <vector>

namespace keystead {

struct ReadingAids {
    LitPanels panels{};            ///< empty: light off panels is not counted
    ProbeMemory* memory = nullptr; ///< of this studio; null: every ray is cast again
    bool bounce = false;           ///< count light by way of other surfaces
};

/// What one light gives a probe directly, and off panels where they are given lit.
double direct_lx_s(const Studio& studio, const ReadingAids& aids, std::size_t light,
                   const Probe& probe, int points = 128);
double off_panel_lx_s(const Studio& studio, const ReadingAids& aids, std::size_t light,
                      std::size_t panel, const Probe& probe);
double off_panels_lx_s(const Studio& studio, const ReadingAids& aids, std::size_t light,
                       const Probe& probe);

/// Of what one light does to all panels.
std::uint64_t panel_light_key(const Studio& studio, const ReadingKeys& keys, std::size_t light);

/// What each light gives a probe by way of other surfaces (see bounce.h); zeros where that is not
/// counted.
std::vector<double> bounces_lx_s(const Studio& studio, const ReadingAids& aids, const Probe& probe);

} // namespace keystead
