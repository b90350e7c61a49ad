// Studios and reviews of states other than the present one: kept states, steps of the build. A
// second worker, so that the present never waits for them; started when the first is asked for.
#pragma once

#include "engine/ui/workshop.h"

#include <functional>
#include <memory>
#include <optional>

namespace keystead::ui {

struct App;

class SideWork {
public:
    /// Asks for what is missing of the states that are shown or kept, one at a time.
    void ask(const App& app);
    /// Hands out what came back. True if anything changed.
    bool take(App& app);
    bool idle() const { return !workshop_ || (!asked_ && workshop_->idle()); }

private:
    std::unique_ptr<Workshop> workshop_;
    std::uint64_t ticket_ = 0;
    /// What the ticket stands for: a kept state's number, or a step of the build.
    struct Asked {
        int kept = 0, step = -1;
        std::uint64_t revision = 0; ///< of the document it belongs to: never repeats
        bool operator==(const Asked&) const = default;
    };
    std::optional<Asked> asked_;

    std::optional<Asked> missing(const App& app) const;
};

} // namespace keystead::ui
