#include "engine/plate/plate_sets.h"

#include "engine/plate/plate_sitters.h"
#include "engine/plate/ten_patterns.h"

#include <array>
#include <cmath>

namespace keystead {

namespace {

struct Cut {
    HairStyle style;
    const char* label;
};
constexpr std::array<Cut, 3> cuts{
    {{HairStyle::cropped, "cropped"}, {HairStyle::bob, "bob"}, {HairStyle::tied, "tied up"}}};

struct Side {
    double turn_deg;
    const char* label;
};
constexpr std::array<Side, 4> sides{
    {{0.0, "front"}, {38.0, "three-quarter"}, {90.0, "profile"}, {180.0, "back"}}};

constexpr std::array<Angles, 5> reference_directions{
    {{0.0, 45.0}, {30.0, 25.0}, {50.0, 40.0}, {90.0, 10.0}, {135.0, 20.0}}};

Plate heads_plate(bool hard) {
    Plate plate;
    for (const Cut& cut : cuts) {
        plate.groups.emplace_back(cut.label);
        for (const Side& side : sides) plate.columns.emplace_back(side.label);
    }
    for (const Sitter& sitter : plate_sitters()) {
        plate.rows.emplace_back(sitter.label);
        for (const Cut& cut : cuts)
            for (const Side& side : sides)
                plate.cells.push_back({.set = sitter_set(sitter, cut.style),
                                       .key = {45.0, 35.0},
                                       .hard = hard,
                                       .turn_deg = side.turn_deg,
                                       .picture_height_m = 0.47,
                                       .fill_below_stops = 3.6});
    }
    return plate;
}

Plate patterns_plate() {
    Plate plate;
    plate.name_patterns = true;
    for (const Angles& at : reference_directions)
        plate.columns.push_back(std::to_string(std::lround(at.azimuth_deg)) + "° round, " +
                                std::to_string(std::lround(at.elevation_deg)) + "° up");
    for (const Sitter& sitter : plate_sitters()) {
        plate.rows.emplace_back(sitter.label);
        for (const Angles& at : reference_directions)
            plate.cells.push_back({.set = sitter_set(sitter, sitter.cut),
                                   .key = at,
                                   .hard = true,
                                   .picture_height_m = 0.365,
                                   .fill_below_stops = 4.5});
    }
    return plate;
}

struct Shaper {
    const char* modifier;
    const char* caption;
};
constexpr std::array<Shaper, 12> shapers{{{"bare", "bare lamp"},
                                          {"reflector-18", "reflector, 18 cm"},
                                          {"reflector-18-grid-17", "with a 17° honeycomb"},
                                          {"reflector-18-doors", "with barn doors"},
                                          {"snoot-7", "snoot"},
                                          {"dish-55", "dish, 55 cm"},
                                          {"octa-135", "octa, 135 cm"},
                                          {"octa-90-grid", "octa, 90 cm, gridded"},
                                          {"strip-30x120", "strip, 30 × 120 cm"},
                                          {"umbrella-through-100", "shoot-through, 1 m"},
                                          {"lantern-65", "cloth ball, 65 cm"},
                                          {"ring-45", "ring light, 45 cm"}}};

Plate modifiers_plate() {
    Plate plate;
    plate.captioned = true;
    plate.columns = {"", "", "", ""};
    plate.rows = {"", "", ""};
    for (const Shaper& shaper : shapers)
        plate.cells.push_back({.set = sitter_set(plate_sitters()[1], HairStyle::tied),
                               .key = {38.0, 30.0},
                               .hard = true,
                               .picture_height_m = 0.42,
                               .fill_below_stops = 5.0,
                               .modifier = shaper.modifier,
                               .caption = shaper.caption,
                               .doors_deg = -24.0});
    return plate;
}

} // namespace

Plate make_plate(PlateKind kind, bool hard) {
    switch (kind) {
    case PlateKind::patterns:
        return patterns_plate();
    case PlateKind::modifiers:
        return modifiers_plate();
    case PlateKind::ten_patterns:
        return ten_patterns_plate();
    case PlateKind::heads:
        break;
    }
    return heads_plate(hard);
}

} // namespace keystead
