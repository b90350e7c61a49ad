// Reading and writing the set document. One JSON file, UTF-8, `"format": "keystead-set"`.
#pragma once

#include "sim/base/result.h"
#include "sim/set/set.h"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace keystead {

/// A set plus what was odd but not wrong in its file (unknown fields, kept for re-saving).
struct LoadedSet {
    Set set;
    std::vector<Problem> notes;
};

/// Parses and validates. Gear written as `{"from": "id", ...}` starts from that catalogue entry.
/// Never throws; the first problem found is returned with its JSON path.
Result<LoadedSet> parse_set(std::string_view json_text);

/// Reads at most 16 MiB, then `parse_set`. The problem's path starts with the file's name.
Result<LoadedSet> load_set(const std::filesystem::path& file);

/// The document's text, two-space indented, keys in struct order, unknown fields last.
std::string write_set(const Set& set);

/// Writes a temporary file beside the target, flushes it to disk, keeps the previous version as
/// `FILE~`, then renames. On any failure the old file is still whole.
Outcome save_set(const Set& set, const std::filesystem::path& file);

/// Every range and cross-field rule of the document; the first that is broken.
Outcome validate(const Set& set);

} // namespace keystead
