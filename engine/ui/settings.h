// What the window remembers between runs: theme, dividers, files opened lately. Never the set.
#pragma once

#include "engine/ui/hints.h"
#include "engine/ui/layout.h"
#include "engine/ui/seen_notes.h"
#include "engine/ui/theme.h"

#include <array>
#include <filesystem>
#include <vector>

namespace keystead::ui {

struct Settings {
    ThemeKind theme = ThemeKind::dark;
    Surround surround = Surround::theme;
    Units units = Units::metric;
    bool learn = false;           ///< shadows named, patterns charted
    int arrangement = 0;          ///< 0 by the frame, then as `Arrangement`
    std::array<Splits, 3> splits; ///< one for each arrangement
    std::vector<std::filesystem::path> recent;
    std::vector<SeenOfSet> seen;     ///< notes that needn't be told again
    int size_percent = 100;          ///< of type and marks, times what the screen says
    unsigned hints_done = all_hints; ///< `Hint` bits; none on the first run
};

/// $XDG_CONFIG_HOME/keystead/window.json, else ~/.config/…; empty without a home.
std::filesystem::path settings_file();
/// Unreadable or odd values fall back to the defaults. Without a file, it is the first run.
Settings load_settings(const std::filesystem::path& file);
/// Silently does nothing when it cannot be written.
void save_settings(const Settings& settings, const std::filesystem::path& file);

void remember_file(Settings& settings, const std::filesystem::path& file);

} // namespace keystead::ui
