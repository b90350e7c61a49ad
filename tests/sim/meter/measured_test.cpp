// Lists of real readings: understanding them, and what they say about the prediction.
#include "tests/sim/review/bench_sets.h"

#include "sim/light/stops.h"
#include "sim/meter/reading_list.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace bench;

namespace {

Set list_set() {
    Set set;
    for (const char* id : {"key", "rim", "key two", "fill"}) {
        Light light;
        light.id = id;
        set.lights.push_back(light);
    }
    MeterPoint chin;
    chin.id = "chin";
    MeterPoint cheek;
    cheek.id = "left cheek";
    set.meter_points = {chin, cheek};
    return set;
}

std::vector<MeasuredReading> read(const std::string& text) {
    const auto readings = parse_reading_list(text, list_set());
    INFO((readings ? "" : readings.problem().message()));
    REQUIRE(readings);
    return readings.value();
}

std::string refused(const std::string& text) {
    const auto readings = parse_reading_list(text, list_set());
    REQUIRE_FALSE(readings);
    const std::string message = readings.problem().message();
    CHECK(message.find('\n') == std::string::npos);
    return message;
}

Set calibrated(double f_number) {
    Set set = plain_set();
    set.lights = {light_at("key", "octa-90", {-0.9, 2.1, 1.2}, {0, 1.59, 0.08})};
    set.lights[0].head.calibration = CalibrationReading{};
    set.lights[0].head.calibration->f_number = f_number;
    set.lights[0].head.calibration->distance_m = 1.6;
    return set;
}

} // namespace

TEST_CASE("Readings are read as people write them", "[meter][readings]") {
    // f/8 and 7 tenths is f/10.2, 5.6 and 3 f/6.28: 2^((3 + 0.7) / 2), 2^((2.5·2 + 0.3) / 2).
    const auto list = read("\xEF\xBB\xBF# a Tuesday\n"
                           "key 8.0\r\n"
                           "\n"
                           "rim f/5.6 + 3/10 at chin  # second try\n"
                           "fill\t8.0 7\n"
                           "key; f8 2/3; dome\n"
                           "rim;;\n"
                           "key two F11 at left cheek dome\n"
                           "fill 5,6 dome at face\n"
                           "rim: 11.50");
    REQUIRE(list.size() == 7);
    CHECK(list[0].light == "key");
    CHECK(list[0].at == "face");
    CHECK(list[0].f_number == Approx(8.0));
    CHECK(list[0].receptor == ReceptorKind::flat);
    CHECK(list[1].at == "chin");
    CHECK(list[1].f_number == Approx(6.28).margin(0.005));
    CHECK(list[2].f_number == Approx(10.2).margin(0.01));
    CHECK(list[3].receptor == ReceptorKind::dome);
    CHECK(list[3].f_number == Approx(8.0 * std::exp2(1.0 / 3.0)).epsilon(1e-9));
    CHECK(list[4].light == "key two");
    CHECK(list[4].at == "left cheek");
    CHECK(list[4].f_number == Approx(exact_f_number(11)));
    CHECK(list[5].f_number == Approx(exact_f_number(5.6)));
    CHECK(list[5].receptor == ReceptorKind::dome);
    CHECK(list[6].f_number == Approx(11.5));
}

TEST_CASE("A line that is wrong is named with what was expected", "[meter][readings]") {
    CHECK(refused("key 8\nkicker 4").find("line 2: \"kicker 4\"") != std::string::npos);
    CHECK(refused("kicker 4").find("key, rim, key two, fill") != std::string::npos);
    CHECK(refused("key").find("f/8 + 3/10") != std::string::npos);
    CHECK(refused("key bright").find("f-number") != std::string::npos);
    CHECK(refused("key 8.7").find("tenths") != std::string::npos);
    CHECK(refused("key F11.5").find("f/11.50") != std::string::npos);
    CHECK(refused("key 8 at nose").find("face, chin, left cheek") != std::string::npos);
    CHECK(refused("key 8 at chin please").find("\"please\"") != std::string::npos);
    CHECK(refused("key 0.1").find("outside") != std::string::npos);
    CHECK(refused("# nothing\n\n").find("expected") != std::string::npos);
    CHECK(refused("").find("expected") != std::string::npos);
    CHECK(refused("key -8").find("line 1") != std::string::npos);
    CHECK(refused("key nan").find("line 1") != std::string::npos);
    CHECK(refused(std::string(5000, 'x')).size() < 300);
    std::string many;
    for (int i = 0; i < 513; ++i) many += "key 8\n";
    CHECK(refused(many).find("line 513") != std::string::npos);
}

TEST_CASE("A second reading of the same light at the same place takes the first one's place",
          "[meter][readings]") {
    const Set once = with_readings(list_set(), read("key 8\nrim 4 at chin"));
    CHECK(once.measured.size() == 2);
    const Set again = with_readings(once, read("key 11\nkey 8 dome"));
    REQUIRE(again.measured.size() == 3);
    CHECK(again.measured[0].f_number == Approx(exact_f_number(11)));
    CHECK_FALSE(validate(again));
}

TEST_CASE("A light that reads a stop more than predicted is corrected by a stop", "[meter]") {
    Set set = calibrated(8.0);
    const double predicted = *quick_review(set).lights[0].f_number;
    MeasuredReading reading;
    reading.light = "key";
    reading.f_number = f_number_plus_stops(predicted, 1.0);
    set.measured = {reading};
    const Review review = quick_review(set);
    REQUIRE(review.measured.rows.size() == 1);
    CHECK(*review.measured.rows[0].predicted_f_number == Approx(predicted).epsilon(1e-9));
    CHECK(*review.measured.rows[0].stops == Approx(1.0).margin(1e-9));
    CHECK(correction_stops(review.measured, "key") == Approx(1.0).margin(1e-9));
    CHECK(correction_stops(review.measured, "rim") == 0.0);
    REQUIRE(review.meter[0].corrected);
    CHECK(*review.meter[0].corrected->f_number ==
          Approx(f_number_plus_stops(*review.meter[0].together.f_number, 1.0)).epsilon(1e-9));
    REQUIRE(finding(review, "measured-differs", "key") != nullptr);
    // The remedy: the head calibrated a stop brighter agrees with the meter.
    set.lights[0].head.calibration->f_number = exact_f_number(11.0);
    const Review agreed = quick_review(set);
    CHECK(*agreed.measured.rows[0].stops == Approx(0.0).margin(1e-6));
    CHECK(finding(agreed, "measured-differs") == nullptr);
    CHECK(review_text(review).find("correction +1.0") != std::string::npos);
}

TEST_CASE("Readings that disagree among themselves are not put down to output", "[meter]") {
    Set set = calibrated(8.0);
    MeterPoint chest;
    chest.id = "chest";
    chest.position_m = {0.0, 1.3, 0.4};
    set.meter_points = {chest};
    for (const char* place : {"face", "chest"}) {
        MeasuredReading reading;
        reading.light = "key";
        reading.at = place;
        set.measured.push_back(reading);
    }
    const MeasuredTable predicted = quick_review(set).measured;
    const auto measured = [&](double at_face, double at_chest) {
        set.measured[0].f_number =
            f_number_plus_stops(*predicted.rows[0].predicted_f_number, at_face);
        set.measured[1].f_number =
            f_number_plus_stops(*predicted.rows[1].predicted_f_number, at_chest);
        return quick_review(set);
    };
    const Review uneven = measured(0.2, 1.0);
    CHECK(uneven.measured.corrections.at(0).stops == Approx(0.6).margin(1e-6));
    CHECK(uneven.measured.corrections.at(0).spread_stops == Approx(0.8).margin(1e-6));
    CHECK(finding(uneven, "measured-uneven", "key") != nullptr);
    CHECK(finding(measured(0.2, 0.3), "measured-uneven") == nullptr);
}

TEST_CASE("A reading that can't be compared is told of", "[meter]") {
    Set set = calibrated(8.0);
    MeasuredReading gone;
    gone.light = "rim";
    MeasuredReading nowhere;
    nowhere.light = "key";
    nowhere.at = "chin";
    set.measured = {gone, nowhere};
    const Review review = quick_review(set);
    CHECK(review.measured.corrections.empty());
    CHECK(finding(review, "measured-unused", "rim") != nullptr);
    CHECK(finding(review, "measured-unused", "key")->message.find("chin") != std::string::npos);
    CHECK_FALSE(review.meter[0].corrected);
}
