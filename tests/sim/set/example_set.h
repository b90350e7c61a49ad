// A small set for tests of the document.
#pragma once

#include "sim/set/set_io.h"

#include <stdexcept>
#include <string>

namespace example {

/// Two lights and a panel, written by hand as a person would.
inline std::string text() {
    return R"({
  "format": "keystead-set", "version": 1,
  "name": "bench by the window",
  "room": {"width_m": 5.4, "depth_m": 7.0, "ceiling_m": 3.0, "walls": 0.56, "floor": [0.23, 0.225, 0.215]},
  "subject": {"posture": "seated", "head_turn_deg": 12, "proportions": {"nose_protrusion_mm": 20.5}},
  "lights": [
    {"id": "key", "role": "key", "head": {"from": "monolight-400", "power_stops_below": 2},
     "modifier": {"from": "octa-120"},
     "support": {"from": "century-40-arm", "base": {"position_m": [-1.2, 1.0], "turn_deg": 130},
                 "column": {"height_m": 2.1}, "arm": {"reach_m": 0.6, "rise_deg": 20},
                 "bags": [{"from": "bag-11.3", "leg": 1, "at_m": 0.3}]}},
    {"id": "rim", "modifier": {"from": "strip-30x90-grid"}, "aim": {"kind": "point", "point_m": [0, 1.4, 0]}}
  ],
  "panels": [{"id": "flat", "kind": "v_flat", "position_m": [1.2, 0, 0.4]}]
})";
}

inline keystead::Set set() {
    const auto loaded = keystead::parse_set(text());
    if (!loaded) throw std::runtime_error(loaded.problem().message());
    return loaded.value().set;
}

/// The text with the first `from` replaced by `to`.
inline std::string with(const std::string& from, const std::string& to) {
    std::string changed = text();
    const std::size_t at = changed.find(from);
    if (at == std::string::npos) throw std::runtime_error("the example has no " + from);
    return changed.replace(at, from.size(), to);
}

} // namespace example
