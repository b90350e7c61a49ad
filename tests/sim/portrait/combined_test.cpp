// Several lights: crossed nose shadows, and fill that leaves the name alone.
#include "heads.h"
#include "pattern_rows.h"
#include "plain_faces.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;
using plain_faces::disc_at;

namespace {

constexpr double small_m = 0.05, large_m = 0.9;

Emitter lamp(double azimuth_deg, double elevation_deg, double size_m, const std::string& id,
             double stops_below = 0.0) {
    Emitter emitter = disc_at(heads::mean_male().form, azimuth_deg, elevation_deg, size_m);
    emitter.light = id;
    emitter.power = std::exp2(-stops_below);
    return emitter;
}

CombinedPattern read(const std::vector<Emitter>& lamps) {
    return read_combined_pattern(*heads::mean_male().chart, lamps, Mat3(1.0), Vec3(0.0));
}

} // namespace

TEST_CASE("Two like lamps from opposite sides cross; a weaker or a frontal one does not",
          "[portrait]") {
    for (const pattern_rows::Pair& pair : pattern_rows::pairs())
        for (const double size : {small_m, large_m}) {
            const CombinedPattern both =
                read({lamp(pair.azimuth_deg, pair.elevation_deg, size, "first"),
                      lamp(pair.other_azimuth_deg, pair.other_elevation_deg, size, "second",
                           pair.other_stops_below)});
            INFO("(" << pair.azimuth_deg << ", " << pair.elevation_deg << ") and ("
                     << pair.other_azimuth_deg << ", " << pair.other_elevation_deg << ") at -"
                     << pair.other_stops_below << " stops, " << size
                     << " m: " << name_of(both.pattern) << "; " << pair.basis << ". " << both.note);
            CHECK((both.pattern == Pattern::crossed) == pair.crossed);
        }
}

TEST_CASE("Crossed light says which lights make the two shadows", "[portrait]") {
    const CombinedPattern both =
        read({lamp(45, 35, large_m, "left box"), lamp(-45, 35, large_m, "right box")});
    REQUIRE(both.pattern == Pattern::crossed);
    CHECK(both.key != both.other);
    CHECK(both.note.find("left box") != std::string::npos);
    CHECK(both.note.find("right box") != std::string::npos);
}

TEST_CASE("A frontal fill two stops down changes no name", "[portrait]") {
    const Emitter small_fill = lamp(0, 5, small_m, "fill", 2.0);
    const Emitter wide_fill = lamp(0, 10, 1.5, "wide fill", 2.0);
    for (const pattern_rows::Row& row : pattern_rows::patterns()) {
        if (!row.certain() || row.azimuth_deg > 60 || row.elevation_deg < 0 ||
            row.elevation_deg > 60)
            continue;
        const Emitter key = lamp(row.azimuth_deg, row.elevation_deg, large_m, "key");
        INFO("(" << row.azimuth_deg << ", " << row.elevation_deg << ")");
        const CombinedPattern narrow = read({key, small_fill}), wide = read({wide_fill, key});
        CHECK(narrow.pattern == narrow.alone[0].pattern);
        CHECK(wide.pattern == wide.alone[1].pattern);
        CHECK(narrow.key == 0);
        CHECK(wide.key == 1);
    }
}

TEST_CASE("A lamp behind or switched off is not the light that the pattern is named after",
          "[portrait]") {
    const Emitter key = lamp(30, 25, large_m, "key");
    const Emitter bright_rim = lamp(140, 30, large_m, "rim", -2.0);
    Emitter off = lamp(-30, 25, large_m, "off");
    off.power = 0.0;
    const CombinedPattern set = read({bright_rim, off, key});
    CHECK(set.key == 2);
    CHECK(set.pattern == Pattern::loop);
    REQUIRE(set.alone.size() == 3);
    CHECK(set.alone[0].pattern == Pattern::rim);
    CHECK(set.alone[1].pattern == Pattern::loop);
}

TEST_CASE("No lamps and lamps from behind alone name no key pattern on the front", "[portrait]") {
    CHECK(read({}).key == -1);
    CHECK(read({}).pattern == Pattern::none);
    const CombinedPattern behind = read({lamp(135, 20, large_m, "rim")});
    CHECK(behind.pattern == Pattern::rim);
}
