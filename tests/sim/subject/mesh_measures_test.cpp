// The six presets' finished meshes by caliper and tape, against the measures asked for. Those are
// the surveys' means and two standard deviations to either side: tests/data/anthropometry.csv.
#include "mesh_measures.h"

#include "sim/subject/measures.h"
#include "subject_fixture.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <map>
#include <sstream>

using namespace keystead;
using namespace subject_test;
using mesh_measures::measured;
using mesh_measures::Table;

namespace {

const char* const presets[] = {"mean-male",    "mean-female", "small-male",
                               "small-female", "large-male",  "large-female"};

struct Statistic {
    double mean_mm = 0.0, deviation_mm = 0.0; ///< deviation 0: none at hand
};

// Keyed by measure and sex, as "head_length/male".
std::map<std::string, Statistic> statistics() {
    std::ifstream file(std::string(KEYSTEAD_TEST_DATA) + "/anthropometry.csv");
    std::map<std::string, Statistic> rows;
    std::string line;
    std::getline(file, line);
    while (std::getline(file, line)) {
        std::istringstream fields(line);
        std::string measure, sex, mean, deviation;
        std::getline(fields, measure, ','), std::getline(fields, sex, ',');
        std::getline(fields, mean, ','), std::getline(fields, deviation, ',');
        rows[measure + "/" + sex] = {std::stod(mean),
                                     deviation.empty() ? 0.0 : std::stod(deviation)};
    }
    return rows;
}

double asked_mm(const std::string& preset, const std::string& measure) {
    static const std::map<std::string, Statistic> rows = statistics();
    const Statistic& s = rows.at(measure + "/" + preset.substr(preset.find('-') + 1));
    if (preset.starts_with("mean-")) return s.mean_mm;
    return s.mean_mm + (preset.starts_with("small-") ? -2.0 : 2.0) * s.deviation_mm;
}

Subject bald(const std::string& preset) {
    Subject subject;
    subject.proportions.preset = preset;
    subject.stature_m = preset_stature_m(preset);
    subject.hair_style = HairStyle::none;
    return subject;
}

const Table& table_of(const std::string& preset) {
    static std::map<std::string, Table> known;
    const auto found = known.find(preset);
    if (found != known.end()) return found->second;
    return known[preset] = measured(build_subject(bald(preset)));
}

void check(double Table::*measure, const char* name, double margin_mm) {
    for (const char* preset : presets) {
        INFO(preset << ", " << name);
        CHECK(table_of(preset).*measure == Approx(asked_mm(preset, name)).margin(margin_mm));
    }
}

} // namespace

TEST_CASE("Every preset's skull has its measures within a millimetre") {
    check(&Table::tragion_top, "tragion_top", 1.0);
    check(&Table::head_length, "head_length", 1.0);
    check(&Table::head_breadth, "head_breadth", 1.0);
    check(&Table::bizygomatic, "bizygomatic", 1.0);
    check(&Table::bigonial, "bigonial", 1.0);
}

TEST_CASE("Every preset's face has its measures within a millimetre") {
    check(&Table::menton_sellion, "menton_sellion", 1.0);
    check(&Table::nose_protrusion, "nose_protrusion", 1.0);
    check(&Table::nose_breadth, "nose_breadth", 1.0);
    check(&Table::interpupillary, "interpupillary", 1.0);
    // The corner under the nose is rounded by cells of two millimetres and moves with them.
    check(&Table::subnasale_sellion, "subnasale_sellion", 1.3);
    // The red runs out in a point finer than the mesh, whose last red vertex lies inside.
    check(&Table::lip_length, "lip_length", 1.6);
}

TEST_CASE("Every preset's neck and shoulders have their measures") {
    check(&Table::neck_girth, "neck_girth", 2.0);
    check(&Table::bideltoid, "bideltoid", 1.0);
    // No mark on the skin: a slope read off facets fifteen millimetres long.
    check(&Table::biacromial, "biacromial", 3.0);
}

TEST_CASE("The means' ears and upper lips have their measures") {
    // No deviations are at hand for these; away from the means they follow head and face.
    for (const char* preset : {"mean-male", "mean-female"}) {
        INFO(preset);
        const Table& t = table_of(preset);
        CHECK(t.ear_length == Approx(asked_mm(preset, "ear_length")).margin(1.0));
        CHECK(t.ear_breadth == Approx(asked_mm(preset, "ear_breadth")).margin(1.5));
        CHECK(t.philtrum == Approx(asked_mm(preset, "philtrum")).margin(1.0));
    }
}

TEST_CASE("Ears follow the height of the head, upper lips the lower face") {
    for (const char* preset : presets) {
        INFO(preset);
        const sculpt::Measures m = sculpt::preset_measures(preset);
        CHECK(table_of(preset).ear_length == Approx(m.ear_length).margin(1.2));
        CHECK(table_of(preset).ear_breadth == Approx(m.ear_breadth).margin(2.0));
        CHECK(table_of(preset).philtrum == Approx(m.philtrum).margin(1.5));
    }
}

TEST_CASE("A man's brow overhangs the eye by 9 to 11 millimetres, a woman's by 7 to 8") {
    // No published source at hand: the overhang that a key at 60 degrees needs to leave the
    // socket dark (common practice), and drawings of profiles.
    CHECK(table_of("mean-male").brow_ahead_of_cornea == Approx(10.0).margin(1.0));
    CHECK(table_of("mean-female").brow_ahead_of_cornea == Approx(7.5).margin(0.5));
}

TEST_CASE("A preset's stature lies two standard deviations from the mean") {
    for (const char* preset : presets) {
        INFO(preset);
        CHECK(preset_stature_m(preset) * 1000.0 ==
              Approx(asked_mm(preset, "stature")).margin(0.01));
    }
    CHECK(preset_stature_m("no such preset") == preset_stature_m("mean-male"));
}

TEST_CASE("The document's stature rules over the preset's") {
    Subject subject = bald("small-male");
    subject.stature_m = 1.80;
    const sculpt::Measures m = sculpt::measures_of(subject);
    CHECK(m.stature == Approx(1800.0));
    CHECK(m.sitting_height == Approx(1800.0 * (918.29 - 71.40) / (1756.21 - 137.10)));
    CHECK(m.head_length == Approx(199.50 - 14.04));
}

TEST_CASE("The mesh has the smaller measures that the document gives") {
    // Far from the means and together (no source: our own aim).
    Subject subject = bald("mean-male");
    Proportions& p = subject.proportions;
    p.tragion_top_mm = 138.0, p.nose_length_mm = 56.0, p.lip_length_mm = 46.0;
    p.philtrum_mm = 19.0, p.ear_length_mm = 70.0, p.ear_breadth_mm = 33.0;
    const Table t = measured(build_subject(subject));
    CHECK(t.tragion_top == Approx(138.0).margin(1.0));
    CHECK(t.subnasale_sellion == Approx(56.0).margin(1.3));
    CHECK(t.lip_length == Approx(46.0).margin(1.6));
    CHECK(t.philtrum == Approx(19.0).margin(1.5));
    CHECK(t.ear_length == Approx(70.0).margin(1.2));
    CHECK(t.ear_breadth == Approx(33.0).margin(2.0));
}

TEST_CASE("The form's key changes with each measure that the document can give") {
    const std::uint64_t key = form_key(mean_subject(false));
    using Given = std::optional<double> Proportions::*;
    const std::pair<Given, double> given[] = {
        {&Proportions::tragion_top_mm, 128.0}, {&Proportions::nose_length_mm, 50.0},
        {&Proportions::lip_length_mm, 48.0},   {&Proportions::philtrum_mm, 14.0},
        {&Proportions::ear_length_mm, 60.0},   {&Proportions::ear_breadth_mm, 33.0}};
    for (const auto& [measure, value] : given) {
        Subject subject = mean_subject(false);
        subject.proportions.*measure = value;
        CHECK(form_key(subject) != key);
    }
    Subject subject = mean_subject(false);
    subject.proportions.preset = "large-male";
    CHECK(form_key(subject) != key);
}
