// Parts of the document that a set may already hold but that no figure and no picture uses yet. A
// line goes when its part is built.
#include "sim/review/findings.h"

namespace keystead {

namespace {

struct Unused {
    std::string words;
    void name(bool given, const char* what) {
        if (!given || words.find(what) != std::string::npos) return;
        words += (words.empty() ? "" : ", ") + std::string(what);
    }
};

void name_light(const Light& light, Unused& unused) {
    const Head& head = light.head;
    unused.name(head.kind == HeadKind::continuous && (head.beam_cd_s || head.guide_number_m),
                "a continuous light's flash guide number");
    const Modifier& m = light.modifier;
    unused.name(m.beam_exponent != 1.0 || m.cutoff_half_deg < 90.0, "a beam's exponent or cut-off");
    unused.name(m.deflector_width_m > 0.0, "a dish's deflector");
    unused.name(m.barn_doors.has_value(), "barn doors");
    unused.name(m.photometric.has_value(), "measured distributions");
    unused.name(m.grid && m.grid->reading != GridReading::cells, "a grid's printed angle");
    unused.name(m.gel && m.gel->colour, "a gel's free colour");
}

} // namespace

void find_unused(const Set& set, Findings& findings) {
    Unused unused;
    for (const Light& light : set.lights) name_light(light, unused);
    if (unused.words.empty()) return;
    findings.push_back(
        {Level::warning, "not-used-yet", "set",
         "Kept in the set, but neither drawn nor counted in any figure yet: " + unused.words + ".",
         "Judge the set without them, or try them on the day."});
}

} // namespace keystead
