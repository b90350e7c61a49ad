// A session in a process of its own that is killed at any moment, and what it leaves on disk.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace keystead::ui::testing {

/// What the session told before it was killed, each with the time by CLOCK_MONOTONIC.
struct Told {
    enum class What { state, saving, saved } what{};
    double at_s = 0.0;
    std::size_t set = 0; ///< hash of the set's text
};

struct KilledSession {
    std::vector<Told> told;
    double killed_s = 0.0;
    int status = 0; ///< as waitpid gives it
};

/// Runs the hidden test `[.session]` of this program on FOLDER/set.json, with FOLDER/state for its
/// unsaved copies, and kills it (SIGKILL) `after_s` after its first frame.
KilledSession run_and_kill(const std::filesystem::path& folder, std::uint64_t seed, double after_s);

double monotonic_s();
std::size_t hash_of_text(const std::string& text);

} // namespace keystead::ui::testing
