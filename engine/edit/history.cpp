#include "engine/edit/history.h"

#include "engine/edit/become.h"
#include "engine/edit/journal.h"
#include "sim/set/set_io.h"

#include <algorithm>

namespace keystead {

namespace {

constexpr std::size_t most_steps = 1000;
constexpr std::string_view undo_line = "{\"undo\":true}";
constexpr std::string_view redo_line = "{\"redo\":true}";

/// A drag says the same path many times; only its last value matters.
void add_to_drag(std::vector<Command>& commands, const Command& command) {
    if (const auto* value = std::get_if<SetValue>(&command)) {
        const auto same = std::find_if(commands.begin(), commands.end(), [&](const Command& c) {
            const auto* earlier = std::get_if<SetValue>(&c);
            return earlier != nullptr && earlier->path == value->path;
        });
        // Moved to the end, so that replay meets the values in the order they last came.
        if (same != commands.end()) commands.erase(same);
    }
    commands.push_back(command);
}

/// A drag as one command. Where its steps leaned on each other, the last values alone may not lead
/// to where it ended: then the parts of the document that it changed.
Command whole_drag(const std::vector<Command>& commands, const std::string& label,
                   const Set& before, const Set& after) {
    const Command last_values =
        commands.size() == 1 ? commands.front() : Command(Batch{label, commands});
    const Result<Set> again = keystead::apply(before, last_values);
    if (again && write_set(again.value()) == write_set(after)) return last_values;
    return become(before, after, label);
}

} // namespace

History::History(Set set)
    : now_(std::make_shared<const Set>(std::move(set)))
    , saved_(now_) {}

void History::show(Snapshot set) {
    now_ = std::move(set);
    ++revision_;
}

void History::push(std::string label, const Command& command, Snapshot before) {
    undo_.push_back({std::move(label), std::move(before), now_});
    if (undo_.size() > most_steps) undo_.erase(undo_.begin());
    redo_.clear();
    journal_ += journal_line(command) + "\n";
}

Outcome History::run(const Command& command) {
    Result<Set> changed = keystead::apply(*now_, command);
    if (!changed) return changed.problem();
    const Snapshot before = now_;
    show(std::make_shared<const Set>(std::move(changed).value()));
    if (drag_)
        add_to_drag(drag_->commands, command);
    else
        push(label_of(command), command, before);
    return {};
}

void History::begin_drag() {
    if (!drag_) drag_ = Drag{now_, {}};
}

void History::commit_drag() {
    if (!drag_) return;
    const Drag drag = std::move(*drag_);
    drag_.reset();
    if (drag.commands.empty()) return;
    const std::string label = label_of(drag.commands.back());
    push(label, whole_drag(drag.commands, label, *drag.before, *now_), drag.before);
}

void History::cancel_drag() {
    if (!drag_) return;
    const Snapshot before = drag_->before;
    drag_.reset();
    if (before != now_) show(before);
}

bool History::undo() {
    if (!can_undo()) return false;
    redo_.push_back(std::move(undo_.back()));
    undo_.pop_back();
    show(redo_.back().before);
    journal_ += std::string(undo_line) + "\n";
    return true;
}

bool History::redo() {
    if (!can_redo()) return false;
    undo_.push_back(std::move(redo_.back()));
    redo_.pop_back();
    show(undo_.back().after);
    journal_ += std::string(redo_line) + "\n";
    return true;
}

Result<History> replay(Set start, std::string_view journal) {
    History history(std::move(start));
    for (std::size_t line_number = 1; !journal.empty(); ++line_number) {
        const std::size_t end = std::min(journal.find('\n'), journal.size());
        const std::string_view line = journal.substr(0, end);
        journal.remove_prefix(std::min(end + 1, journal.size()));
        if (line.empty()) continue;
        Outcome problem;
        if (line == undo_line)
            history.undo();
        else if (line == redo_line)
            history.redo();
        else if (Result<Command> command = read_journal_line(line))
            problem = history.run(command.value());
        else
            problem = command.problem();
        if (!problem) continue;
        problem->path = "journal line " + std::to_string(line_number) + ": " + problem->path;
        return *problem;
    }
    return history;
}

} // namespace keystead
