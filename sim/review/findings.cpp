#include "sim/review/findings.h"

#include "sim/review/passes.h"

#include <algorithm>

namespace keystead {

std::vector<Finding> find_all(const Bench& bench, const Review& review) {
    Findings findings;
    find_about_supports(bench, review, findings);
    find_about_room(review, findings);
    find_about_light(bench, review, findings);
    find_about_eyes(bench, review, findings);
    find_about_glasses(bench, review, findings);
    find_about_tones(bench, review, findings);
    find_about_meter(bench, review, findings);
    find_about_picture(bench, review, findings);
    find_about_strays(bench, review, findings);
    find_about_people(bench, findings);
    std::stable_sort(findings.begin(), findings.end(),
                     [](const Finding& a, const Finding& b) { return a.level < b.level; });
    return findings;
}

} // namespace keystead
