#include "sim/review/review.h"
#include "tools/keystead/commands.h"
#include "tools/keystead/common.h"
#include "tools/keystead/exit_codes.h"

#include <algorithm>
#include <cstdio>

namespace keystead {

int review_command(const ReviewArguments& arguments) {
    const std::optional<Set> set = load_or_complain(arguments.set);
    if (!set) return exit_code::input;
    const std::shared_ptr<const Studio> studio = studio_or_complain(*set, arguments.set);
    if (studio == nullptr) return exit_code::input;
    ReviewOptions options;
    options.margins = !arguments.quick;
    const Review review = review_set(*studio, options);
    const std::string text = arguments.json ? review_json(review) : review_text(review);
    std::fwrite(text.data(), 1, text.size(), stdout);
    if (!text.empty() && text.back() != '\n') std::fputc('\n', stdout);
    const bool danger =
        std::any_of(review.findings.begin(), review.findings.end(),
                    [](const Finding& finding) { return finding.level == Level::danger; });
    return danger ? exit_code::danger : exit_code::done;
}

} // namespace keystead
