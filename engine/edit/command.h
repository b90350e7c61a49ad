// Every change to a set is a command: one list serves as undo label, journal, replay and test.
#pragma once

#include "sim/base/result.h"
#include "sim/set/set.h"

#include <string>
#include <variant>
#include <vector>

namespace keystead {

/// Replaces one value of the document. `path` as in error messages, lights and panels by id:
/// `lights[key].support.column.height_m`; `value` is JSON text.
struct SetValue {
    std::string path;
    std::string value;
};
/// Adds a light from catalogue entries; an empty id is chosen.
struct AddLight {
    std::string id, role, support, head, modifier;
};
struct RemoveLight {
    std::string id;
};
/// Several commands undone as one.
struct Batch;

using Command = std::variant<SetValue, AddLight, RemoveLight, Batch>;

struct Batch {
    std::string label;
    std::vector<Command> commands;
};

/// What the undo list says: "column height of key".
std::string label_of(const Command& command);

/// The set after the command, validated; or what is wrong, and the set unchanged.
/// Write `keystead::apply`: unqualified, std::apply can be taken for it.
Result<Set> apply(const Set& set, const Command& command);

} // namespace keystead
