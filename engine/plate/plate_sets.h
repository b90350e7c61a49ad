// The sets of a contact sheet: sitters, directions and lamps to compare, every one an ordinary set
// whose lights hang on stands that carry them.
#pragma once

#include "sim/base/frames.h"
#include "sim/portrait/pattern.h"
#include "sim/studio/studio.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace keystead {

enum class PlateKind { heads, patterns, ten_patterns, modifiers };

struct PlateCell {
    Set set;           ///< room, sitter and camera; no light yet
    Angles key;        ///< where the key stands as seen from the face of the sitter
    bool hard = false; ///< an 18 cm reflector, else a 90 cm octa
    double turn_deg = 0.0, nod_deg = 0.0; ///< of the head
    double body_share = 1.0;              ///< shoulders turn by so much of the head's turn
    bool key_follows = false; ///< the key is carried with the head; else it stays where it stood
    double picture_height_m = 0.5;
    /// Reading of the umbrella behind the camera, below the key's; no umbrella where there is none.
    std::optional<double> fill_below_stops = 3.0;
    std::string modifier = {};             ///< catalogue entry of the key's, instead of `hard`'s
    std::string caption = {};              ///< written below the picture
    double doors_deg = 90.0;               ///< barn doors of the key's modifier, where it has them
    double key_distance_m = 1.4;           ///< from the face
    std::optional<Angles> second_key = {}; ///< a like lamp of the same reading
    std::optional<double> over_stops = {}; ///< of the key's reading over the camera's f-number
    /// Of a lamp low behind the sitter that lights the background only, where there is one: its
    /// reading on it over the camera's f-number.
    std::optional<double> background_stops = {};
    std::optional<Pattern> meant = {}; ///< all lights together are to make it
};

struct Plate {
    std::vector<std::string> groups;  ///< equal shares of the columns; may be empty
    std::vector<std::string> columns; ///< heads of the columns
    std::vector<std::string> rows;
    bool name_patterns = false;   ///< the simulation's name is written below each picture
    bool captioned = false;       ///< the cell's own caption is
    bool skin_look = true;        ///< red past the shadow's edge
    std::vector<PlateCell> cells; ///< row by row
};

/// heads: four proportion presets in three volumes of hair from four sides under one key.
/// patterns: the same presets under a small key at the trade's five reference directions.
/// ten_patterns: one sitter under every pattern that has a name, and under none; frontal, turned
/// and chin down.
/// modifiers: one sitter under twelve modifiers in the same place with the same reading.
Plate make_plate(PlateKind kind, bool hard);

/// The cell with its key on a stand, powered so that a flat meter at the face turned to it reads a
/// little over the camera's f-number; a weak umbrella behind the camera. The camera is placed for
/// the sitter before any turn and stands still. `previous` may donate what is the same.
std::shared_ptr<const Studio> lit_studio(const PlateCell& cell,
                                         const std::shared_ptr<const Studio>& previous = nullptr);

} // namespace keystead
