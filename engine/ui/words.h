// Sentences and names the window shows: gear, directions, how a stand stands.
#pragma once

#include "engine/ui/drawn.h"
#include "engine/ui/units.h"
#include "sim/review/review.h"

#include <string>
#include <vector>

namespace keystead::ui {

/// "octa 0.90 m", "strip 0.30 × 1.20 m", "bare lamp"; with the grid: "octa 0.90 m, grid 40°".
std::string modifier_words(const Modifier& modifier);
/// "roller stand", "century stand with an arm".
std::string support_words(const Support& support);
std::string grid_words(const Grid& grid);
std::string head_words(const Head& head);
/// "reflector", "V-flat".
const char* panel_words(PanelKind kind);
/// "left cheek, feathered 12°", "a point", "30° down".
std::string aim_words(const Aim& aim);
std::string bag_place_words(const Bag& bag);
/// Catalogue name of an entry id; the id where the catalogue has none.
std::string entry_name(const std::string& id);

/// "Stands, 11.2° to tip", "Falls toward the subject".
std::string verdict_head(const Stability& stability, const Vec2& base_m);
/// What lies behind it, one or two sentences.
std::string verdict_body(const Stability& stability, const Vec2& base_m);
/// The assumption that matters most, in small type.
std::string verdict_assumption(const Support& support, const StabilityLimits& limits);

/// "loop", "short side", "f/8 + 3/10", "lit : shadow 3.2" as far as they are known.
std::vector<std::string> caption_parts(const Review& review);
/// "holds −6° to +11°", or empty.
std::string hold_words(const Review& review);
/// "−0.4 stop", "1.0 stop", "0.0 stop"
std::string stops_words(double stops);
/// "f/8", "f/5.6" as engraved.
std::string f_words(double f_number);

/// "1.41 to the face, 42° round from the nose, 31° above it".
std::string place_words(const Drawn& drawn, std::size_t light, Units units);

/// Names and document words of the landmarks a light can aim at.
struct LandmarkName {
    const char* word;
    const char* shown;
};
const std::vector<LandmarkName>& landmark_names();

} // namespace keystead::ui
