// The set being edited with its undo list. Steps are snapshots: the document is kilobytes, and
// there are no inverse operations to get wrong.
#pragma once

#include "engine/edit/command.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace keystead {

class History {
public:
    explicit History(Set set);

    const Set& set() const { return *now_; }
    /// The same, to be kept while the history goes on.
    std::shared_ptr<const Set> snapshot() const { return now_; }
    /// Grows with every change, undo and redo included. Results stamped with an older one are
    /// stale.
    std::uint64_t revision() const { return revision_; }

    /// Applies the command: one undo step, or part of the drag in hand.
    Outcome run(const Command& command);

    /// From here to `commit_drag` all commands become one step.
    void begin_drag();
    void commit_drag();
    /// Back to how it was before the drag.
    void cancel_drag();
    bool dragging() const { return drag_.has_value(); }

    bool can_undo() const { return !undo_.empty() && !dragging(); }
    bool can_redo() const { return !redo_.empty() && !dragging(); }
    std::string undo_label() const { return can_undo() ? undo_.back().label : ""; }
    std::string redo_label() const { return can_redo() ? redo_.back().label : ""; }
    bool undo();
    bool redo();

    /// The set as it is now is what the file holds.
    void mark_saved() { saved_ = now_; }
    /// No file holds any of it: dirty until saved, also where undo ends.
    void mark_unsaved() { saved_.reset(); }
    bool dirty() const { return saved_ != now_; }

    /// All that happened since the start, one line each, undo and redo included.
    const std::string& journal() const { return journal_; }

private:
    using Snapshot = std::shared_ptr<const Set>;
    struct Step {
        std::string label;
        Snapshot before, after;
    };
    struct Drag {
        Snapshot before;
        std::vector<Command> commands; ///< the last value of each path only
    };

    void show(Snapshot set);
    void push(std::string label, const Command& command, Snapshot before);

    Snapshot now_, saved_;
    std::vector<Step> undo_, redo_;
    std::optional<Drag> drag_;
    std::uint64_t revision_ = 0;
    std::string journal_;
};

/// Plays a journal from the set it began with. A line that no longer fits stops it with its number.
Result<History> replay(Set start, std::string_view journal);

} // namespace keystead
