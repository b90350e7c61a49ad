#include "sim/review/passes.h"

#include <algorithm>

namespace keystead {

std::vector<std::string> cautions_for(const Set& set) {
    std::vector<std::string> cautions{
        "This is a planning aid and certifies nothing. The makers' ratings, the venue's rules, "
        "local codes and licensed practice come first.",
        "Stands: firm level floor, wheels locked, bags hung before the head goes on and taken off "
        "after it. Wind, crowds and children are outside these figures.",
        "Lay cables along walls or tape them down, and mark legs that stand in a walkway.",
        "Modelling lamps and tubes burn: let them cool. Switch off and unplug before changing a "
        "tube or a head; flash capacitors stay charged, never open a head.",
        "Warn people who are sensitive to flashes, and keep flashes away from eyes at close "
        "range."};
    const bool overhead = std::any_of(set.lights.begin(), set.lights.end(), [](const Light& light) {
        return light.support.arm.has_value();
    });
    if (overhead)
        cautions.insert(cautions.begin() + 1,
                        "Arms and booms: tether what hangs over people with a short drop, stand "
                        "clear while raising or lowering, take the light off before its "
                        "counterweight only as the strike order says.");
    const bool heavy = std::any_of(set.lights.begin(), set.lights.end(), [](const Light& light) {
        return light.head.mass_kg + light.modifier.mass_kg > 5.0 ||
               light.support.kind == SupportKind::boom;
    });
    if (heavy) cautions.emplace_back("Heavy heads and booms are set up by two people.");
    return cautions;
}

} // namespace keystead
