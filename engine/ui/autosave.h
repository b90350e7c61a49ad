// Changes that are not saved yet, kept beside the program's settings so that a crash or a power cut
// loses at most half a minute.
#pragma once

#include "engine/ui/app.h"

#include <filesystem>
#include <vector>

namespace keystead::ui {

/// $XDG_STATE_HOME/keystead/unsaved, else ~/.local/state/…; empty without a home.
std::filesystem::path unsaved_folder();

class Autosave {
public:
    explicit Autosave(std::filesystem::path folder);

    /// Writes the set if it has changes and was last written `every_s` or longer ago; takes the
    /// copy away once everything is saved. Not while a drag is in hand.
    void keep(const App& app, double now_s, double every_s = 20.0);
    /// The session ended as a person wanted it to: nothing is left behind.
    void finish();

    /// Copies that another session left behind, newest first.
    static std::vector<std::filesystem::path> left_behind(const std::filesystem::path& folder);

private:
    std::filesystem::path folder_, file_;
    std::uint64_t written_ = 0;
    double written_s_ = -1e9;
};

} // namespace keystead::ui
