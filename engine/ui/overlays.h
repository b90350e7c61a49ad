// What lies over the window: the question about unsaved changes, the cautions, the keys.
#pragma once

#include "engine/ui/type.h"

#include <string>
#include <vector>

namespace keystead::ui {

enum class Answer { none, save, discard, stay };
/// The one modal question.
Answer unsaved_question(Pen pen, const Rect& area, const std::string& name);

/// A page of sentences; true when it is to be closed.
bool sentences_page(Pen pen, const Rect& area, const std::string& title,
                    const std::vector<std::string>& lines);

/// What the pointer and the keys do.
const std::vector<std::string>& key_lines();

} // namespace keystead::ui
