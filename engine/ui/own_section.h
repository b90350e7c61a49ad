// The subject's own file in its panel: unit, axis, what it shows, and its five points.
#pragma once

#include "engine/ui/side_panel.h"
#include "sim/studio/own_points.h"

namespace keystead::ui {

/// What the window calls the five points, in the document's order.
inline constexpr std::array<const char*, 5> own_point_words{"nose tip", "left pupil", "right pupil",
                                                            "chin", "top"};

/// "found, 85 % sure", "placed by hand", "not found".
std::string found_words(const std::optional<HeadPoint>& point);

/// The sentence about a file that the studio could not use; empty if there is none. `path` is the
/// document's: `subject.file`, `props[0]`.
std::string trouble_with(const Studio* studio, const std::string& path);

void own_section(Flow& flow, const Shown& shown, OpenSections& open);

} // namespace keystead::ui
