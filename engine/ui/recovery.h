// Bringing back what a session that broke off had not saved.
#pragma once

#include "engine/ui/app.h"

namespace keystead::ui {

/// Looks for copies in `folder` and says so once, where there is room for a word.
void mention_left_behind(App& app, const std::filesystem::path& folder);

/// Shows the copy's set under the name of its own file, as not saved. The copy stays until that is
/// saved or `drop_copy` is asked for.
void bring_back(App& app, const std::filesystem::path& copy);
void drop_copy(App& app, const std::filesystem::path& copy);

/// The set in hand was saved: the copy it was brought back from has done its work.
void brought_back_is_saved(App& app);

} // namespace keystead::ui
