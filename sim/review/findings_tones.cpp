// Skin that comes out white.
#include "sim/review/findings.h"
#include "sim/review/say.h"
#include "sim/set/json_text.h"

#include <cmath>

namespace keystead {

namespace {

// Judgements of ours: a glint is a few thousandths of a face; a twentieth is a bleached cheek.
constexpr double glint_percent = 0.5, bleached_percent = 5.0;
/// A rim of gloss along a cheek is often meant.
constexpr double bleached_gloss_percent = 15.0;

} // namespace

void find_about_tones(const Bench& bench, const Review& review, Findings& findings) {
    const auto& clipped = review.exposure.clipped;
    if (!clipped || clipped->percent < glint_percent || clipped->mostly_by.empty()) return;
    const double bleached = clipped->by_gloss ? bleached_gloss_percent : bleached_percent;
    Finding finding{clipped->percent >= bleached ? Level::warning : Level::note, "skin-clips",
                    clipped->mostly_by,
                    "Bleaches " + say::number(clipped->percent, 1) +
                        " % of the face to pure white" +
                        (clipped->by_gloss ? ", by gloss: it would not on dull skin" : "") + ".",
                    clipped->by_gloss ? "Powder, or a larger face for the same reading."
                                      : "Close the camera, or take light off."};
    if (clipped->stops_less) {
        const double less = std::round(10.0 * *clipped->stops_less) / 10.0;
        finding.remedy = "Give it " + say::stops(less) + " less" +
                         (clipped->by_gloss ? ", or powder the skin." : ", or close the camera.");
        for (const Light& light : bench.studio.set.lights)
            if (light.id == clipped->mostly_by &&
                light.head.power_stops_below + less <= light.head.range_stops)
                finding.mend = {say::stops(less) + " less",
                                {{"lights[" + light.id + "].head.power_stops_below",
                                  number_text(light.head.power_stops_below + less)}}};
    }
    findings.push_back(std::move(finding));
}

} // namespace keystead
