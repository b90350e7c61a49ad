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
