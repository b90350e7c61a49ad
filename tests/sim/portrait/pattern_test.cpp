// Names of shadow patterns on generated heads, against what the trade calls them.
#include "heads.h"
#include "pattern_rows.h"
#include "plain_faces.h"

#include <catch2/catch.hpp>

using namespace keystead;
using plain_faces::disc_at;
using plain_faces::posed;

namespace {

constexpr double small_m = 0.05, large_m = 0.9;
const Mat3 level(1.0);
const Vec3 origin(0.0);

PatternReading read(const heads::Head& head, double azimuth_deg, double elevation_deg,
                    double size_m) {
    return read_pattern(*head.chart, disc_at(head.form, azimuth_deg, elevation_deg, size_m), level,
                        origin);
}

std::string name_at(const heads::Head& head, double azimuth_deg, double elevation_deg,
                    double size_m) {
    return name_of(read(head, azimuth_deg, elevation_deg, size_m).pattern);
}

void check_row(const heads::Head& head, const pattern_rows::Row& row) {
    for (const double size : {small_m, large_m}) {
        const PatternReading reading = read(head, row.azimuth_deg, row.elevation_deg, size);
        const auto& allowed = size == small_m ? row.small_lamp : row.large_lamp;
        INFO(head.name << ", lamp " << size << " m at (" << row.azimuth_deg << ", "
                       << row.elevation_deg << "): " << name_of(reading.pattern) << ", expected "
                       << pattern_rows::joined(allowed) << "; " << row.basis << ". "
                       << reading.note);
        CHECK(pattern_rows::allows(allowed, name_of(reading.pattern)));
    }
}

} // namespace

TEST_CASE("A small key at the trade's five reference directions makes the five patterns",
          "[portrait]") {
    const heads::Head& head = heads::mean_male();
    CHECK(name_at(head, 0, 45, small_m) == "butterfly");
    CHECK(name_at(head, 30, 25, small_m) == "loop");
    CHECK(name_at(head, 50, 40, small_m) == "rembrandt");
    CHECK(name_at(head, 90, 10, small_m) == "split");
    CHECK(name_at(head, 135, 20, small_m) == "rim");
}

TEST_CASE("Means and sitters two deviations smaller or larger read what the trade names",
          "[portrait]") {
    // Every row: certain ones by their one name, those at a border by one of the two beside it.
    REQUIRE(heads::presets().size() == 6);
    for (const heads::Head& head : heads::presets())
        for (const pattern_rows::Row& row : pattern_rows::patterns()) check_row(head, row);
}

TEST_CASE("A man's face reads the patterns that the trade names, or one of two at a border",
          "[portrait]") {
    for (const pattern_rows::Row& row : pattern_rows::patterns())
        check_row(heads::mean_male(), row);
}

TEST_CASE("A woman's face reads them alike", "[portrait]") {
    for (const pattern_rows::Row& row : pattern_rows::patterns())
        check_row(heads::mean_female(), row);
}

TEST_CASE("A lamp mirrored about the nose makes the mirrored pattern", "[portrait]") {
    for (const pattern_rows::Row& row : pattern_rows::patterns()) {
        if (!row.certain() || row.azimuth_deg == 0) continue;
        INFO("(" << row.azimuth_deg << ", " << row.elevation_deg << ")");
        const PatternReading one =
            read(heads::mean_male(), row.azimuth_deg, row.elevation_deg, large_m);
        const PatternReading other =
            read(heads::mean_male(), -row.azimuth_deg, row.elevation_deg, large_m);
        CHECK(one.pattern == other.pattern);
        CHECK(one.front_lit == Approx(other.front_lit).margin(0.01));
        CHECK(one.ring_stops == Approx(other.ring_stops).margin(0.2));
        CHECK(one.tip_shift_mm == Approx(-other.tip_shift_mm).margin(1.0));
    }
}

TEST_CASE("Turning head and lamp together changes nothing", "[portrait]") {
    const heads::Head& head = heads::mean_male();
    const Mat3 axes = head_rotation(25, -10, 6);
    const Vec3 place(0.3, 1.5, -0.2);
    for (const auto& [azimuth, elevation] : {std::pair(0.0, 45.0), {30.0, 25.0}, {50.0, 40.0}}) {
        const Emitter lamp = disc_at(head.form, azimuth, elevation, large_m);
        const PatternReading still = read_pattern(*head.chart, lamp, level, origin);
        const PatternReading turned =
            read_pattern(*head.chart, posed(lamp, axes, place), axes, place);
        CHECK(turned.pattern == still.pattern);
        CHECK(turned.face_angles.azimuth_deg == Approx(azimuth).margin(1e-9));
        CHECK(turned.ring_stops == Approx(still.ring_stops).margin(0.01));
        CHECK(turned.lost_light_mm2 == Approx(still.lost_light_mm2).epsilon(0.01));
    }
}

TEST_CASE("A key that follows the head keeps its pattern; one that stays behind loses it",
          "[portrait]") {
    // What learners get wrong: light is planned for a frontal head, then the head turns.
    const heads::Head& head = heads::mean_male();
    const Emitter lamp = disc_at(head.form, 50, 40, small_m);
    const Mat3 turned = head_rotation(-25, 0, 0);
    CHECK(read_pattern(*head.chart, lamp, level, origin).pattern == Pattern::rembrandt);
    CHECK(read_pattern(*head.chart, posed(lamp, turned, origin), turned, origin).pattern ==
          Pattern::rembrandt);
    CHECK(read_pattern(*head.chart, lamp, turned, origin).pattern != Pattern::rembrandt);
}

TEST_CASE("A finer and a coarser chart give certain directions the same names", "[portrait]") {
    const heads::Head& head = heads::mean_male();
    const auto fine = make_face_chart(head.form, 1.5), coarse = make_face_chart(head.form, 2.5);
    for (const pattern_rows::Row& row : pattern_rows::patterns()) {
        if (!row.certain()) continue;
        const Emitter lamp = disc_at(head.form, row.azimuth_deg, row.elevation_deg, small_m);
        INFO("(" << row.azimuth_deg << ", " << row.elevation_deg << ")");
        CHECK(std::string(name_of(read_pattern(*fine, lamp, level, origin).pattern)) ==
              name_of(read_pattern(*coarse, lamp, level, origin).pattern));
    }
}

TEST_CASE("The ring falls away steadily from loop to Rembrandt, so the border is one number",
          "[portrait]") {
    // Growing azimuth at one height joins nose and cheek shadow once and for good.
    double last = -1.0;
    for (double azimuth = 25; azimuth <= 55; azimuth += 5) {
        const PatternReading reading = read(heads::mean_male(), azimuth, 35, large_m);
        INFO("azimuth " << azimuth << ": " << reading.ring_stops << " stops");
        CHECK(reading.ring_stops > last);
        last = reading.ring_stops;
    }
}

TEST_CASE("The lit triangle is no wider than the eye allows and no longer than the nose",
          "[portrait]") {
    const heads::Head& head = heads::mean_male();
    const PatternReading reading = read(head, 50, 40, small_m);
    REQUIRE(reading.patch);
    // The trade's words, with the slack that thresholds.h states.
    CHECK(reading.patch->width_mm <= 1.4 * head.form.lines.eye_width_mm);
    CHECK(reading.patch->height_mm <= 1.2 * head.form.lines.nose_length_mm);
    CHECK(reading.patch->ring_stops >= 2.0);
    CHECK_FALSE(read(head, 30, 25, small_m).patch);
}

TEST_CASE("A note says in numbers what decided", "[portrait]") {
    const PatternReading loop = read(heads::mean_male(), 30, 25, small_m);
    CHECK(loop.note.find("stops under the patch, 1.75 needed") != std::string::npos);
    CHECK_FALSE(loop.near_border);
    const PatternReading split = read(heads::mean_male(), 90, 10, small_m);
    CHECK(split.note.find("dark to the midline") != std::string::npos);
}

TEST_CASE("A name close to its border says so, and across the border the other does",
          "[portrait]") {
    std::string last;
    bool warned_before = false;
    int changes = 0;
    // One degree at a time from butterfly through loop to Rembrandt.
    for (double azimuth = 8; azimuth <= 50; azimuth += 1) {
        const PatternReading reading = read(heads::mean_male(), azimuth, 40, large_m);
        const std::string name = name_of(reading.pattern);
        INFO("azimuth " << azimuth << ": " << name << "; " << reading.note);
        if (!last.empty() && name != last) {
            ++changes;
            CHECK((warned_before || reading.near_border));
        }
        last = name;
        warned_before = reading.near_border;
    }
    CHECK(last == "rembrandt");
    CHECK(changes == 2);
}

TEST_CASE("Deep eyes under a heavy brow lose a high key before others do", "[portrait]") {
    // Common practice: a key steeper than the brow allows leaves the sockets dark.
    const heads::Head& deep = heads::deep_eyed();
    CHECK(read(heads::mean_male(), 0, 20, large_m).eye_visible[0] > 0.95);
    CHECK(read(deep, 0, 20, large_m).eye_visible[0] > 0.95);
    const PatternReading mean = read(heads::mean_male(), 0, 60, large_m);
    const PatternReading shaded = read(deep, 0, 60, large_m);
    for (int eye = 0; eye < 2; ++eye) {
        CHECK(shaded.eye_visible[eye] < mean.eye_visible[eye] - 0.1);
        CHECK(shaded.eye_by_brow[eye] == Approx(1.0 - shaded.eye_visible[eye]).margin(0.05));
    }
}

TEST_CASE("How far the head may turn ends where the name beyond begins", "[portrait]") {
    const heads::Head& head = heads::mean_male();
    const Emitter lamp = disc_at(head.form, 50, 40, large_m);
    const PatternHold hold = pattern_hold(*head.chart, lamp, 0, 0, 0, origin);
    const auto name_turned = [&](double turn_deg) {
        return read_pattern(*head.chart, lamp, head_rotation(turn_deg, 0, 0), origin).pattern;
    };
    CHECK(hold.turn_min_deg < 0);
    CHECK(hold.turn_max_deg > 0);
    // Turning toward the lamp lessens the azimuth: loop; turning away leads out of the triangle.
    CHECK(hold.above == Pattern::loop);
    CHECK(name_turned(hold.turn_max_deg) == Pattern::rembrandt);
    CHECK(name_turned(hold.turn_max_deg + 0.5) == hold.above);
    CHECK(name_turned(hold.turn_min_deg) == Pattern::rembrandt);
    CHECK(name_turned(hold.turn_min_deg - 0.5) == hold.below);
}

TEST_CASE("How far the head may nod and the key may move ends where the name beyond begins",
          "[portrait]") {
    const heads::Head& head = heads::mean_male();
    const Emitter lamp = disc_at(head.form, 40, 35, large_m);
    const PatternHolds holds = pattern_holds(*head.chart, lamp, 0, 0, 0, origin);
    const Pattern here = read_pattern(*head.chart, lamp, level, origin).pattern;
    const auto nodded = [&](double deg) {
        return read_pattern(*head.chart, lamp, head_rotation(0, deg, 0), origin).pattern;
    };
    const auto keyed = [&](double azimuth_deg, double elevation_deg, double distance_m) {
        return read_pattern(
                   *head.chart,
                   disc_at(head.form, 40 + azimuth_deg, 35 + elevation_deg, large_m, distance_m),
                   level, origin)
            .pattern;
    };
    const auto check = [&](const HoldRange& range, double beyond, auto&& name_at) {
        CHECK(name_at(range.least) == here);
        CHECK(name_at(range.most) == here);
        if (range.below != here) CHECK(name_at(range.least - beyond) == range.below);
        if (range.above != here) CHECK(name_at(range.most + beyond) == range.above);
        CHECK((range.below != here || range.above != here));
    };
    check(holds.nod_deg, 0.5, nodded);
    check(holds.key_azimuth_deg, 0.5, [&](double deg) { return keyed(deg, 0, 1.3); });
    check(holds.key_height_deg, 0.5, [&](double deg) { return keyed(0, deg, 1.3); });
    CHECK(holds.key_distance_m.least < 1.3);
    CHECK(holds.key_distance_m.most > 1.3);
    CHECK(keyed(0, 0, holds.key_distance_m.least) == here);
    CHECK(keyed(0, 0, holds.key_distance_m.most) == here);
    // The key's way round an upright face about undoes a turn of the head, which turns about its
    // own middle and not about the nose root.
    CHECK(holds.turn_deg.least == Approx(-holds.key_azimuth_deg.most).margin(2.5));
    CHECK(holds.turn_deg.most == Approx(-holds.key_azimuth_deg.least).margin(2.5));
}
