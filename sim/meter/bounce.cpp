#include "sim/meter/bounce.h"

#include "sim/meter/probe_paths.h"

namespace keystead {

std::vector<double> bounce_at(const Studio& studio, const Probe& probe,
                              const BounceOptions& options) {
    return light_along(trace_probe(studio, probe, options, {}, nullptr, {}));
}

} // namespace keystead
