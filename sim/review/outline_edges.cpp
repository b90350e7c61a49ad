#include "sim/review/memory.h"
#include "sim/review/outline.h"
#include "sim/review/passes.h"

namespace keystead {

std::vector<Edge> outline_edges(const Studio& studio) {
    ReviewMemory memory;
    const std::shared_ptr<const Sight> sight = sight_of(studio, memory);
    Bench bench = make_bench(studio, *sight);
    std::vector<BouncePlace> bounced;
    memory.probes.begin(studio);
    bench.aids = {{}, &memory.probes, true};
    bench.bounced = &bounced;
    bench.eye = &memory.eye;
    light_panels(bench, memory);
    return edges_of(bench);
}

} // namespace keystead
