// A set's changes that are in no file of the user's yet, as a copy on disk: what it is a copy of,
// when, and by which session.
#pragma once

#include "sim/base/result.h"
#include "sim/set/set.h"

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace keystead::ui {

struct UnsavedCopy {
    std::filesystem::path file; ///< whole path of the set's own file; empty: it never had one
    std::int64_t written_s = 0; ///< since 1970, UTC
    Set set;                    ///< relative paths in it start where `file` is
};

/// One line that says all but the set, then the set's text as its own file would have it.
std::string unsaved_text(const UnsavedCopy& copy);
/// The problem's path starts with the copy's name.
Result<UnsavedCopy> read_unsaved(const std::filesystem::path& file);

/// $XDG_STATE_HOME/keystead/unsaved, else ~/.local/state/…; empty without a home.
std::filesystem::path unsaved_folder();
/// Where this process keeps its copy: no other's, also where the system counts processes anew.
std::filesystem::path own_copy(const std::filesystem::path& folder);

/// A copy that a session left behind which broke off.
struct LeftBehind {
    std::filesystem::path copy, file;
    std::string name; ///< of the set
    std::int64_t written_s = 0;
};

/// Newest first. Copies of sessions that still run are theirs; those that say what the set's own
/// file or a newer copy says too are taken away, as are half-written ones.
std::vector<LeftBehind> left_behind(const std::filesystem::path& folder);

/// "14:03" of today, "27 Nov 14:03" of another day, in local time.
std::string when_words(std::int64_t written_s, std::int64_t now_s);
std::int64_t seconds_now();

} // namespace keystead::ui
